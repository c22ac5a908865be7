#include "terminal/bars.h"

#include <algorithm>
#include <cmath>
#include <string_view>

namespace cli {
namespace {

std::size_t notch_of(std::size_t cells) { return cells * 2 / 3; }

// Full cells of a bar. Anything begun shows; what is over shows past the notch; the rest of the room is an arrow's.
std::size_t filled(const Lane& lane, std::size_t cells) {
  if (!lane.there || !lane.share || *lane.share <= 0) return 0;
  const auto notch = static_cast<double>(notch_of(cells));
  const double share = *lane.share;
  if (share >= 1) {
    const auto over = share > 1 ? std::max(1.0, std::round((share - 1) * notch)) : 0.0;
    // The notch takes a cell of its own.
    return std::min(cells, static_cast<std::size_t>(notch + (over > 0 ? 1 + over : 0)));
  }
  return std::min(notch_of(cells) - 1, static_cast<std::size_t>(std::max(1.0, std::floor(share * notch))));
}

Ink ink(const PairedBars& bars, const Lane& lane) {
  if (lane.rules) return bars.ink == Ink::plain ? Ink::strong : bars.ink;
  return Ink::quiet;
}

std::string repeated(std::string_view piece, std::size_t times) {
  std::string text;
  for (std::size_t i = 0; i < times; ++i) text += piece;
  return text;
}

std::string one_bar(const Look& look, const PairedBars& bars, const Lane& lane, std::size_t cells) {
  if (!lane.there) return std::string(cells, ' ');
  const std::size_t notch = notch_of(cells);
  const bool lines = look.line_drawing;
  const std::string_view full = lines ? "━" : "=";
  const std::string_view rest = lines ? "╌" : "-";
  const std::string stroke = painted(look, Ink::strong, lines ? "┃" : "|");
  if (!lane.share) {
    return painted(look, Ink::no_record, repeated("?", notch)) + stroke + std::string(cells - notch - 1, ' ');
  }
  const std::size_t used = filled(lane, cells);
  const std::size_t within = std::min(used, notch);
  const std::size_t over = used > notch + 1 ? used - notch - 1 : 0;
  std::string text = painted(look, ink(bars, lane), repeated(full, within));
  text += painted(look, Ink::quiet, repeated(rest, notch - within)) + stroke;
  std::string past = repeated(full, over);
  if (over == cells - notch - 1 && over > 0) past = repeated(full, over - 1) + (lines ? "▶" : ">");
  return text + painted(look, ink(bars, lane), past) + std::string(cells - notch - 1 - over, ' ');
}

}  // namespace

std::string use_bar(const Look& look, const PairedBars& bars, std::size_t cells) {
  return one_bar(look, bars, bars.use, cells);
}

std::string time_bar(const Look& look, const PairedBars& bars, std::size_t cells) {
  return one_bar(look, bars, bars.time, cells);
}

std::string both_bars(const Look& look, const PairedBars& bars, std::size_t cells) {
  const std::size_t notch = notch_of(cells);
  const std::size_t above = filled(bars.use, cells);
  const std::size_t below = filled(bars.time, cells);
  const bool known = (!bars.use.there || bars.use.share) && (!bars.time.there || bars.time.share);
  std::string text;
  for (std::size_t i = 0; i < cells; ++i) {
    if (i == notch) {
      text += painted(look, Ink::strong, "┃");
      continue;
    }
    const bool upper = i < above;
    const bool lower = i < below;
    if (upper && lower) {
      text += look.colour ? painted(look, ink(bars, bars.use), ink(bars, bars.time), "▀") : "█";
    } else if (upper) {
      text += painted(look, ink(bars, bars.use), "▀");
    } else if (lower) {
      text += painted(look, ink(bars, bars.time), "▄");
    } else if (i < notch) {
      text += painted(look, Ink::quiet, known ? "·" : "?");
    } else {
      text += ' ';
    }
  }
  return text;
}

}  // namespace cli
