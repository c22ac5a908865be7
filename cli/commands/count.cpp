// `count`: how many of a part lie on the shelf.
#include <fmt/format.h>

#include "commands/commands.h"
#include "commands/writing.h"

namespace cli {
namespace {

service::Measure count_of(const std::string& written) {
  const auto value = service::typed_measure(written);
  if (value) return *value;
  throw service::Failure(service::FailureKind::usage,
                         {"bad-number", fmt::format("the count `{}` {}", written, value.problem),
                          "write digits with a point, such as 4 or 11.5"});
}

}  // namespace

int count(Context& context) {
  const Session session = open_fleet(context);
  service::Fact fact;
  fact.kind = service::FactKind::count;
  fact.part = context.arguments.words[0];
  fact.value = count_of(context.arguments.words[1]);
  fact.on = service::DaySpan(day_option(context.arguments, "on", session.today));
  auto record = open_record(session.folder, service::Access::write);
  tell(context, write(context, session, record, request_of(context, session, {fact})));
  return 0;
}

}  // namespace cli
