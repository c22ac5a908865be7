#include "render/due/due.h"
#include "render/shared/calendar_words.h"

namespace cli {

std::string due_as_ics(const DueAnswer& due, const std::string& command) {
  const service::DueRows shown = due.in_calendar();
  const bool empty = shown.points.empty() && shown.no_record.empty();
  std::string said = empty ? "No service points." : totals(shown);
  if (said.ends_with('\n')) said.pop_back();
  return calendar_as_ics(*due.calendar, due.list, {"service due", "nothing due", said}, command);
}

}  // namespace cli
