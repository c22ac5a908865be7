#include "terminal/band.h"

#include <algorithm>
#include <cmath>

namespace cli {

std::string band_bar(const Look& look, const Band& band, double most, std::size_t cells) {
  if (most <= 0) return "";
  const auto at = [&](double value) {
    const double cell = std::floor(std::clamp(value / most, 0.0, 1.0) * static_cast<double>(cells));
    return std::min(cells - 1, static_cast<std::size_t>(cell));
  };
  const bool lines = look.line_drawing;
  const std::size_t low = at(band.low);
  const std::size_t middle = at(band.middle);
  const std::size_t high = at(band.high);
  std::string text;
  for (std::size_t i = 0; i <= high; ++i) {
    if (i == middle && band.high > 0) {
      text += painted(look, Ink::strong, lines ? "┃" : "|");
    } else if (i < low) {
      text += painted(look, Ink::quiet, lines ? "╌" : "-");
    } else if (band.high > 0) {
      text += painted(look, Ink::coming, lines ? "━" : "=");
    }
  }
  return text;
}

}  // namespace cli
