#include "render/due/due.h"
#include "render/shared/calendar_words.h"

namespace cli {

std::string due_as_ics(const DueAnswer& due, const std::string& command) {
  const service::DueRows shown = rows_of(due.list, {true, due.all, due.first});
  const service::Calendar calendar = due_calendar(due.list, shown, due.version);
  const bool empty = shown.points.empty() && shown.no_record.empty();
  std::string said = empty ? "No service points." : totals(shown);
  if (said.ends_with('\n')) said.pop_back();
  return calendar_as_ics(calendar, due.list, "service due", "service due", said, command);
}

}  // namespace cli
