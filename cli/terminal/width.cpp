#include "terminal/width.h"

#include <utf8proc.h>

#include <algorithm>

namespace cli {

namespace {

// How many bytes a colour takes at the beginning of the text: `ESC [ 38;5;166 m`. It is not seen.
std::size_t colour_code(std::string_view text) {
  if (!text.starts_with("\x1b[")) return 0;
  const std::size_t end = text.find_first_not_of("0123456789;", 2);
  return end != std::string_view::npos && text[end] == 'm' ? end + 1 : 0;
}

// Most text is of letters that are a column wide each and no part of one another.
bool is_plain(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char letter) { return letter >= ' ' && letter <= '~'; });
}

}  // namespace

std::size_t width(std::string_view text) {
  if (is_plain(text)) return text.size();
  constexpr utf8proc_int32_t emoji_form = 0xFE0F;
  std::size_t columns = 0;
  std::size_t cluster = 0;  // a letter with its marks is as wide as its widest part
  utf8proc_int32_t before = 0;
  utf8proc_int32_t state = 0;
  const auto* bytes = reinterpret_cast<const utf8proc_uint8_t*>(text.data());
  auto left = static_cast<utf8proc_ssize_t>(text.size());
  bool first = true;
  while (left > 0) {
    if (const std::size_t code = colour_code({reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(left)})) {
      bytes += code;
      left -= static_cast<utf8proc_ssize_t>(code);
      continue;
    }
    utf8proc_int32_t letter = 0;
    utf8proc_ssize_t length = utf8proc_iterate(bytes, left, &letter);
    if (length <= 0) {  // not text: a terminal shows one mark for the byte
      letter = 0xFFFD;
      length = 1;
    }
    bytes += length;
    left -= length;
    if (first || utf8proc_grapheme_break_stateful(before, letter, &state)) {
      columns += cluster;
      cluster = 0;
    }
    cluster = std::max(cluster, static_cast<std::size_t>(utf8proc_charwidth(letter)));
    const bool flag = utf8proc_get_property(letter)->boundclass == UTF8PROC_BOUNDCLASS_REGIONAL_INDICATOR;
    if (letter == emoji_form || flag) cluster = 2;
    before = letter;
    first = false;
  }
  return columns + cluster;
}

std::string padded(std::string_view text, std::size_t columns) {
  const std::size_t have = width(text);
  return std::string(text) + std::string(columns > have ? columns - have : 0, ' ');
}

std::string padded_left(std::string_view text, std::size_t columns) {
  const std::size_t have = width(text);
  return std::string(columns > have ? columns - have : 0, ' ') + std::string(text);
}

}  // namespace cli
