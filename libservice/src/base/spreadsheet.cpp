// Text as spreadsheets save it: encodings, and what separates fields.
#include <algorithm>

#include "service/base.h"

namespace service {
namespace {

constexpr std::string_view little_endian_mark = "\xff\xfe";
constexpr std::string_view big_endian_mark = "\xfe\xff";

void append_utf8(std::string& text, std::uint32_t letter) {
  const auto add = [&](std::uint32_t byte) { text += static_cast<char>(static_cast<unsigned char>(byte)); };
  if (letter < 0x80) {
    add(letter);
  } else if (letter < 0x800) {
    add(0xC0U | letter >> 6U);
    add(0x80U | (letter & 0x3FU));
  } else if (letter < 0x10000) {
    add(0xE0U | letter >> 12U);
    add(0x80U | (letter >> 6U & 0x3FU));
    add(0x80U | (letter & 0x3FU));
  } else {
    add(0xF0U | letter >> 18U);
    add(0x80U | (letter >> 12U & 0x3FU));
    add(0x80U | (letter >> 6U & 0x3FU));
    add(0x80U | (letter & 0x3FU));
  }
}

}  // namespace

bool is_utf16(std::string_view bytes) {
  return bytes.starts_with(little_endian_mark) || bytes.starts_with(big_endian_mark);
}

std::optional<std::string> from_utf16(std::string_view bytes) {
  if (!is_utf16(bytes)) return std::string(bytes);
  const bool little = bytes.starts_with(little_endian_mark);
  bytes.remove_prefix(2);
  if (bytes.size() % 2 != 0) return std::nullopt;
  std::string text;
  text.reserve(bytes.size() / 2);
  const auto unit = [&](std::size_t at) {
    const auto first = static_cast<unsigned char>(bytes[at]);
    const auto second = static_cast<unsigned char>(bytes[at + 1]);
    return static_cast<std::uint32_t>(little ? first | second << 8U : second | first << 8U);
  };
  for (std::size_t at = 0; at < bytes.size(); at += 2) {
    std::uint32_t letter = unit(at);
    if (letter >= 0xDC00 && letter < 0xE000) return std::nullopt;  // the second half of a pair without the first
    if (letter >= 0xD800 && letter < 0xDC00) {
      if (at + 3 >= bytes.size()) return std::nullopt;
      const std::uint32_t low = unit(at + 2);
      if (low < 0xDC00 || low >= 0xE000) return std::nullopt;
      letter = 0x10000U + ((letter - 0xD800U) << 10U) + (low - 0xDC00U);
      at += 2;
    }
    append_utf8(text, letter);
  }
  return text;
}

std::string encoding_hint(std::string_view text) {
  // These five bytes are the only ones that Windows-1252 leaves without a letter. A byte of zero is in no such text.
  constexpr std::string_view without_letter("\x81\x8d\x8f\x90\x9d\x00", 6);
  const bool may_be = text.find_first_of(without_letter) == std::string_view::npos;
  return may_be ? "it looks like Windows-1252, as spreadsheets save it; save it again with the encoding UTF-8"
                : "save the file with the encoding UTF-8";
}

std::string column_name(std::string_view heading) {
  while (heading.starts_with(' ')) heading.remove_prefix(1);
  while (heading.ends_with(' ')) heading.remove_suffix(1);
  std::string name;
  for (const char c : heading) {
    const bool capital = c >= 'A' && c <= 'Z';
    name += capital ? static_cast<char>(c - 'A' + 'a') : c == ' ' || c == '_' ? '-' : c;
  }
  return name;
}

std::size_t separator_line(std::string_view text) {
  if (!text.starts_with("sep=") || text.size() < 6 || (text[5] != '\n' && text.substr(5, 2) != "\r\n")) return 0;
  return text[5] == '\n' ? 6 : 7;
}

char csv_separator(std::string_view header) {
  bool quoted = false;
  for (const char c : header) {
    if (c == '"') quoted = !quoted;
    if (!quoted && (c == ',' || c == ';' || c == '\t')) return c;
  }
  return ',';
}

}  // namespace service
