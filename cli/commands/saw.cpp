// `saw`: signs, and measurements as NAME=VALUE.
#include <fmt/format.h>

#include "commands/commands.h"
#include "commands/writing.h"

namespace cli {
namespace {

void insist_on_measurement(const Arguments& arguments, const char* option) {
  if (!arguments.has(option)) return;
  throw service::Failure(service::FailureKind::usage,
                         {"no-measurement", fmt::format("`--{}` belongs to a measurement, and none is given", option),
                          "write a measurement as NAME=VALUE"});
}

}  // namespace

int saw(Context& context) {
  const Arguments& arguments = context.arguments;
  const Session session = open_fleet(context);
  const auto& machine = the_machine(*session.fleet, arguments.words[0]);
  std::vector<service::Fact> facts;
  bool measured = false;
  for (std::size_t i = 1; i < arguments.words.size(); ++i) {
    const std::string& written = arguments.words[i];
    const auto equals = written.find('=');
    const bool measures = equals != std::string::npos;
    service::Fact fact =
        fact_about(context, session, measures ? service::FactKind::measurement : service::FactKind::sign, machine);
    fact.name = written.substr(0, equals);
    if (measures) {
      const auto value = service::typed_measure(std::string_view(written).substr(equals + 1));
      if (!value) {
        throw service::Failure(service::FailureKind::usage,
                               {"bad-number", fmt::format("the value in `{}` {}", written, value.problem),
                                "write it as NAME=VALUE, such as restriction=4.5"});
      }
      if (!fact.note.empty()) {
        throw service::Failure(
            service::FailureKind::usage,
            {"no-note", "a measurement has no note", "leave --note out, or write a sign in a command of its own"});
      }
      fact.value = *value;
      fact.unit = arguments.value("unit").value_or("");
      fact.position = arguments.value("position").value_or("");
      measured = true;
    }
    facts.push_back(std::move(fact));
  }
  if (!measured) {
    insist_on_measurement(arguments, "unit");
    insist_on_measurement(arguments, "position");
  }
  auto record = open_record(session.folder, service::Access::write);
  tell(context, write(context, session, record, request_of(context, session, facts)));
  return 0;
}

}  // namespace cli
