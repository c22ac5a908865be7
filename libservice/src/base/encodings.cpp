// Encodings of text: the one place where UTF-8 and UTF-16 are decoded.
#include "base/encodings.h"

#include <algorithm>
#include <array>
#include <boost/locale/encoding_utf.hpp>
#include <boost/locale/utf.hpp>

#include "service/base.h"

namespace service {
namespace {

namespace utf = boost::locale::utf;

constexpr std::string_view little_endian_mark = "\xff\xfe";
constexpr std::string_view big_endian_mark = "\xfe\xff";

}  // namespace

std::optional<Letter> first_letter(std::string_view text) {
  auto at = text.begin();
  const utf::code_point code = utf::utf_traits<char>::decode(at, text.end());
  if (!utf::is_valid_codepoint(code)) return std::nullopt;
  return Letter{code, static_cast<std::size_t>(at - text.begin())};
}

std::optional<std::size_t> first_bad_utf8(std::string_view text) {
  // Most text is ASCII, in which nothing needs to be decoded.
  const auto is_beyond_ascii = [](char c) { return static_cast<unsigned char>(c) >= 0x80; };
  auto at = text.begin();
  while ((at = std::find_if(at, text.end(), is_beyond_ascii)) != text.end()) {
    const auto from = at;
    if (!utf::is_valid_codepoint(utf::utf_traits<char>::decode(at, text.end()))) {
      return static_cast<std::size_t>(from - text.begin());
    }
  }
  return std::nullopt;
}

bool is_utf16(std::string_view bytes) {
  return bytes.starts_with(little_endian_mark) || bytes.starts_with(big_endian_mark);
}

std::optional<std::string> from_utf16(std::string_view bytes) {
  if (!is_utf16(bytes)) return std::string(bytes);
  if (bytes.size() % 2 != 0) return std::nullopt;
  const std::size_t low = bytes.starts_with(little_endian_mark) ? 0 : 1;
  std::u16string units;
  units.reserve(bytes.size() / 2);
  for (std::size_t at = 2; at < bytes.size(); at += 2) {
    const auto byte = [&](std::size_t which) { return static_cast<unsigned char>(bytes[at + which]); };
    units += static_cast<char16_t>(byte(low) | byte(1 - low) << 8U);
  }
  try {
    return boost::locale::conv::utf_to_utf<char>(units, boost::locale::conv::stop);
  } catch (const boost::locale::conv::conversion_error&) {
    return std::nullopt;
  }
}

std::optional<std::string> from_windows_1252(std::string_view bytes) {
  // The letters of 0x80 to 0x9f; zero: none. All others are those of Latin-1, whose numbers are Unicode's.
  constexpr std::array<char32_t, 32> letters{0x20ac, 0x0000, 0x201a, 0x0192, 0x201e, 0x2026, 0x2020, 0x2021,
                                             0x02c6, 0x2030, 0x0160, 0x2039, 0x0152, 0x0000, 0x017d, 0x0000,
                                             0x0000, 0x2018, 0x2019, 0x201c, 0x201d, 0x2022, 0x2013, 0x2014,
                                             0x02dc, 0x2122, 0x0161, 0x203a, 0x0153, 0x0000, 0x017e, 0x0178};
  std::u32string text;
  text.reserve(bytes.size());
  for (const char byte : bytes) {
    const auto number = static_cast<unsigned char>(byte);
    const char32_t letter = number >= 0x80 && number < 0xa0 ? letters[number - 0x80U] : number;
    if (letter == 0) return std::nullopt;
    text += letter;
  }
  return boost::locale::conv::utf_to_utf<char>(text);
}

std::string encoding_hint(std::string_view text) {
  // These five bytes are the only ones that Windows-1252 leaves without a letter. A byte of zero is in no such text.
  constexpr std::string_view without_letter("\x81\x8d\x8f\x90\x9d\x00", 6);
  const bool may_be = text.find_first_of(without_letter) == std::string_view::npos;
  return may_be ? "it looks like Windows-1252, as spreadsheets save it; save it again with the encoding UTF-8"
                : "save the file with the encoding UTF-8";
}

}  // namespace service
