#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "service/workload.h"
#include "workload/needs.h"
#include "workload/outlooks.h"

namespace service {
namespace {

// The share of its life that is left: of the limb that has used most.
std::optional<double> given_up(const Point& point, Day as_of) {
  std::optional<double> used;
  for (const LimbStanding& limb : point.limbs) {
    auto share = share_used(limb, as_of);
    if (limb.kind == LimbKind::usage && limb.estimated_used && limb.every && limb.every->hundredths > 0) {
      share = static_cast<double>(limb.estimated_used->hundredths) / static_cast<double>(limb.every->hundredths);
    }
    if (share && (!used || *share > *used)) used = share;
  }
  if (!used) return std::nullopt;
  return std::clamp(1 - *used, 0.0, 1.0);
}

// What one machine's meters are expected to do, for the question whether a task comes due again.
class Again {
 public:
  Again(const Snapshot& snapshot, const Forecaster& forecaster) : snapshot_(snapshot), forecaster_(forecaster) {}

  std::optional<double> odds(const Point& point, Day by) {
    if (point.follow_up != nullptr) return std::nullopt;
    look_at(*point.machine);
    const auto task = task_of(snapshot_.fleet(), *point.machine, point.task->name);
    if (!task) return std::nullopt;
    double not_yet = 1;
    bool known = false;
    for (const LimbChoice& choice : task->every) {
      for (const Limb& limb : choice.candidates) {
        if (const auto* calendar = std::get_if<CalendarLimb>(&limb)) {
          known = true;
          if (after(snapshot_.as_of(), calendar->every) <= by) not_yet = 0;
        } else if (const auto* usage = std::get_if<UsageLimb>(&limb)) {
          const auto meter = ahead_.find(usage->meter.value_or(""));
          if (meter == ahead_.end()) continue;
          const auto now = meter->second->on(snapshot_.as_of(), Quantile::p50);
          if (!now) continue;
          known = true;
          if (const auto reach = meter->second->odds(*now + usage->every, std::nullopt)) not_yet *= 1 - reach->by(by);
        }
      }
    }
    return known ? std::optional{1 - not_yet} : std::nullopt;
  }

 private:
  void look_at(const Machine& machine) {
    if (machine_ == &machine) return;
    machine_ = &machine;
    histories_ = meter_histories(snapshot_, machine);
    ahead_ = aheads_of(snapshot_, machine, histories_, forecaster_);
  }

  const Snapshot& snapshot_;
  const Forecaster& forecaster_;
  const Machine* machine_ = nullptr;
  Histories histories_;
  Aheads ahead_;
};

bool includes(const Fleet& fleet, const SeasonItem& whole, const SeasonItem& part) {
  if (&whole == &part || whole.point.machine != part.point.machine) return false;
  if (whole.point.follow_up != nullptr || part.point.follow_up != nullptr) return false;
  if (whole.point.task == part.point.task) return false;
  // What is due today does not draw in a big service that has half its life before it.
  const auto due = [](const SeasonItem& item) {
    return item.standing == Standing::overdue || item.standing == Standing::due;
  };
  if (due(part) && !due(whole) && whole.given_up.value_or(0) > 0.5) return false;
  if (!whole.point.position.empty() && !part.point.position.empty() && whole.point.position != part.point.position) {
    return false;
  }
  const auto names = counted_as(fleet.schedule_of(*whole.point.machine), part.point.task->name);
  return std::find(names.begin(), names.end(), whole.point.task->name) != names.end();
}

// What another item of the list includes is told with that one.
void fold_covered(const Fleet& fleet, std::vector<SeasonItem>& items) {
  std::vector<bool> folded(items.size(), false);
  for (std::size_t i = 0; i < items.size(); ++i) {
    for (std::size_t k = 0; k < items.size() && !folded[i]; ++k) {
      folded[i] = i != k && includes(fleet, items[k], items[i]);
    }
  }
  std::vector<SeasonItem> kept;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (folded[i]) continue;
    for (std::size_t k = 0; k < items.size(); ++k) {
      if (!folded[k] || !includes(fleet, items[i], items[k])) continue;
      items[i].covered.push_back(load::label(items[k].point.name, items[k].point.position));
      items[i].do_by = std::min(items[i].do_by, items[k].do_by);
      items[i].safety = items[i].safety || items[k].safety;
      if (worse(items[k].standing, items[i].standing)) items[i].standing = items[k].standing;
    }
    kept.push_back(items[i]);
  }
  items = std::move(kept);
}

}  // namespace

SeasonDays season_days(const Season& season, std::optional<int> year, Day as_of) {
  if (year) {
    const SeasonDays days = days_of(season, *year);
    if (days.to > add_months(as_of, horizon_months)) {
      throw Failure(Trouble::usage, {"season-too-far",
                                     fmt::format("the season `{}` of {} ends more than five years from now",
                                                 cleaned(season.key), *year),
                                     "nothing is said of use beyond five years"});
    }
    if (days.to >= as_of) return days;
    throw Failure(Trouble::usage,
                  {"season-over",
                   fmt::format("the season `{}` of {} was over on {}", cleaned(season.key), *year, to_text(days.to)),
                   "",
                   std::nullopt,
                   Severity::error,
                   {{CureKind::next_season}}});
  }
  int next = static_cast<int>(std::chrono::year_month_day{as_of}.year()) - 1;
  while (days_of(season, next).to < as_of) ++next;
  return days_of(season, next);
}

SeasonPlan season_plan(const Snapshot& snapshot, const Season& season, std::optional<int> year, double threshold,
                       const Forecaster& forecaster) {
  const SeasonDays days = season_days(season, year, snapshot.as_of());
  DueList list = due_list(snapshot, {days.to, days.to}, forecaster);
  SeasonPlan plan;
  plan.fleet = snapshot.fleet_ptr();
  plan.season = &season;
  plan.as_of = snapshot.as_of();
  plan.from = days.from;
  plan.to = days.to;
  plan.threshold = threshold;
  plan.gaps = list.gaps;
  plan.not_in_use = list.not_in_use;
  constexpr double hardly = 0.01;
  Again again(snapshot, forecaster);
  const Day latest = std::max(plan.as_of, days.from - std::chrono::days{1});
  for (Point& point : list.points) {
    const bool known = point.odds.has_value() && point.standing != Standing::no_record;
    const bool safety = point.task->safety;
    const double odds = point.odds.value_or(0);
    if (!known || (!point.unknown.empty() && odds < threshold)) {
      // A sign that nobody saw is no gap.
      const bool quiet = point.unknown.empty() && point.standing == Standing::later && !point.odds;
      const bool by_eye = std::all_of(point.limbs.begin(), point.limbs.end(),
                                      [](const LimbStanding& limb) { return observed(limb.kind); });
      if (quiet && by_eye) {
        ++plan.not_before;
      } else {
        plan.unknown.push_back(point);
      }
      continue;
    }
    if (odds < hardly) {
      ++plan.not_before;
      continue;
    }
    SeasonItem item;
    item.odds = odds;
    item.do_by = std::clamp(point.due_span.p10.value_or(latest), plan.as_of, latest);
    item.given_up = reached(point) ? std::optional{0.0} : given_up(point, plan.as_of);
    item.resources = resources_of(*point.machine, *point.task, point.follow_up);
    // What somebody put off waits until then; a point that is due, by facts or by estimate, never waits for odds.
    if (point.put_off && point.put_off->until)
      item.do_by = std::max(item.do_by, std::min(*point.put_off->until, latest));
    item.safety = safety;
    item.standing = point.standing;
    const bool wait = odds < threshold && !safety && !is_due(point);
    if (!wait) item.again = again.odds(point, days.to);
    item.point = point;
    (wait ? plan.can_wait : plan.beforehand).push_back(std::move(item));
  }
  fold_covered(snapshot.fleet(), plan.beforehand);
  std::stable_sort(plan.beforehand.begin(), plan.beforehand.end(), [](const SeasonItem& a, const SeasonItem& b) {
    return std::tuple{!a.safety, a.do_by, a.point.machine->key} < std::tuple{!b.safety, b.do_by, b.point.machine->key};
  });
  std::stable_sort(plan.can_wait.begin(), plan.can_wait.end(),
                   [](const SeasonItem& a, const SeasonItem& b) { return a.odds > b.odds; });
  std::vector<load::Use> uses;
  for (const SeasonItem& item : plan.beforehand) {
    plan.labour_minutes += item.resources.labour_minutes();
    plan.without_time += item.resources.time ? 0 : 1;
    PartUse use;
    use.machine = item.point.machine;
    use.point = load::label(item.point.name, item.point.position);
    use.due = {item.do_by, item.do_by, item.do_by};
    use.likely = true;
    load::add_uses(uses, item.resources, use);
  }
  plan.parts = load::needs_of(snapshot, std::move(uses));
  return plan;
}

}  // namespace service
