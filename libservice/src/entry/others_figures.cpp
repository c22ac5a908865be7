#include "entry/others_figures.h"

#include <algorithm>

#include "entry/others_words.h"

namespace service::entry {

Figure figure_of(std::string_view text) {
  const std::size_t end = std::min(text.find_first_not_of("0123456789.,' -"), text.size());
  Figure figure{std::string(text.substr(0, end)), std::string(text.substr(end))};
  while (figure.number.ends_with(' ')) figure.number.pop_back();
  if (figure.number.find_first_of("0123456789") == std::string::npos) return {std::string(text), ""};
  return figure;
}

bool leaves_a_doubt(const Figure& figure) {
  constexpr std::string_view marks = "?!*~<>=+#&%$^|\"";
  return !figure.unit.empty() &&
         (as_words(figure.unit).empty() || figure.unit.find_first_of(marks) != std::string::npos);
}

bool has_thousands(std::string_view number, DecimalMark decimal) {
  const bool point = decimal == DecimalMark::point;
  const std::string_view units = number.substr(0, number.find(point ? '.' : ','));
  return units.find_first_of(point ? ",' " : ".' ", 1) != std::string_view::npos;
}

bool may_be_thousands(std::string_view number, DecimalMark decimal) {
  constexpr std::size_t group = 3;
  const std::size_t mark = number.find(decimal == DecimalMark::point ? '.' : ',');
  if (mark == 0 || mark > group || number.front() == '0' || number.size() != mark + 1 + group) return false;
  return number.find_first_not_of("0123456789") == mark &&
         number.find_first_not_of("0123456789", mark + 1) == number.npos;
}

std::string without_time(std::string_view text) {
  const std::size_t colon = text.find(':');
  if (colon == std::string_view::npos) return std::string(text);
  const std::size_t before = text.find_first_of(" T");
  return std::string(before < colon ? text.substr(0, before) : text);
}

}  // namespace service::entry
