#include <fmt/format.h>

#include "render/due/due.h"
#include "render/shared/calendar_words.h"

namespace cli {

std::string due_as_ics(const DueAnswer& due, const std::string& command) {
  // Counted as its title counts, and then what comes.
  auto counts = due.calendar->counts;
  counts.insert(counts.end(), due.calendar->ahead.begin(), due.calendar->ahead.end());
  std::string said = counts.empty() ? "No service points." : counts_in_words(counts) + '.';
  if (const std::size_t left_off = due.in_calendar().left_off; left_off > 0) {
    said += fmt::format(" And {} more, left off by --first.", left_off);
  }
  return calendar_as_ics(*due.calendar, due.list, {"service due", "nothing due", said}, command);
}

}  // namespace cli
