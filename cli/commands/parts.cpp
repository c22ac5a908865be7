// `parts`: what to have in stock, and by when to order it.
#include "commands/commands.h"
#include "commands/progress.h"
#include "render/ahead_csv.h"
#include "render/ahead_json.h"
#include "render/parts_text.h"
#include "service/workload.h"
#include "session.h"
#include "terminal/look.h"

namespace cli {

int parts(Context& context) {
  const Arguments& arguments = context.arguments;
  const Session session = open_fleet(context);
  const service::Day to = outlook_option(arguments, "3m", session.today);
  const auto record = open_record(session.folder, service::Access::read);
  const auto snapshot = snapshot_of(session, record, {});
  const auto list =
      parts_list(snapshot, to, service::learnt_from(snapshot), progress(context, "drawing the ways ahead"));
  const std::string format = arguments.value("format").value_or("text");
  if (format == "json") {
    context.out = parts_as_json(list);
  } else if (format == "csv") {
    context.out = parts_as_csv(list);
  } else if (format == "md") {
    context.out = parts_as_markdown(list);
  } else {
    context.out = parts_as_text(list, look_of(context.world, arguments));
  }
  return 0;
}

}  // namespace cli
