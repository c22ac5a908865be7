// The writer of calendars: what RFC 5545 says of lines, texts and days, and what nobody can put into it.
#include "render/shared/ics.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <string>
#include <vector>

#include "support/world.h"

using cli::ics_calendar;
using cli::ics_line;
using cli::ics_text;
using cli::IcsEvent;

namespace {

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
  return count;
}

std::vector<std::string> physical_lines(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t end = text.find("\r\n", from);
    REQUIRE(end != std::string::npos);
    lines.push_back(text.substr(from, end - from));
    from = end + 2;
  }
  return lines;
}

std::string unfolded(const std::string& text) {
  std::string whole = text;
  for (std::size_t at = whole.find("\r\n "); at != std::string::npos; at = whole.find("\r\n ", at)) whole.erase(at, 3);
  return whole;
}

IcsEvent event_of(const std::string& summary) {
  return {"a@b", test::day("2024-05-06"), 3, 1'714'953'600'000, summary, "", "", {}};
}

}  // namespace

// RFC 5545, 3.1: lines of at most 75 octets, CRLF and a blank where they are folded, never inside a character.
TEST_CASE("lines are folded at 75 octets") {
  CHECK(ics_line(std::string(74, 'A'), "") == std::string(74, 'A') + ":\r\n");
  CHECK(ics_line(std::string(75, 'A'), "") == std::string(75, 'A') + "\r\n :\r\n");
  CHECK(ics_line(std::string(73, 'A'), "\u00e9") == std::string(73, 'A') + ":\r\n \u00e9\r\n");
  const std::string line =
      ics_line("DESCRIPTION",
               "Wartung alle 250 Stunden oder 12 Monate, je nachdem was zuerst eintritt \u2013 \u00d6l pr\u00fcfen");
  const auto pieces = physical_lines(line);
  REQUIRE(pieces.size() == 2);
  CHECK(pieces[0].size() == 75);
  CHECK(pieces[0].ends_with("zuerst "));
  CHECK(pieces[1].size() == 25);
}

// RFC 5545, 3.3.11: a colon is not escaped.
TEST_CASE("texts are escaped") {
  CHECK(ics_text("a,b;c\\d:e\n") == "a\\,b\\;c\\\\d:e\\n");
  CHECK(ics_text("one\r\ntwo\rthree\n\nfour") == "one\\ntwo\\nthree\\n\\nfour");
  CHECK(ics_text("a\x1b[2Kb\x07\x7f c\u009bd\te\u202ef") == "a[2Kb cd ef");
  CHECK_FALSE(service::first_bad_utf8(ics_text("cut \xc3")).has_value());
}

// RFC 5545, 3.6.1: the end of an event of whole days is the day after it.
TEST_CASE("an event of a whole day ends on the next and keeps nobody from anything") {
  const std::string text = ics_calendar("x", {event_of("visit")});
  for (const char* line : {"BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:", "UID:a@b", "DTSTAMP:20240506T000000Z",
                           "SEQUENCE:3", "DTSTART;VALUE=DATE:20240506", "DTEND;VALUE=DATE:20240507",
                           "TRANSP:TRANSPARENT", "SUMMARY:visit", "END:VCALENDAR"}) {
    CHECK_MESSAGE(text.find(std::string(line)) != std::string::npos, line);
  }
  CHECK(ics_calendar("x", {{"u", test::day("2024-02-29"), 0, 1'709'251'199'999, "s", "", "", {}}})
            .find("DTSTAMP:20240229T235959Z") != std::string::npos);
}

// RFC 5545, 3.3.5: a moment in UTC ends with a Z.
TEST_CASE("an event of a span of the day takes that time") {
  IcsEvent event = event_of("visit");
  event.times = {1'714'953'600'000 + 7 * 3'600'000, 1'714'953'600'000 + 8 * 3'600'000 + 90'000};
  const std::string text = ics_calendar("x", {event});
  for (const char* line : {"DTSTART:20240506T070000Z", "DTEND:20240506T080130Z", "TRANSP:OPAQUE"}) {
    CHECK_MESSAGE(text.find(std::string(line) + "\r\n") != std::string::npos, line);
  }
  CHECK(text.find("VALUE=DATE") == std::string::npos);
}

TEST_CASE("no name gets out of its line") {
  for (const char* end : {"\r\n", "\n", "\r", "\u2028", "\u0085", "\\n"}) {
    const std::string name = std::string("x") + end + "END:VEVENT" + end + "BEGIN:VEVENT" + end + "SUMMARY:y";
    IcsEvent event = event_of(name);
    event.description = event.location = name;
    event.categories = {name, name};
    const std::string text = ics_calendar(name, {event});
    std::size_t begins = 0;
    for (const std::string& line : physical_lines(text)) begins += line == "BEGIN:VEVENT" ? 1U : 0U;
    CHECK(begins == 1);
    CHECK(count_of(text, "\nEND:VEVENT") == 1);
  }
}

TEST_CASE("random texts fold and unfold to what they were") {
  const bool well = rc::check("1,000 texts", [] {
    for (int i = 0; i < 10; ++i) {
      const auto codes = *rc::gen::container<std::vector<char32_t>>(
          rc::gen::oneOf(rc::gen::inRange<char32_t>(0x20, 0x7F), rc::gen::inRange<char32_t>(0xA0, 0x800),
                         rc::gen::inRange<char32_t>(0x3000, 0xD800), rc::gen::inRange<char32_t>(0x10000, 0x1F700)));
      std::string text;
      for (const char32_t code : codes) {
        if (code < 0x80) {
          text += static_cast<char>(code);
        } else if (code < 0x800) {
          text += static_cast<char>(0xC0U | (code >> 6U));
          text += static_cast<char>(0x80U | (code & 0x3FU));
        } else if (code < 0x10000) {
          text += static_cast<char>(0xE0U | (code >> 12U));
          text += static_cast<char>(0x80U | ((code >> 6U) & 0x3FU));
          text += static_cast<char>(0x80U | (code & 0x3FU));
        } else {
          text += static_cast<char>(0xF0U | (code >> 18U));
          text += static_cast<char>(0x80U | ((code >> 12U) & 0x3FU));
          text += static_cast<char>(0x80U | ((code >> 6U) & 0x3FU));
          text += static_cast<char>(0x80U | (code & 0x3FU));
        }
      }
      const std::string line = ics_line("SUMMARY", ics_text(text));
      std::size_t from = 0;
      while (from < line.size()) {
        const std::size_t end = line.find("\r\n", from);
        RC_ASSERT(end - from <= 75U);
        RC_ASSERT(!service::first_bad_utf8(std::string_view(line).substr(from, end - from)));
        from = end + 2;
      }
      RC_ASSERT(unfolded(line) == "SUMMARY:" + ics_text(text) + "\r\n");
      std::string back;
      const std::string escaped = ics_text(text);
      for (std::size_t at = 0; at < escaped.size(); ++at) {
        if (escaped[at] == '\\') ++at;
        back += escaped[at];
      }
      RC_ASSERT(back == text);
    }
  });
  CHECK(well);
}
