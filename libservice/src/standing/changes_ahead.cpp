#include "standing/changes_ahead.h"

#include <algorithm>

#include "standing/chain.h"

namespace service {
namespace {

std::optional<Day>& day_of(DueSpan& span, Quantile quantile) {
  return quantile == Quantile::p10 ? span.p10 : quantile == Quantile::p50 ? span.p50 : span.p90;
}

Quantile mirrored(Quantile quantile) {
  return quantile == Quantile::p10 ? Quantile::p90 : quantile == Quantile::p90 ? Quantile::p10 : Quantile::p50;
}

// The day of the change after the one on `day`, taking use to go on with these odds: a later one, for a day counts
// once.
std::optional<Day> next_change(const MachineView& view, const MachineTask& task, Day day, Quantile quantile) {
  std::optional<Day> next;
  for (const LimbChoice& choice : task.every) {
    std::optional<Day> due;
    if (std::holds_alternative<CalendarLimb>(choice.candidates.front())) {
      due = calendar_interval({day, 0}, choice, {task.task->until_month_end, task.grace}).due;
    } else if (const auto* limb = std::get_if<UsageLimb>(&choice.candidates.front())) {
      const auto ahead = view.ahead.find(limb->meter.value_or(""));
      if (ahead == view.ahead.end()) continue;
      const auto then = ahead->second->on(day, mirrored(quantile));
      if (then) due = view.expected_at(ahead->first, *then + limb->every, quantile);
    }
    if (due && (!next || *due < *next)) next = due;
  }
  if (next) next = std::max(*next, day + std::chrono::days{1});
  if (next && *next > add_months(view.as_of, horizon_months)) next.reset();
  return next;
}

}  // namespace

// The span of the day on which `task` will have been changed so many more times.
DueSpan changed_by(const MachineView& view, const std::vector<const Point*>& points, const std::string& task,
                   int times) {
  const auto counted = std::find_if(view.tasks.begin(), view.tasks.end(),
                                    [&](const MachineTask& each) { return each.task->name == task; });
  DueSpan result;
  if (counted == view.tasks.end()) return result;
  for (const Quantile quantile : {Quantile::p10, Quantile::p50, Quantile::p90}) {
    std::optional<Day> first;
    for (const Point* point : points) {
      DueSpan span = point->due_span;
      const auto day = view.not_past(day_of(span, quantile));
      if (day && (!first || *day < *first)) first = day;
    }
    std::optional<Day> day = first;
    for (int i = 1; i < times && day; ++i) day = next_change(view, *counted, *day, quantile);
    day_of(result, quantile) = day;
  }
  // Each quantile goes from change to change on its own; where they cross, the median holds.
  if (result.p50) result.p10 = std::min(result.p10.value_or(*result.p50), *result.p50);
  if (!result.p50) result.p90.reset();
  if (result.p90) result.p90 = std::max(*result.p90, *result.p50);
  return result;
}

}  // namespace service
