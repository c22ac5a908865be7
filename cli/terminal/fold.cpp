#include "terminal/fold.h"

#include <algorithm>

#include "terminal/width.h"
#include "terminal/wrap.h"

namespace cli {

std::string folded(std::string_view text, std::size_t columns) {
  constexpr std::size_t further = 4;
  std::string out;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view line = text.substr(0, end);
    const bool ends = end < text.size();
    text.remove_prefix(ends ? end + 1 : end);
    const std::size_t blanks = std::min(line.find_first_not_of(' '), line.size());
    const bool fits = columns == 0 || line.size() <= columns || width(line) <= columns;
    if (fits || blanks + further + 1 >= columns) {
      out += line;
      if (ends) out += '\n';
      continue;
    }
    // The first line has a little more room than those that go on.
    const auto first = wrapped_lines(line.substr(blanks), columns - blanks).front();
    out += std::string(blanks, ' ') + first;
    std::string_view rest = line.substr(blanks + first.size());
    rest.remove_prefix(std::min(rest.find_first_not_of(' '), rest.size()));
    for (const std::string& each : wrapped_lines(rest, columns - blanks - further)) {
      out += '\n' + std::string(blanks + further, ' ') + each;
    }
    if (ends) out += '\n';
  }
  return out;
}

}  // namespace cli
