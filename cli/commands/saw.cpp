// `saw`: a sign in one or several words, and measurements as NAME=VALUE.
#include <fmt/format.h>

#include "commands/commands.h"
#include "commands/sign_words.h"
#include "commands/writing.h"
#include "mistakes.h"

namespace cli {
namespace {

void insist_on_measurement(const Arguments& arguments, const char* option) {
  if (!arguments.has(option)) return;
  wrong("no-measurement", fmt::format("`--{}` belongs to a measurement, and none is given", option),
        "write a measurement as NAME=VALUE");
}

std::string value_of(const service::Fact& fact) { return fact.value ? to_text(*fact.value) : ""; }

// The command that says of a machine what near it is; a value that was told goes with it.
std::string command_to_say(const Context& context, const service::Machine& machine, const service::NearName& near,
                           const service::Fact& fact) {
  const std::string saw = fmt::format("{} saw {} ", context.look.command, machine.key);
  if (!near.measured) return saw + quoted(near.name);
  return saw + fmt::format("{}={}{}", near.name, near.value ? to_text(*near.value) : value_of(fact),
                           near.unit.empty() ? "" : " --unit " + quoted(near.unit));
}

// Somebody who is there can say what he means; what comes from elsewhere is kept in its own words.
void ask_back_if_near(const Context& context, const service::Fleet& fleet, const service::Machine& machine,
                      const service::Fact& fact) {
  if (!context.world.terminal || context.arguments.has("new")) return;
  const auto near = near_name(fleet, machine, fact.kind, fact.name);
  if (!near) return;
  const bool measured = fact.kind == service::FactKind::measurement;
  const std::string as_it_is = measured ? fmt::format("{}={}", fact.name, value_of(fact)) : fact.name;
  wrong(
      measured ? "near-measurement" : "near-sign",
      measured ? fmt::format("no task of {} has a limit for `{}`; nothing was stored", machine.key, fact.name)
               : fmt::format("no task of {} comes due on `{}`; nothing was stored", machine.key, fact.name),
      fmt::format("did you mean `{}`: {}; or keep it as it is: {} saw {} {} --new", near->name,
                  command_to_say(context, machine, *near, fact), context.look.command, machine.key, quoted(as_it_is)));
}

std::string trimmed(std::string_view text) {
  const auto from = text.find_first_not_of(' ');
  return from == std::string_view::npos ? "" : std::string(text.substr(from, text.find_last_not_of(' ') - from + 1));
}

// `restriction = 4.5` is one word, with blanks or without.
std::vector<std::string> joined_at_equals(const std::vector<std::string>& words) {
  std::vector<std::string> joined;
  for (const std::string& word : words) {
    const bool goes_on = !joined.empty() && (word.starts_with('=') || joined.back().ends_with('='));
    goes_on ? joined.back().append(word) : joined.emplace_back(word);
  }
  return joined;
}

service::Fact measurement_of(const std::string& written, service::Fact fact, const Arguments& arguments) {
  const auto equals = written.find('=');
  fact.name = trimmed(std::string_view(written).substr(0, equals));
  if (fact.name.empty()) {
    wrong("empty-name", fmt::format("`{}` does not say what was measured", written),
          "write it as NAME=VALUE, such as restriction=4.5");
  }
  const auto value = service::typed_measure(trimmed(std::string_view(written).substr(equals + 1)));
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
  std::vector<std::string> sign;  // its words
  for (const std::string& written : joined_at_equals({arguments.words.begin() + 1, arguments.words.end()})) {
    if (written.find('=') == std::string::npos) {
      sign.push_back(written);
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
    service::Fact fact = fact_about(context, session, service::FactKind::sign, machine);
    fact.name = the_sign(sign);
    facts.push_back(std::move(fact));
  }
  for (const service::Fact& fact : facts) ask_back_if_near(context, *session.fleet, machine, fact);
  auto record = open_record(session.folder, service::Access::write);
  Written written = write(context, session, record, request_of(context, session, facts));
  for (const service::Fact& fact : written.entered.added) {
    if (arguments.has("new")) break;
    if (const auto near = near_name(*session.fleet, machine, fact.kind, fact.name)) {
      written.next.push_back(fmt::format("If `{}` was meant: {} undo; {}", near->name, context.look.command,
                                         command_to_say(context, machine, *near, fact)));
    }
  }
  for (const service::SeenSign& seen : written.entered.seen) {
    written.next.push_back("When somebody has looked: " + command_to_look(seen, context.look.command));
  }
  tell(context, written);
  return 0;
}

}  // namespace cli
