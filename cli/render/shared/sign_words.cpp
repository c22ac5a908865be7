#include "render/shared/sign_words.h"

#include <fmt/format.h>

namespace cli {

std::string quoted(const std::string& name) {
  return name.find(' ') == std::string::npos ? name : fmt::format("\"{}\"", name);
}

std::string command_to_say(const service::NearName& near, const service::Fact& fact, const std::string& command) {
  const std::string saw = fmt::format("{} saw {} ", command, service::cleaned(fact.machine));
  if (!near.measured) return saw + quoted(near.name);
  const auto value = near.value ? near.value : fact.value;
  return saw + fmt::format("{}={}{}", near.name, value ? to_text(*value) : "",
                           near.unit.empty() ? "" : " --unit " + quoted(near.unit));
}

std::string command_to_look(const service::SeenSign& seen, const std::string& command) {
  return fmt::format("{} looked {} {}{} --note \"...\"", command, seen.machine->key, quoted(seen.sign),
                     seen.safety ? " --by WHO" : "");
}

}  // namespace cli
