#include "render/shared/sign_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <span>

#include "service/telling.h"

namespace cli {

std::string quoted(const std::string& name) {
  return name.find(' ') == std::string::npos ? name : fmt::format("\"{}\"", name);
}

namespace {

// Where it was measured is never guessed: the words say it, or whoever enters it has to.
std::string position_of(const service::NearName& near, const service::Fact& fact) {
  const auto& positions = near.positions;
  if (positions.empty()) return "";
  const bool told = std::find(positions.begin(), positions.end(), fact.position) != positions.end();
  const std::string position = !near.position.empty() ? near.position : told ? fact.position : "";
  return " --position " + (position.empty() ? "POSITION" : quoted(position));
}

}  // namespace

std::string command_to_say(const service::NearName& near, const service::Fact& fact, service::Day today,
                           const std::string& command) {
  const std::string on = fact.on == service::DaySpan(today) ? "" : " --on " + to_text(fact.on);
  const std::string saw = fmt::format("{} saw {} ", command, service::cleaned(fact.machine));
  if (!near.measured) {
    std::string text = saw + quoted(near.name) + on;
    for (const std::string& other : near.also) text += fmt::format("; {}{}{}", saw, quoted(other), on);
    return text;
  }
  const auto value = near.value ? near.value : fact.value;
  return saw + fmt::format("{}={}{}{}{}", near.name, value ? to_text(*value) : "VALUE",
                           near.unit.empty() ? "" : " --unit " + quoted(near.unit), position_of(near, fact), on);
}

std::string command_to_look(const service::SeenSign& seen, const std::string& command) {
  return fmt::format("{} looked {} {}{} --note \"...\"", command, seen.machine->key, quoted(seen.sign),
                     seen.safety ? " --by WHO --found HOW" : "");
}

std::string command_to_look(const service::SeenSign& seen, const service::Fleet& fleet, const std::string& command) {
  service::SeenSign known = seen;
  service::Fact sign;
  sign.kind = service::FactKind::sign;
  sign.machine = seen.machine->key;
  sign.name = seen.sign;
  const auto told = service::seen_sign_told(fleet, *seen.machine, std::span(&sign, 1), seen.sign);
  known.safety = known.safety || (told && told->safety);
  return command_to_look(known, command);
}

}  // namespace cli
