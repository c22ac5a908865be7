// UTF-8 and UTF-16 at their edges, against the table of well-formed sequences and the arithmetic of surrogates in the
// Unicode standard (version 15.0, table 3-7 and definition D91).
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "service/base.h"
#include "support/print.h"

using service::first_bad_utf8;
using service::from_utf16;

namespace {

struct Range {
  unsigned first;
  unsigned last;
  bool holds(unsigned byte) const { return byte >= first && byte <= last; }
};

// Table 3-7: which bytes may follow which.
struct WellFormed {
  std::array<Range, 4> bytes;
  std::size_t length;
};
constexpr Range trail{0x80, 0xBF};
constexpr Range none{1, 0};
constexpr WellFormed table[] = {
    {{Range{0x00, 0x7F}, none, none, none}, 1},
    {{Range{0xC2, 0xDF}, trail, none, none}, 2},
    {{Range{0xE0, 0xE0}, Range{0xA0, 0xBF}, trail, none}, 3},
    {{Range{0xE1, 0xEC}, trail, trail, none}, 3},
    {{Range{0xED, 0xED}, Range{0x80, 0x9F}, trail, none}, 3},
    {{Range{0xEE, 0xEF}, trail, trail, none}, 3},
    {{Range{0xF0, 0xF0}, Range{0x90, 0xBF}, trail, trail}, 4},
    {{Range{0xF1, 0xF3}, trail, trail, trail}, 4},
    {{Range{0xF4, 0xF4}, Range{0x80, 0x8F}, trail, trail}, 4},
};

unsigned byte_at(const std::string& text, std::size_t at) { return static_cast<unsigned char>(text[at]); }

// Where the first sequence begins that the table does not have.
std::size_t bad_by_table(const std::string& text) {
  std::size_t at = 0;
  while (at < text.size()) {
    const auto* const row = std::find_if(std::begin(table), std::end(table), [&](const WellFormed& each) {
      if (at + each.length > text.size()) return false;
      for (std::size_t i = 0; i < each.length; ++i) {
        if (!each.bytes[i].holds(byte_at(text, at + i))) return false;
      }
      return true;
    });
    if (row == std::end(table)) return at;
    at += row->length;
  }
  return std::string::npos;
}

std::string utf8_of(std::uint32_t code) {
  const auto c = [](std::uint32_t byte) { return static_cast<char>(static_cast<unsigned char>(byte)); };
  if (code < 0x80) return {c(code)};
  if (code < 0x800) return {c(0xC0 + code / 64), c(0x80 + code % 64)};
  if (code < 0x10000) return {c(0xE0 + code / 4096), c(0x80 + code / 64 % 64), c(0x80 + code % 64)};
  return {c(0xF0 + code / 262144), c(0x80 + code / 4096 % 64), c(0x80 + code / 64 % 64), c(0x80 + code % 64)};
}

std::string utf16_of(const std::vector<std::uint32_t>& units, bool little) {
  std::string bytes = little ? "\xff\xfe" : "\xfe\xff";
  for (const std::uint32_t unit : units) {
    const char high = static_cast<char>(static_cast<unsigned char>(unit / 256));
    const char low = static_cast<char>(static_cast<unsigned char>(unit % 256));
    bytes += little ? low : high;
    bytes += little ? high : low;
  }
  return bytes;
}

}  // namespace

TEST_CASE("text is UTF-8 exactly where the table of the standard has its bytes") {
  // Every first and second byte, then bytes at the edges of what may follow, cut at every length, behind good text.
  constexpr std::array<unsigned, 6> edges{0x41, 0x7F, 0x80, 0xBF, 0xC0, 0xFF};
  std::size_t tried = 0;
  std::size_t unlike = 0;
  const auto look = [&](const std::string& bytes) {
    for (const std::string& before : {std::string(), std::string("a\xC3\xA9")}) {
      const std::string text = before + bytes;
      ++tried;
      unlike += first_bad_utf8(text).value_or(std::string::npos) == bad_by_table(text) ? 0 : 1;
    }
  };
  for (unsigned first = 0; first < 256; ++first) {
    look({static_cast<char>(first)});
    for (unsigned second = 0; second < 256; ++second) {
      look({static_cast<char>(first), static_cast<char>(second)});
      if (first < 0xC0) continue;
      for (const unsigned third : edges) {
        look({static_cast<char>(first), static_cast<char>(second), static_cast<char>(third)});
        for (const unsigned fourth : edges) {
          look({static_cast<char>(first), static_cast<char>(second), static_cast<char>(third),
                static_cast<char>(fourth)});
        }
      }
    }
  }
  CHECK(unlike == 0);
  CHECK(tried > 1'000'000);
}

TEST_CASE("every letter of the first plane and pairs at all edges come out of UTF-16 of either order") {
  std::size_t unlike = 0;
  for (const bool little : {true, false}) {
    for (std::uint32_t unit = 0; unit < 0x10000; ++unit) {
      const bool half = unit >= 0xD800 && unit < 0xE000;
      const auto text = from_utf16(utf16_of({unit, 'x'}, little));
      unlike += text == (half ? std::nullopt : std::optional(utf8_of(unit) + 'x')) ? 0 : 1;
    }
    for (std::uint32_t high = 0xD800; high < 0xDC00; ++high) {
      for (const std::uint32_t low : {0xDC00U, 0xDC01U, 0xDE9CU, 0xDFFEU, 0xDFFFU}) {
        const std::uint32_t code = 0x10000 + (high - 0xD800) * 0x400 + (low - 0xDC00);
        unlike += from_utf16(utf16_of({high, low}, little)) == utf8_of(code) ? 0 : 1;
      }
    }
  }
  CHECK(unlike == 0);
}

TEST_CASE("broken pairs, cut units and cut pairs are no text") {
  for (const bool little : {true, false}) {
    CHECK_FALSE(from_utf16(utf16_of({0xD83D}, little)).has_value());                  // cut off
    CHECK_FALSE(from_utf16(utf16_of({0xD83D, 'a'}, little)).has_value());             // the second half is missing
    CHECK_FALSE(from_utf16(utf16_of({0xD83D, 0xD83D, 0xDE9C}, little)).has_value());  // the first half twice
    CHECK_FALSE(from_utf16(utf16_of({0xDE9C}, little)).has_value());                  // the first half is missing
    CHECK_FALSE(from_utf16(utf16_of({0xDE9C, 0xD83D}, little)).has_value());          // the wrong way round
    CHECK_FALSE(from_utf16(utf16_of({'a', 'b'}, little).substr(0, 5)).has_value());   // half a unit
    CHECK(from_utf16(utf16_of({}, little)).value_or("broken").empty());
    CHECK(from_utf16(utf16_of({0xFEFF, 0}, little)).value_or("broken") == std::string("\xEF\xBB\xBF\0", 4));
  }
  CHECK(from_utf16("\xff").value_or("broken") == "\xff");  // no mark: not ours to judge
}

TEST_CASE("behind the first byte that is no text, nothing above ASCII is shown") {
  const std::string mark = "\xEF\xBF\xBD";
  CHECK(service::cleaned("\xC3\xA9 \xFF \xC3\xA9z") == "\xC3\xA9 " + mark + " " + mark + mark + "z");
  CHECK(service::cleaned("\xE2\x82") == mark + mark);
  for (const std::uint32_t code :
       {0x85U, 0x200BU, 0x200EU, 0x200FU, 0x2028U, 0x202EU, 0x2060U, 0x2066U, 0x2069U, 0xFEFFU}) {
    CHECK(service::cleaned("a" + utf8_of(code) + "b") == "a" + mark + "b");
  }
  for (const std::uint32_t code : {0xA0U, 0x200AU, 0x200CU, 0x2010U, 0x2027U, 0x202FU, 0x2061U, 0x206AU, 0x1F69CU}) {
    CHECK(service::cleaned("a" + utf8_of(code) + "b") == "a" + utf8_of(code) + "b");
  }
}

TEST_CASE("Windows-1252 is read, and its five empty places are no text") {
  CHECK(service::from_windows_1252("M\xe4hdrescher \x80 5 \x96 6").value_or("none") ==
        "M\u00e4hdrescher \u20ac 5 \u2013 6");
  for (const char empty : {'\x81', '\x8d', '\x8f', '\x90', '\x9d'}) {
    CHECK_FALSE(service::from_windows_1252(std::string("a") + empty).has_value());
  }
  for (unsigned code = 0xa0; code < 0x100; ++code) {
    CHECK(service::from_windows_1252(std::string(1, static_cast<char>(code))).value_or("none") == utf8_of(code));
  }
}
