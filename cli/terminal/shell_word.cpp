#include "terminal/shell_word.h"

namespace cli {

std::string shell_word(const std::string& text) {
  const bool plain = text.find_first_of(" \t\"'$`\\&;|<>()*?[]#~!") == std::string::npos && !text.empty();
  if (plain) return text;
  std::string quoted = "'";
  for (const char c : text) quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return quoted + "'";
}

}  // namespace cli
