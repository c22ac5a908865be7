#include "render/shared/sign_words.h"

#include <fmt/format.h>

#include <algorithm>

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

std::string command_to_say(const service::NearName& near, const service::Fact& fact, const std::string& command) {
  const std::string saw = fmt::format("{} saw {} ", command, service::cleaned(fact.machine));
  if (!near.measured) {
    std::string text = saw + quoted(near.name);
    for (const std::string& other : near.also) text += "; " + saw + quoted(other);
    return text;
  }
  const auto value = near.value ? near.value : fact.value;
  return saw + fmt::format("{}={}{}{}", near.name, value ? to_text(*value) : "VALUE",
                           near.unit.empty() ? "" : " --unit " + quoted(near.unit), position_of(near, fact));
}

std::string command_to_look(const service::SeenSign& seen, const std::string& command) {
  return fmt::format("{} looked {} {}{} --note \"...\"", command, seen.machine->key, quoted(seen.sign),
                     seen.safety ? " --by WHO --found HOW" : "");
}

}  // namespace cli
