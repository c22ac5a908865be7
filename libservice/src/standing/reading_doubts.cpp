#include "service/reading_doubts.h"

#include <algorithm>

namespace service {

ReadingDoubts reading_doubts(const std::vector<Gap>& gaps) {
  ReadingDoubts doubts;
  for (const Gap& gap : gaps) {
    if (gap.kind != GapKind::doubtful && gap.kind != GapKind::contradiction) continue;
    (gap.kind == GapKind::doubtful ? doubts.doubtful : doubts.contradict) = true;
    const auto& told = doubts.machines;
    if (std::find(told.begin(), told.end(), gap.machine) == told.end()) doubts.machines.push_back(gap.machine);
  }
  return doubts;
}

void leave_unnamed(ReadingDoubts& doubts, const std::vector<std::string>& machines) {
  doubts.elsewhere += std::erase_if(doubts.machines, [&](const std::string& machine) {
    return std::find(machines.begin(), machines.end(), machine) != machines.end();
  });
}

}  // namespace service
