#include "render/html/plate.h"

namespace cli {

void add_cell(const Element& list, std::string_view name, std::string_view text) {
  if (text.empty()) return;
  const Element cell = list.add("li");
  cell.add("span", "quiet").say(name);
  cell.say(" ").say(text);
}

}  // namespace cli
