// `workload`: what the months ahead will take.
#include "service/workload.h"

#include <fmt/format.h>

#include "commands/commands.h"
#include "commands/progress.h"
#include "render/ahead_csv.h"
#include "render/ahead_json.h"
#include "render/workload_text.h"
#include "session.h"
#include "terminal/look.h"

namespace cli {

int workload(Context& context) {
  const Arguments& arguments = context.arguments;
  const Session session = open_fleet(context);
  const service::Day to = outlook_option(arguments, "12m", session.today);
  const std::string by = arguments.value("by").value_or("month");
  if (by != "week" && by != "month") {
    throw service::Failure(service::Trouble::usage,
                           {"bad-choice", fmt::format("`--by {}` is not understood", by), "write week or month"});
  }
  const auto scope = scope_of(arguments, *session.fleet);
  const auto record = open_record(session.folder, service::Access::read);
  const auto snapshot = snapshot_of(session, record, scope);
  const auto load = service::workload(snapshot, to, by == "week" ? service::Step::week : service::Step::month,
                                      service::learnt_from(snapshot), progress(context, "drawing the ways ahead"));
  const std::string format = arguments.value("format").value_or("text");
  if (format == "json") {
    context.out = workload_as_json(load);
  } else if (format == "csv") {
    context.out = workload_as_csv(load);
  } else {
    context.out = workload_as_text(load, look_of(context.world, arguments));
  }
  return 0;
}

}  // namespace cli
