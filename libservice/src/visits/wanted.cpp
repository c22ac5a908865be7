#include "visits/wanted.h"

#include <algorithm>

namespace service::visits {
std::optional<NotPlannedReason> why_not_planned(const DueList& list, const Point& point, const DaysOfWork& days) {
  const UseState* state = list.state_of(*point.machine);
  if (state != nullptr && state->kind == UseKind::out_of_use) return NotPlannedReason::out_of_use;
  if (state != nullptr && state->kind == UseKind::laid_up &&
      (!state->until || *state->until > (never_waits(point) ? days.to : days.last))) {
    return NotPlannedReason::laid_up;
  }
  const auto& left = point.machine->left;
  if (left && *left <= days.first) return NotPlannedReason::left;
  // Until a use alone, nobody can say on which day that is.
  if (point.put_off && not_before(list, point) > days.last) return NotPlannedReason::put_off;
  if (point.machine->site.empty()) return NotPlannedReason::no_site;
  return std::nullopt;
}

NotPlanned not_planned(const DueList& list, const Point& point, NotPlannedReason reason) {
  NotPlanned row{name_of(point), nullptr, reason};
  if (reason == NotPlannedReason::put_off) row.put_off = &*point.put_off;
  if (reason == NotPlannedReason::laid_up || reason == NotPlannedReason::out_of_use) {
    row.use = list.state_of(*point.machine);
  }
  return row;
}

std::optional<Day> back_on(const DueList& list, const Point& point) {
  const UseState* state = list.state_of(*point.machine);
  return state != nullptr && state->kind == UseKind::laid_up ? state->until : std::nullopt;
}

Day not_before(const DueList& list, const Point& point) {
  Day first = Day::min();
  if (point.put_off) first = point.put_off->until.value_or(Day::max());
  if (const auto back = back_on(list, point); back && !never_waits(point)) first = std::max(first, *back);
  return first;
}

Day wanted_on(const DueList& list, const Point& point) {
  const auto back = back_on(list, point);
  if (!back || !never_waits(point)) return *point.due_on;
  return std::max(*point.due_on, *back - std::chrono::days{1});
}

Wanted wanted_of(Week& week, const WeekAsk& ask, const DoneBefore& done) {
  const Day last = week.crew_days.back().on;
  const Day join_until = last + std::chrono::days{ask.join_days.value_or(0)};
  Wanted wanted;
  for (const Point& point : week.list->points) {
    if (done.holds(point)) continue;
    if (point.standing == Standing::no_record) {
      week.no_record.push_back(name_of(point));
      continue;
    }
    const bool due = point.due_on && *point.due_on <= last;
    if (!due && !point.unknown.empty()) week.unknown.push_back(name_of(point));
    if (!point.due_on || *point.due_on > join_until) continue;
    const auto reason = why_not_planned(*week.list, point, {week.crew_days.front().on, last, week.to});
    if (!reason) {
      (due ? wanted.points : wanted.may_join).push_back(&point);
    } else if (due) {
      week.not_planned.push_back(not_planned(*week.list, point, *reason));
    }
  }
  return wanted;
}

}  // namespace service::visits
