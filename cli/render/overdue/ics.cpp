#include <fmt/format.h>

#include "render/overdue/overdue.h"
#include "render/shared/calendar_words.h"

namespace cli {

std::string overdue_as_ics(const OverdueAnswer& overdue, const std::string& command) {
  const std::string counts = counts_in_words(overdue.calendar->counts);
  const std::string said = counts.empty() ? fmt::format("Nothing is overdue, and all is known, of {}.",
                                                        service::counted(overdue.list.machines, "machine", "machines"))
                                          : counts + '.';
  return calendar_as_ics(*overdue.calendar, overdue.list, {"overdue", "nothing overdue", said}, command);
}

}  // namespace cli
