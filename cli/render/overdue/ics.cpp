#include <fmt/format.h>

#include "render/overdue/overdue.h"
#include "render/overdue/words.h"
#include "render/shared/calendar_words.h"

namespace cli {

std::string overdue_as_ics(const service::DueList& list, const service::CalendarVersion& version,
                           const std::string& command) {
  std::vector<std::string> counts;
  for (const service::OverdueBlock& block : overdue_blocks(list)) {
    counts.push_back(fmt::format("{}: {}", title_of(block.heading), block.entries.size()));
  }
  const std::string said = counts.empty() ? fmt::format("Nothing is overdue, and all is known, of {}.",
                                                        service::counted(list.machines, "machine", "machines"))
                                          : fmt::format("{}.", fmt::join(counts, "; "));
  return calendar_as_ics(overdue_calendar(list, version), list, "overdue",
                         counts.empty() ? "nothing overdue" : "overdue", said, command);
}

}  // namespace cli
