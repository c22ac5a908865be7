#include "standing/limbs.h"

#include <algorithm>

namespace service {
namespace {

// A limb with a day: due on it, overdue after it and its grace.
LimbState state_on(Day as_of, Day due, int grace_days) {
  if (as_of < due) return LimbState::not_reached;
  return as_of > due + std::chrono::days{grace_days} ? LimbState::overdue : LimbState::due;
}

void set_due_day(LimbStanding& standing, const MachineView& view, Day due) {
  standing.due_on = due;
  standing.left_days = days_between(view.as_of, due);
  standing.state = state_on(view.as_of, due, standing.grace_days);
}

}  // namespace

bool lies_since(const Fact& fact, const Since& since) {
  if (since.service != nullptr) return before(*since.service, fact);
  return !since.day || fact.on.first >= *since.day;
}

LimbStanding usage_standing(const MachineView& view, const UsageLimb& limb, std::optional<Amount> start,
                            std::optional<Amount> fitted_at, Amount grace) {
  LimbStanding standing;
  standing.kind = LimbKind::usage;
  standing.name = limb.meter.value_or("");
  standing.every = limb.every;
  standing.grace = grace;
  if (const Meter* meter = view.machine.meter(standing.name)) standing.unit = meter->unit;
  const MeterHistory* history = view.history(standing.name);
  if (history == nullptr || !start) return standing;
  standing.counted_at = start;
  standing.due_at = *start + limb.every;
  standing.due_shown = history->shown_at(*standing.due_at);
  const auto known = history->on(view.as_of);
  if (!known) return standing;
  standing.known = history->last_known();
  standing.fitted_at = fitted_at.value_or(*start);
  standing.used = *known - *standing.fitted_at;
  standing.left = *standing.due_at - *known;
  if (*standing.left < -grace) {
    standing.state = LimbState::overdue;
    standing.due_on = history->first_day_at(*standing.due_at);
    return standing;
  }
  // Short of overdue by facts, reached or not: the last reading is not the use of today.
  const auto today =
      view.may_be_estimated_at(standing.name, *standing.due_at) ? view.estimate_today(standing.name) : std::nullopt;
  standing.past_grace_by_estimate = today && *today - *standing.due_at > grace;
  if (*standing.left <= Amount{}) {
    standing.state = LimbState::due;
    standing.due_on = history->first_day_at(*standing.due_at);
    return standing;
  }
  standing.state = LimbState::not_reached;
  standing.by_estimate = today && *today >= *standing.due_at;
  // What is only expected cannot lie in the past: the last reading says that it had not come by then.
  if (standing.by_estimate) standing.due_on = view.as_of;
  return standing;
}

void tell_today(Point& point, const MachineView& view) {
  for (LimbStanding& limb : point.limbs) {
    if (limb.kind != LimbKind::usage || !limb.used) continue;
    const auto today = view.estimate_today(limb.name);
    if (!today || *today == *limb.due_at - *limb.left) continue;
    limb.estimated_used = *today - *limb.fitted_at;
    limb.estimated_left = *limb.due_at - *today;
  }
}

LimbStanding calendar_standing(const MachineView& view, const LimbChoice& choice, const CalendarRule& rule,
                               const std::optional<ChainDay>& start) {
  LimbStanding standing;
  standing.kind = LimbKind::calendar;
  standing.until_month_end = rule.until_month_end;
  if (!start) {
    standing.span = std::get<CalendarLimb>(choice.candidates.front()).every;
    return standing;
  }
  const CalendarInterval interval = calendar_interval(*start, choice, rule);
  standing.span = interval.span;
  standing.counted_from = start->day();
  const auto day_of_month = [](Day day) { return std::chrono::year_month_day{day}.day(); };
  if (day_of_month(start->anchor) != day_of_month(start->day())) standing.chain_from = start->anchor;
  standing.grace_days = interval.grace_days;
  set_due_day(standing, view, interval.due);
  return standing;
}

LimbStanding changes_standing(const MachineView& view, const ChangesLimb& limb, const Since& since,
                              const Grace& grace) {
  LimbStanding standing;
  standing.kind = LimbKind::changes;
  standing.name = limb.task;
  standing.limit_count = limb.count;
  if (grace.changes) {
    standing.grace_count = *grace.changes;
  } else if (grace.percent_hundredths) {
    standing.grace_count = static_cast<int>(std::int64_t{limb.count} * *grace.percent_hundredths / 10'000);
  }
  if (!since.fitted) return standing;
  int count = 0;
  for (const ServiceDay& change : services_anywhere(view, limb.task)) {
    if (change.day() <= *since.day) continue;
    standing.changes.push_back(change.spoken_for().id);
    if (++count == limb.count) standing.due_on = change.day();
  }
  standing.count = count;
  standing.state = count < limb.count                          ? LimbState::not_reached
                   : count > limb.count + standing.grace_count ? LimbState::overdue
                                                               : LimbState::due;
  return standing;
}

LimbStanding measured_standing(const MachineView& view, const MeasuredLimb& limb, const Since& since,
                               const std::string& position) {
  LimbStanding standing;
  standing.kind = LimbKind::measured;
  standing.name = limb.name;
  standing.unit = limb.unit;
  standing.limit = limb.limit;
  standing.above = limb.above;
  standing.counted_from = since.day;
  for (const Fact& fact : view.facts) {
    if (fact.kind != FactKind::measurement || fact.name != limb.name || !fact.value) continue;
    if (!lies_since(fact, since)) continue;
    // A value taken at no position in particular speaks for all of them, and so does any for a task without positions.
    if (!position.empty() && !fact.position.empty() && fact.position != position) continue;
    if (fact.unit != limb.unit) {  // the limit's unit was changed after it was recorded
      standing.other_unit = true;
      continue;
    }
    standing.measured = fact.value;
    standing.noticed_on = fact.on.first;
    standing.fact = fact.id;
  }
  if (!standing.measured) return standing;
  const bool at_limit = *standing.measured == limb.limit;
  const bool beyond = limb.above ? *standing.measured > limb.limit : *standing.measured < limb.limit;
  standing.state = beyond ? LimbState::overdue : at_limit ? LimbState::due : LimbState::not_reached;
  if (beyond || at_limit) standing.due_on = standing.noticed_on;
  return standing;
}

LimbStanding sign_standing(const MachineView& view, const SignLimb& limb, const Since& since, const Grace& grace) {
  LimbStanding standing;
  standing.kind = LimbKind::sign;
  standing.signs = limb.signs;
  standing.grace_days = grace.days.value_or(0);
  standing.counted_from = since.day;
  std::vector<NoticedSign>& noticed = standing.noticed;
  for (const Fact& fact : view.facts) {
    if ((fact.kind != FactKind::sign && fact.kind != FactKind::looked_at) || !lies_since(fact, since)) continue;
    if (std::find(limb.signs.begin(), limb.signs.end(), fact.name) == limb.signs.end()) continue;
    const auto open = std::find_if(noticed.begin(), noticed.end(),
                                   [&](const NoticedSign& sign) { return sign.name == fact.name && !sign.answered(); });
    if (fact.kind == FactKind::sign) {
      NoticedSign& sign = open == noticed.end() ? noticed.emplace_back(NoticedSign{fact.name, {}}) : *open;
      sign.sightings.push_back({fact.on, fact.id, fact.note});
    } else {
      if (open == noticed.end() && !found_bad(fact)) continue;
      // Whoever finds it worn or failed sees it, though nobody did before.
      NoticedSign& sign =
          open == noticed.end() ? noticed.emplace_back(NoticedSign{fact.name, {{fact.on, fact.id, ""}}}) : *open;
      sign.looks.push_back({fact.on.first, fact.found.value_or(Found::good), fact.by, fact.note, fact.id});
    }
  }
  // The first one seen that no look found good decides.
  const NoticedSign* const open = standing.open_sign();
  if (open == nullptr) return standing;
  standing.seen = open->name;
  standing.noticed_on = open->first().on.first;
  standing.fact = open->first().fact;
  if (!open->looks.empty()) {
    standing.found = open->looks.back().found;
    standing.looked_on = open->looks.back().on;
  }
  set_due_day(standing, view, *standing.noticed_on);
  return standing;
}

LimbStanding season_standing(const MachineView& view, const SeasonLimb& limb, const Since& since, const Grace& grace) {
  LimbStanding standing;
  standing.kind = LimbKind::season;
  standing.name = limb.season;
  standing.lead_days = limb.lead_days;
  standing.grace_days = grace.days.value_or(0);
  const Season* season = view.fleet.season(limb.season);
  if (!since.fitted || season == nullptr) return standing;
  set_due_day(standing, view, season_due(*season, limb.lead_days, *since.day));
  return standing;
}

Day season_due(const Season& season, int lead_days, Day done) {
  // What was done up to a season's last day serves that season; the next one is owed again.
  int year = static_cast<int>(std::chrono::year_month_day{done}.year()) - 1;
  while (days_of(season, year).to < done) ++year;
  return days_of(season, year + 1).from - std::chrono::days{lead_days};
}

}  // namespace service
