// Under which numbers events were handed out, and how that is kept.
//
//   events as handed out, 2
//   0123456789abcdef0123456789abcdef@whichever<TAB>2026-06-15<TAB>483100412<TAB>1781481600000<TAB>fitter 550-705
//   checksum<TAB>0123456789abcdef
#include "standing/event_numbers.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <utility>

#include "service/calendar.h"
#include "standing/kept_lines.h"

namespace service {
namespace {

constexpr std::string_view first_line_of_events = "events as handed out, 2\n";
constexpr std::string_view first_line_before = "events as handed out, 1\n";  // without hours

std::optional<std::int64_t> whole_number(std::string_view digits) {
  std::int64_t number = 0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
  if (error != std::errc{} || end != digits.data() + digits.size()) return std::nullopt;
  return number;
}

void number(CalendarEvent& event, const NumberedEvent& last) {
  constexpr std::int64_t a_second = 1000;  // what a stamp can tell apart
  event.changed = std::max(event.changed, last.changed);
  if (event.sequence > last.sequence) return;
  const bool moved = event.on != last.on || event.hours != last.hours;
  event.sequence = std::min(last.sequence + (moved ? 1 : 0), highest_sequence);
  if (moved) event.changed = std::max(event.changed, last.changed + a_second);
}

}  // namespace

std::int64_t first_sequence_of(Day day) {
  const std::int64_t days = std::max(0, days_between(day_of(2000, 1, 1), day));
  return std::min(days * numbers_a_day, highest_sequence);
}

EventNumbers number_events(Calendar& calendar, const EventNumbers& before) {
  const Day today = calendar.events.front().on;
  EventNumbers numbers;
  for (const auto& [uid, last] : before) {
    if (last.sequence >= first_sequence_of(today)) numbers.emplace(uid, last);
  }
  for (CalendarEvent& event : calendar.events) {
    if (const auto last = before.find(event.uid); last != before.end()) number(event, last->second);
    numbers[event.uid] = {event.on, event.sequence, event.changed, event.hours};
  }
  return numbers;
}

std::string to_text(const EventNumbers& numbers) {
  std::string text(first_line_of_events);
  for (const auto& [uid, event] : numbers) {
    text += fmt::format("{}\t{}\t{}\t{}\t{}\n", uid, to_text(event.on), event.sequence, event.changed, event.hours);
  }
  return sealed(std::move(text));
}

Parsed<EventNumbers> parse_event_numbers(std::string_view text) {
  const bool without_hours = text.starts_with(first_line_before);
  const auto lines = unsealed(text, without_hours ? first_line_before : first_line_of_events);
  if (!lines) return {{}, lines.problem};
  EventNumbers numbers;
  for (const std::string_view line : *lines) {
    const auto fields = split(line, '\t');
    const std::size_t all = without_hours ? 4 : 5;
    if (fields.size() != all) return {{}, is_damaged};
    const auto on = parse_day(fields[1]);
    const auto sequence = whole_number(fields[2]);
    const auto changed = whole_number(fields[3]);
    if (!on || !sequence || !changed) return {{}, is_damaged};
    numbers[std::string(fields[0])] = {*on, *sequence, *changed, without_hours ? "" : std::string(fields[4])};
  }
  return {std::move(numbers), {}};
}

}  // namespace service
