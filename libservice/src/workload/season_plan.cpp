#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <tuple>

#include "service/workload.h"
#include "workload/again.h"
#include "workload/needs.h"

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

bool includes(const Fleet& fleet, const SeasonItem& whole, const SeasonItem& part) {
  if (&whole == &part || whole.point.machine != part.point.machine) return false;
  if (whole.point.follow_up != nullptr || part.point.follow_up != nullptr) return false;
  if (whole.point.task == part.point.task) return false;
  // What is due today does not draw in a big service that has half its life before it.
  if (is_due(part.point) && !is_due(whole.point) && whole.given_up.value_or(0) > 0.5) return false;
  if (!whole.point.position.empty() && !part.point.position.empty() && whole.point.position != part.point.position) {
    return false;
  }
  const auto names = counted_as(fleet.schedule_of(*whole.point.machine), part.point.task->name);
  return std::find(names.begin(), names.end(), whole.point.task->name) != names.end();
}

// Which items are included by one that stays on the list itself: else what is due could go with an item that goes with
// a third one, which does not include it.
std::vector<bool> folded_of(const Fleet& fleet, const std::vector<SeasonItem>& items) {
  enum class Fate { open, stays, folded };
  std::vector<Fate> fates(items.size(), Fate::open);
  const std::function<bool(std::size_t)> folded = [&](std::size_t i) {  // no tasks cover each other in a ring
    for (std::size_t k = 0; k < items.size() && fates[i] == Fate::open; ++k) {
      if (includes(fleet, items[k], items[i]) && !folded(k)) fates[i] = Fate::folded;
    }
    if (fates[i] == Fate::open) fates[i] = Fate::stays;
    return fates[i] == Fate::folded;
  };
  std::vector<bool> all;
  for (std::size_t i = 0; i < items.size(); ++i) all.push_back(folded(i));
  return all;
}

// What another item of the list includes is told with that one.
void fold_covered(const Fleet& fleet, std::vector<SeasonItem>& items) {
  const std::vector<bool> folded = folded_of(fleet, items);
  std::vector<SeasonItem> kept;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (folded[i]) continue;
    for (std::size_t k = 0; k < items.size(); ++k) {
      if (!folded[k] || !includes(fleet, items[i], items[k])) continue;
      items[i].covered.push_back(name_of(items[k].point));
      items[i].do_by = std::min(items[i].do_by, items[k].do_by);
      items[i].safety = items[i].safety || items[k].safety;
      if (worse(items[k].standing, items[i].standing)) items[i].standing = items[k].standing;
    }
    kept.push_back(std::move(items[i]));  // what stays includes nothing more
  }
  items = std::move(kept);
}

constexpr Probability hardly{0.01};  // less odds of coming due before the season's end than that are not told

// Fills the lists of a plan from the points of the whole fleet.
class Sorting {
 public:
  Sorting(SeasonPlan& plan, const Snapshot& snapshot, const Forecaster& forecaster)
      : plan_(plan), snapshot_(snapshot), again_(snapshot, forecaster) {}

  void sort(Point&& point, const UseState* use) {
    const bool known = point.odds.has_value() && point.standing != Standing::no_record;
    const Probability odds = point.odds.value_or(Probability{});
    // What is due, by estimate too, stands on the list whatever the odds say, and what is safety from few odds on.
    const bool listed = odds >= plan_.threshold || is_due(point) || (point.task->safety && odds >= hardly);
    if (!known || (!point.unknown.empty() && !listed)) {
      // A sign that nobody saw is no gap.
      const bool quiet = point.unknown.empty() && point.standing == Standing::later && !point.odds && by_eye(point);
      if (!quiet) {
        plan_.unknown.push_back(std::move(point));
      } else if (in_scope(point)) {
        ++plan_.unlikely_before_end;
      }
      return;
    }
    if (!listed && odds < hardly) {
      plan_.unlikely_before_end += in_scope(point) ? 1 : 0;
      return;
    }
    SeasonItem item = item_of(point, use);
    if (listed) look_beyond(item, point);
    item.point = std::move(point);
    (listed ? plan_.beforehand : plan_.can_wait).push_back(std::move(item));
  }

 private:
  bool in_scope(const Point& point) const { return snapshot_.scope().holds(point.machine->key); }

  static bool by_eye(const Point& point) {
    return std::all_of(point.limbs.begin(), point.limbs.end(),
                       [](const LimbStanding& limb) { return observed(limb.kind); });
  }

  SeasonItem item_of(const Point& point, const UseState* use) const {
    const Day latest = std::max(plan_.as_of, plan_.from - std::chrono::days{1});
    SeasonItem item;
    item.odds = point.odds.value_or(Probability{});
    // A point that is due, by facts or by estimate, never waits for odds; what somebody put off waits until then.
    const Day early = is_due(point) ? plan_.as_of : point.due_span.p10.value_or(latest);
    item.do_by = std::clamp(early, plan_.as_of, latest);
    if (point.put_off && point.put_off->until) {
      item.do_by = std::max(item.do_by, std::min(*point.put_off->until, latest));
    }
    item.given_up = reached(point) ? std::optional{0.0} : given_up(point, plan_.as_of);
    item.resources = resources_of(*point.machine, *point.task, point.follow_up);
    item.safety = point.task->safety;
    item.standing = point.standing;
    item.use = use != nullptr ? use->kind : UseKind::in_use;
    return item;
  }

  // Whether it comes due again before the end, done today. What is hardly used gains nothing by being changed.
  void look_beyond(SeasonItem& item, const Point& point) {
    item.again = again_.odds(point, plan_.to);
    item.comes_again = item.again && *item.again >= plan_.threshold;
    item.hardly_helps = item.comes_again && item.given_up.value_or(0) > 0.5;
  }

  SeasonPlan& plan_;
  const Snapshot& snapshot_;
  load::Again again_;
};

// What the work beforehand takes, of the whole fleet.
std::vector<PartNeed> parts_of(const Snapshot& snapshot, const std::vector<SeasonItem>& items) {
  std::vector<load::Use> uses;
  for (const SeasonItem& item : items) {
    PartUse use;
    use.machine = item.point.machine;
    use.task = item.point.name;
    use.position = item.point.position;
    use.due = {item.do_by, item.do_by, item.do_by};
    use.likely = true;
    load::add_uses(uses, item.resources, use);
  }
  return load::needs_of(snapshot, std::move(uses));
}

void keep_of(const Scope& scope, SeasonPlan& plan) {
  const auto beyond = [&](const auto& each) { return !scope.holds(each.point.machine->key); };
  std::erase_if(plan.beforehand, beyond);
  std::erase_if(plan.can_wait, beyond);
  std::erase_if(plan.unknown, [&](const Point& point) { return !scope.holds(point.machine->key); });
  load::keep_uses_of(scope, plan.parts);
}

void add_up(SeasonPlan& plan) {
  for (const SeasonItem& item : plan.beforehand) {
    plan.labour_minutes += item.resources.labour_minutes();
    plan.without_time += item.resources.time ? 0 : 1;
  }
  for (const PartNeed& need : plan.parts) {
    PartAmount used;
    for (const PartUse& use : need.uses) used = used + use.amount;
    if (!need.fluid) plan.pieces += (used.hundredths + 99) / 100;
  }
}

}  // namespace

SeasonDays season_days(const Season& season, std::optional<int> year, Day as_of) {
  if (year) {
    const SeasonDays days = days_of(season, *year);
    if (days.to > add_months(as_of, horizon_months)) {
      throw Failure(FailureKind::usage, {"season-too-far",
                                         fmt::format("the season `{}` of {} ends more than five years from now",
                                                     cleaned(season.key), *year),
                                         "nothing is said of use beyond five years"});
    }
    if (days.to >= as_of) return days;
    throw Failure(FailureKind::usage,
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

SeasonPlan season_plan(const Snapshot& snapshot, const SeasonAsk& ask, const Forecaster& forecaster) {
  load::insist_on_whole(snapshot);
  const SeasonDays days = season_days(*ask.season, ask.year, snapshot.as_of());
  SeasonPlan plan;
  plan.fleet = snapshot.fleet_ptr();
  plan.season = ask.season;
  plan.as_of = snapshot.as_of();
  plan.from = days.from;
  plan.to = days.to;
  plan.threshold = ask.threshold;
  DueList list = due_list(snapshot.within({}), {days.to, days.to, Detail::coming, hardly}, forecaster);
  Sorting sorting(plan, snapshot, forecaster);
  for (Point& point : list.points) {
    const UseState* use = list.state_of(*point.machine);
    sorting.sort(std::move(point), use);
  }
  fold_covered(snapshot.fleet(), plan.beforehand);
  std::stable_sort(plan.beforehand.begin(), plan.beforehand.end(), [](const SeasonItem& a, const SeasonItem& b) {
    return std::tuple{!a.safety, a.do_by, a.point.machine->key} < std::tuple{!b.safety, b.do_by, b.point.machine->key};
  });
  std::stable_sort(plan.can_wait.begin(), plan.can_wait.end(),
                   [](const SeasonItem& a, const SeasonItem& b) { return a.odds > b.odds; });
  plan.parts = parts_of(snapshot, plan.beforehand);
  if (snapshot.scope().machines) list = due_list(snapshot, {plan.as_of, {}, Detail::standings}, forecaster);
  plan.gaps = std::move(list.gaps);
  plan.not_in_use = std::move(list.not_in_use);
  keep_of(snapshot.scope(), plan);
  add_up(plan);
  return plan;
}

PartsList parts_before(const Snapshot& snapshot, const SeasonAsk& ask, const Forecaster& forecaster) {
  SeasonPlan plan = season_plan(snapshot, ask, forecaster);
  PartsList list;
  list.fleet = plan.fleet;
  list.as_of = plan.as_of;
  list.to = std::max(plan.as_of, plan.from - std::chrono::days{1});
  list.before = ask.season;
  list.whole_fleet = !snapshot.scope().machines;
  list.needs = std::move(plan.parts);
  for (const Point& point : plan.unknown) list.unknown.push_back(name_of(point));
  for (const MachineUse& use : plan.not_in_use) {
    const bool listed = std::any_of(plan.beforehand.begin(), plan.beforehand.end(),
                                    [&](const SeasonItem& item) { return item.point.machine == use.machine; });
    if (!use.state.until && !listed) list.not_in_use.push_back(use);
  }
  return list;
}

}  // namespace service
