#include "terminal/bars.h"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "terminal/width.h"

namespace cli {
namespace {

std::size_t notch_of(std::size_t cells) { return cells * 2 / 3; }

// Full cells of a bar. Anything begun shows; what is over shows past the notch; the rest of the room is an arrow's.
std::size_t filled(std::optional<double> of, std::size_t cells) {
  if (!of || *of <= 0) return 0;
  const auto notch = static_cast<double>(notch_of(cells));
  const double share = *of;
  if (share >= 1) {
    const auto over = share > 1 ? std::max(1.0, std::round((share - 1) * notch)) : 0.0;
    // The notch takes a cell of its own.
    return std::min(cells, static_cast<std::size_t>(notch + (over > 0 ? 1 + over : 0)));
  }
  return std::min(notch_of(cells) - 1, static_cast<std::size_t>(std::max(1.0, std::floor(share * notch))));
}

// By the estimate, what is known included.
std::size_t guessed(const Lane& lane, std::size_t cells) {
  return std::max(filled(lane.share, cells), filled(lane.estimate, cells));
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
  const std::string_view guess = lines ? "░" : "~";
  const auto past_notch = [&](std::size_t used) { return used > notch + 1 ? used - notch - 1 : 0; };
  const std::size_t known = filled(lane.share, cells);
  const std::size_t all = guessed(lane, cells);
  const std::size_t within = std::min(known, notch);
  const std::size_t guess_within = std::min(all, notch) - within;
  std::string text = painted(look, ink(bars, lane), repeated(full, within) + repeated(guess, guess_within));
  text += painted(look, Ink::quiet, repeated(rest, notch - within - guess_within)) + stroke;
  const std::size_t over = past_notch(all);
  const std::size_t over_known = past_notch(known);
  const bool cut = over == cells - notch - 1 && over > 0;
  std::string past = repeated(full, std::min(over_known, over - (cut ? 1 : 0)));
  past += repeated(guess, over - (cut ? 1 : 0) - std::min(over_known, over - (cut ? 1 : 0)));
  if (cut) past += lines ? "▶" : ">";
  return text + painted(look, ink(bars, lane), past) + std::string(cells - notch - 1 - over, ' ');
}

// What rules in place of both bars.
std::string named(const Look& look, const PairedBars& bars, std::size_t cells) {
  const std::string word = bars.instead.substr(0, cells);
  return painted(look, bars.ink, word) + std::string(cells - width(word), ' ');
}

}  // namespace

std::string use_bar(const Look& look, const PairedBars& bars, std::size_t cells) {
  return bars.instead.empty() ? one_bar(look, bars, bars.use, cells) : named(look, bars, cells);
}

std::string time_bar(const Look& look, const PairedBars& bars, std::size_t cells) {
  return bars.instead.empty() ? one_bar(look, bars, bars.time, cells) : std::string(cells, ' ');
}

std::string both_bars(const Look& look, const PairedBars& bars, std::size_t cells) {
  if (!bars.instead.empty()) return named(look, bars, cells);
  const std::size_t notch = notch_of(cells);
  const std::size_t above = bars.use.there ? filled(bars.use.share, cells) : 0;
  const std::size_t below = bars.time.there ? filled(bars.time.share, cells) : 0;
  const std::size_t perhaps = bars.use.there ? guessed(bars.use, cells) : 0;
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
    } else if (i < perhaps && !upper) {
      text += painted(look, ink(bars, bars.use), lower ? "▒" : "░");
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
