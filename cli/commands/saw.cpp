// `saw`: a sign in one or several words, and measurements as NAME=VALUE.
#include <fmt/format.h>

#include "commands/commands.h"
#include "commands/writing.h"
#include "mistakes.h"

namespace cli {
namespace {

void insist_on_measurement(const Arguments& arguments, const char* option) {
  if (!arguments.has(option)) return;
  wrong("no-measurement", fmt::format("`--{}` belongs to a measurement, and none is given", option),
        "write a measurement as NAME=VALUE");
}

std::string quoted(const std::string& name) {
  return name.find(' ') == std::string::npos ? name : fmt::format("\"{}\"", name);
}

// Somebody who is there can say which sign he means; what comes from elsewhere is kept in its own words.
void ask_back_if_near(const Context& context, const service::Fleet& fleet, const service::Machine& machine,
                      const std::string& sign) {
  if (!context.world.terminal || context.arguments.has("new")) return;
  const auto near = near_sign(fleet, machine, sign);
  if (!near) return;
  wrong(
      "near-sign", fmt::format("no task of {} comes due on `{}`; nothing was stored", machine.key, sign),
      fmt::format("did you mean `{0}`: whichever saw {1} {2}; or keep it as another sign: whichever saw {1} {3} --new",
                  *near, machine.key, quoted(*near), quoted(sign)));
}

service::Fact measurement_of(const std::string& written, service::Fact fact, const Arguments& arguments) {
  const auto equals = written.find('=');
  fact.name = written.substr(0, equals);
  const auto value = service::typed_measure(std::string_view(written).substr(equals + 1));
  if (!value) {
    wrong("bad-number", fmt::format("the value in `{}` {}", written, value.problem),
          "write it as NAME=VALUE, such as restriction=4.5");
  }
  if (!fact.note.empty()) {
    wrong("no-note", "a measurement has no note", "leave --note out, or write a sign in a command of its own");
  }
  fact.value = *value;
  fact.unit = arguments.value("unit").value_or("");
  fact.position = arguments.value("position").value_or("");
  return fact;
}

}  // namespace

int saw(Context& context) {
  const Arguments& arguments = context.arguments;
  const Session session = open_fleet(context);
  const auto& machine = the_machine(*session.fleet, arguments.words[0]);
  std::vector<service::Fact> facts;
  std::string sign;  // its words, one after the other
  for (std::size_t i = 1; i < arguments.words.size(); ++i) {
    const std::string& written = arguments.words[i];
    if (written.find('=') == std::string::npos) {
      sign += (sign.empty() ? "" : " ") + written;
      continue;
    }
    service::Fact fact = fact_about(context, session, service::FactKind::measurement, machine);
    facts.push_back(measurement_of(written, std::move(fact), arguments));
  }
  if (facts.empty()) {
    insist_on_measurement(arguments, "unit");
    insist_on_measurement(arguments, "position");
  }
  if (!sign.empty()) {
    ask_back_if_near(context, *session.fleet, machine, sign);
    service::Fact fact = fact_about(context, session, service::FactKind::sign, machine);
    fact.name = sign;
    facts.push_back(std::move(fact));
  }
  auto record = open_record(session.folder, service::Access::write);
  Written written = write(context, session, record, request_of(context, session, facts));
  for (const service::SeenSign& seen : written.entered.seen) {
    if (const auto near = near_sign(*session.fleet, machine, seen.sign)) {
      written.next.push_back(
          fmt::format("If `{}` was meant: whichever undo; whichever saw {} {}", *near, machine.key, quoted(*near)));
    }
    written.next.push_back(
        fmt::format("When somebody has looked: whichever looked {} {} --note \"...\"", machine.key, quoted(seen.sign)));
  }
  tell(context, written);
  return 0;
}

}  // namespace cli
