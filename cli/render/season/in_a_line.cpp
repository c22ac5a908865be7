#include <fmt/format.h>

#include <algorithm>

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
  std::int64_t pieces = 0;
  std::vector<const service::PartNeed*> shorts;
  for (const service::PartNeed& need : plan.parts) {
    if (!need.fluid) pieces += (need.need.hundredths + 99) / 100;
    if (need.short_by.hundredths > 0) shorts.push_back(&need);
  }
  std::string text = hours_words(static_cast<double>(plan.labour_minutes) / 60) + " of work";
  if (plan.without_time > 0)
    text += fmt::format(" (and {} no time)", service::counted(plan.without_time, "task that says", "tasks that say"));
  if (pieces > 0) text += fmt::format(" and {}", service::counted(pieces, "part", "parts"));
  text +=
      plan.under_way() ? fmt::format(" now, for the season has begun") : fmt::format(" before {}", to_text(plan.from));
  std::vector<std::string> at_once;
  std::vector<std::string> later;
  std::optional<service::Day> by;
  for (const service::PartNeed* need : shorts) {
    const auto order = need->order_by.value_or(need->short_on.value_or(plan.as_of));
    if (order <= plan.as_of) {
      at_once.push_back(need->key);
    } else {
      later.push_back(need->key);
      by = by ? std::min(*by, order) : order;
    }
  }
  if (!at_once.empty()) text += fmt::format("; order {} today", listed(at_once, "and"));
  if (!later.empty()) text += fmt::format("; order {} by {}", listed(later, "and"), to_text(*by));
  return text + ".";
}

}  // namespace cli
