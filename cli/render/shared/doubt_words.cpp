#include "render/shared/doubt_words.h"

#include <fmt/format.h>

#include "render/shared/words.h"

namespace cli {

std::string doubt_words(const service::ReadingDoubts& doubts, std::string_view what) {
  if (!doubts.any()) return "";
  std::vector<std::string> machines;
  for (const std::string& machine : doubts.machines) machines.push_back(service::cleaned(machine));
  if (doubts.elsewhere > 0) {
    machines.push_back(
        fmt::format("{} that this answer is not about",
                    service::counted(static_cast<std::int64_t>(doubts.elsewhere), "machine", "machines")));
  }
  const bool one = doubts.machines.size() + doubts.elsewhere == 1;
  const std::string readings =
      doubts.contradict ? fmt::format("{} readings {}contradict each other", one ? "its" : "their",
                                      doubts.doubtful ? "are hard to believe or " : "")
                        : fmt::format("{} hard to believe", one ? "its last reading is" : "their last readings are");
  return fmt::format("Look first at the {} of {}: {}, and {} rest on {}.", one ? "meter" : "meters",
                     listed(machines, "and"), readings, what, one && !doubts.contradict ? "it" : "them");
}

std::string if_it_shows_less(const service::Gap& gap, const std::string& command) {
  if (gap.kind != service::GapKind::doubtful || gap.facts.empty()) return "";
  return fmt::format("If it shows less, strike that value before you type in what it shows: {} strike {}", command,
                     short_text(gap.facts.front()));
}

}  // namespace cli
