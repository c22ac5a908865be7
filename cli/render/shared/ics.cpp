#include "render/shared/ics.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>

namespace cli {
namespace {

std::string day_text(service::Day day) {
  const std::chrono::year_month_day date{day};
  return fmt::format("{:04}{:02}{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

std::string moment_text(std::int64_t milliseconds) {
  const std::int64_t seconds = milliseconds / 1000;
  constexpr std::int64_t a_day = 86'400;
  const std::int64_t of_day = seconds % a_day;
  return fmt::format("{}T{:02}{:02}{:02}Z", day_text(service::Day{std::chrono::days{seconds / a_day}}), of_day / 3600,
                     of_day / 60 % 60, of_day % 60);
}

bool goes_on(char octet) { return (static_cast<unsigned char>(octet) & 0xC0U) == 0x80U; }

// Of a character of two or three octets: C1, what ends a line or turns the direction of text, what nobody sees.
bool is_dropped(std::string_view character) {
  constexpr std::array<std::string_view, 16> others{"\u200b", "\u200e", "\u200f", "\u2028", "\u2029", "\u202a",
                                                    "\u202b", "\u202c", "\u202d", "\u202e", "\u2060", "\u2066",
                                                    "\u2067", "\u2068", "\u2069", "\ufeff"};
  const bool c1 = character.size() == 2 && character[0] == '\xC2' && static_cast<unsigned char>(character[1]) < 0xA0;
  return c1 || std::find(others.begin(), others.end(), character) != others.end();
}

void put_event(std::string& text, const IcsEvent& event) {
  text += ics_line("BEGIN", "VEVENT");
  text += ics_line("UID", ics_text(event.uid));
  text += ics_line("DTSTAMP", moment_text(event.changed));
  text += ics_line("LAST-MODIFIED", moment_text(event.changed));
  text += ics_line("SEQUENCE", std::to_string(event.sequence));
  if (event.times) {
    text += ics_line("DTSTART", moment_text(event.times->from));
    text += ics_line("DTEND", moment_text(event.times->to));
  } else {
    text += ics_line("DTSTART;VALUE=DATE", day_text(event.on));
    text += ics_line("DTEND;VALUE=DATE", day_text(event.on + std::chrono::days{1}));
  }
  if (event.cancelled) text += ics_line("STATUS", "CANCELLED");
  text += ics_line("TRANSP", event.times && !event.cancelled ? "OPAQUE" : "TRANSPARENT");
  text += ics_line("SUMMARY", ics_text(event.summary));
  if (!event.location.empty()) text += ics_line("LOCATION", ics_text(event.location));
  if (!event.categories.empty()) {
    std::vector<std::string> categories;
    for (const std::string& category : event.categories) categories.push_back(ics_text(category));
    text += ics_line("CATEGORIES", fmt::format("{}", fmt::join(categories, ",")));
  }
  if (!event.description.empty()) text += ics_line("DESCRIPTION", ics_text(event.description));
  text += ics_line("END", "VEVENT");
}

}  // namespace

std::string ics_text(std::string_view text) {
  // What is no UTF-8 would be no calendar.
  const std::string whole = service::first_bad_utf8(text) ? service::cleaned(text) : std::string(text);
  std::string escaped;
  for (std::size_t at = 0; at < whole.size();) {
    std::size_t end = at + 1;
    while (end < whole.size() && goes_on(whole[end])) ++end;
    const std::string_view character = std::string_view(whole).substr(at, end - at);
    const char c = whole[at];
    const bool second_half = c == '\n' && at > 0 && whole[at - 1] == '\r';
    if (c == '\\' || c == ';' || c == ',') {
      escaped += '\\';
      escaped += c;
    } else if (c == '\n' || c == '\r') {
      if (!second_half) escaped += "\\n";
    } else if (c == '\t') {
      escaped += ' ';
    } else if (static_cast<unsigned char>(c) >= 0x20 && c != 0x7F && !is_dropped(character)) {
      escaped += character;
    }
    at = end;
  }
  return escaped;
}

std::string ics_line(std::string_view name, std::string_view value) {
  constexpr std::size_t longest = 75;
  const std::string whole = fmt::format("{}:{}", name, value);
  std::string line;
  std::size_t room = longest;
  for (std::size_t at = 0; at < whole.size();) {
    std::size_t end = at + 1;
    while (end < whole.size() && goes_on(whole[end])) ++end;
    if (end - at > room) {
      line += "\r\n ";
      room = longest - 1;
    }
    line += std::string_view(whole).substr(at, end - at);
    room -= end - at;
    at = end;
  }
  return line + "\r\n";
}

std::string ics_calendar(std::string_view name, const std::vector<IcsEvent>& events) {
  std::string text = ics_line("BEGIN", "VCALENDAR");
  text += ics_line("VERSION", "2.0");
  text += ics_line("PRODID", "-//whichever//service calendar//EN");
  text += ics_line("NAME", ics_text(name));
  text += ics_line("REFRESH-INTERVAL;VALUE=DURATION", "P1D");
  for (const IcsEvent& event : events) put_event(text, event);
  return text + ics_line("END", "VCALENDAR");
}

}  // namespace cli
