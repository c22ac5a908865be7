#include "render/shared/label_words.h"

#include <fmt/format.h>

#include "render/shared/words.h"
#include "service/text.h"

namespace cli {

namespace {

// A machine's first meter needs no name.
std::string of_the(const std::string& meter) {
  return meter.empty() ? "" : fmt::format(" of the {}", service::cleaned(meter));
}

}  // namespace

std::string after_changes_words(int count, const std::string& task) {
  return fmt::format("after {} of {}", service::counted(count, "change", "changes"), service::cleaned(task));
}

std::string before_season_words(int lead_days, const std::string& season) {
  return fmt::format("{} before {}", service::counted(lead_days, "day", "days"), service::cleaned(season));
}

std::string label_words(const service::ElementLabel& label) {
  std::string text = label.on ? to_text(*label.on) : std::string(blank_day);
  if (label.at) return text + " · " + with_unit(*label.at, label.unit) + of_the(label.meter);
  // Of what is done already nobody knows the value; of what is to be done it will be read.
  if (label.on || label.unit.empty()) return text;
  return text + fmt::format(" · {} {}{}", blank_value, service::cleaned(label.unit), of_the(label.meter));
}

std::string due_again_words(const service::ElementDueAgain& again, service::Day done_on) {
  std::vector<std::string> ends;
  for (const service::ElementUse& use : again.uses) {
    ends.push_back(fmt::format("+ {}{} = {} {}", with_unit(use.more, use.unit), of_the(use.meter), blank_value,
                               service::cleaned(use.unit)));
  }
  if (again.on) ends.push_back(fmt::format("{} where done on {}", to_text(*again.on), to_text(done_on)));
  for (const service::ElementChanges& changes : again.changes) {
    ends.push_back(after_changes_words(changes.count, changes.task));
  }
  for (const service::ElementSeason& season : again.seasons) {
    ends.push_back(before_season_words(season.lead_days, season.season));
  }
  return fmt::format("{}", fmt::join(ends, ", or "));
}

}  // namespace cli
