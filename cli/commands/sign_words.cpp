#include "commands/sign_words.h"

#include <fmt/format.h>

#include "mistakes.h"

namespace cli {

std::string the_sign(const std::vector<std::string>& words) {
  std::string sign;
  for (const std::string& word : words) sign += (sign.empty() || word.empty() ? "" : " ") + word;
  if (sign.find_first_not_of(' ') == std::string::npos) {
    wrong("empty-sign", "no sign is named: its name is empty", "say in a few words what was seen");
  }
  return sign;
}

std::string quoted(const std::string& name) {
  return name.find(' ') == std::string::npos ? name : fmt::format("\"{}\"", name);
}

std::string command_to_look(const service::SeenSign& seen, const std::string& command) {
  return fmt::format("{} looked {} {}{} --note \"...\"", command, seen.machine->key, quoted(seen.sign),
                     seen.safety ? " --by WHO" : "");
}

}  // namespace cli
