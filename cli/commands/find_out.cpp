// `find-out`: what is not known, as a list with blanks.
#include "commands/commands.h"
#include "render/csv.h"
#include "render/find_out_text.h"
#include "render/json.h"
#include "session.h"
#include "terminal/look.h"

namespace cli {

int find_out(Context& context) {
  const Arguments& arguments = context.arguments;
  const Session session = open_fleet(context);
  const service::Scope scope = scope_of_words(arguments, *session.fleet);
  const auto record = open_record(session.folder, service::Access::read);
  const auto list = due_list(snapshot_of(session, record, scope), {session.today, {}, service::Detail::standings},
                             service::straight_line());  // no odds are asked
  const std::string format = arguments.value("format").value_or("text");
  if (format == "json") {
    context.out = find_out_as_json(list);
  } else if (format == "csv") {
    context.out = find_out_as_csv(list);
  } else {
    context.out = find_out_as_text(list, look_of(context.world, arguments));
  }
  return 0;
}

}  // namespace cli
