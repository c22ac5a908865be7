#include "service/reading_doubts.h"

#include <set>
#include <string_view>

namespace service {

ReadingDoubts reading_doubts(const std::vector<Gap>& gaps) {
  ReadingDoubts doubts;
  std::set<std::string_view> told;
  for (const Gap& gap : gaps) {
    if (gap.kind != GapKind::doubtful && gap.kind != GapKind::contradiction) continue;
    (gap.kind == GapKind::doubtful ? doubts.doubtful : doubts.contradict) = true;
    if (told.insert(gap.machine).second) doubts.machines.push_back(gap.machine);
  }
  return doubts;
}

void leave_unnamed(ReadingDoubts& doubts, const std::vector<std::string>& machines) {
  const std::set<std::string_view> unnamed(machines.begin(), machines.end());
  doubts.elsewhere +=
      std::erase_if(doubts.machines, [&](const std::string& machine) { return unnamed.contains(machine); });
}

}  // namespace service
