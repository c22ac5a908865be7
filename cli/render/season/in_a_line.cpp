#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include "render/season/season.h"
#include "render/shared/resources_words.h"
#include "render/shared/words.h"

namespace cli {

using service::SeasonPlan;
using service::to_text;

std::string season_in_a_line(const SeasonPlan& plan) {
  if (plan.beforehand.empty()) {
    return plan.unknown.empty() && plan.gaps.empty()
               ? fmt::format("Nothing needs doing before {}.", to_text(plan.from))
               : fmt::format("Nothing that is known needs doing before {}; find out what is not known.",
                             to_text(plan.from));
  }
  std::string text = hours_words(static_cast<double>(plan.labour_minutes) / 60) + " of work";
  if (plan.without_time > 0)
    text += fmt::format(" (and {} no time)", service::counted(plan.without_time, "task that says", "tasks that say"));
  if (plan.pieces > 0) text += fmt::format(" and {}", service::counted(plan.pieces, "part", "parts"));
  text +=
      plan.under_way() ? fmt::format(" now, for the season has begun") : fmt::format(" before {}", to_text(plan.from));
  std::map<service::Day, std::vector<std::string>> orders;
  for (const service::PartNeed& need : plan.parts) {
    if (need.order_by) orders[*need.order_by].push_back(need.key);
  }
  for (const auto& [day, parts] : orders) {
    text += fmt::format("; order {} {}", listed(parts, "and"),
                        day == plan.as_of ? std::string("today") : "by " + to_text(day));
  }
  return text + ".";
}

}  // namespace cli
