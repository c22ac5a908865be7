#include "visits/point_cost.h"

#include <algorithm>

#include "service/workload.h"
#include "visits/exact.h"
#include "visits/wanted.h"

namespace service::visits {
namespace {

constexpr int usual_late_percent = 300;
constexpr int life_where_not_known = 365;
constexpr int most_days = 50 * 365;  // no interval of use is reckoned to last longer

const Part* part_of(const Fleet& fleet, const std::string& key) {
  const auto found = std::find_if(fleet.parts.begin(), fleet.parts.end(), [&](const Part& p) { return p.key == key; });
  return found == fleet.parts.end() ? nullptr : &*found;
}

// Of one unit of what is used; a part that is listed in another unit is not that part.
std::optional<Money> price_of(const Fleet& fleet, const std::string& key, const std::string& unit) {
  const Part* part = part_of(fleet, key);
  if (part == nullptr || (!unit.empty() && !part->unit.empty() && part->unit != unit)) return std::nullopt;
  return part->price;
}

// Rounded once: amounts and prices are hundredths, so their products are hundredths of hundredths; minutes are over 60.
Money value_of(const Fleet& fleet, const Resources& resources, std::set<std::string>& no_price) {
  Wide products = 0;
  const auto add = [&](const std::string& key, PartAmount amount, const std::string& unit) {
    if (const auto price = price_of(fleet, key, unit)) {
      products += Wide{amount.hundredths} * price->hundredths;
    } else {
      no_price.insert(key);
    }
  };
  for (const auto& [key, pieces] : resources.parts) add(key, pieces, "");
  for (const auto& [key, quantity] : resources.fluids) add(key, quantity.amount, quantity.unit);
  const Wide minutes = resources.time ? resources.time->count() : 0;
  const Money hour = fleet.costs.hour.value_or(Money{});
  return {half_up(3 * products + 5 * minutes * hour.hundredths, 300)};
}

// The service that a check follows; null where the list does not hold it.
const Point* followed_by(const DueList& list, const Point& check) {
  const auto found = std::find_if(list.points.begin(), list.points.end(), [&](const Point& point) {
    return point.machine == check.machine && point.task == check.task && point.position == check.position &&
           point.follow_up == nullptr;
  });
  return found == list.points.end() ? nullptr : &*found;
}

int interval_days_in(const DueList& list, const Point& point) {
  if (point.follow_up == nullptr) return interval_days_of(point, *point.due_on);
  const Point* service = followed_by(list, point);
  return service != nullptr && service->due_on ? interval_days_of(*service, *service->due_on) : life_where_not_known;
}

// Times 3 T²: 2 T n + n² for n days of an interval of T; beyond that it goes on as fast as it does there.
Wide lost_by(Wide days, Wide interval) {
  const Wide within = std::min(days, interval);
  return 2 * interval * within + within * within + 4 * interval * (days - within);
}

}  // namespace

int life_days_of(const Point& point, Day due_on) {
  return point.fitted ? std::max(1, days_between(point.fitted->on.first, due_on)) : life_where_not_known;
}

int interval_days_of(const Point& point, Day due_on) {
  const int life = life_days_of(point, due_on);
  if (!point.ruled_by || point.task->counts_from == CountsFrom::done) return life;
  const LimbStanding& limb = point.limbs[*point.ruled_by];
  if (limb.kind == LimbKind::calendar && limb.counted_from) {
    return std::max(life, days_between(*limb.counted_from, due_on));
  }
  // Of use, as many times longer as the whole interval is longer than what was left of it at the fitting.
  if (limb.kind != LimbKind::usage || !limb.every || !limb.due_at || !limb.fitted_at) return life;
  const Wide whole = limb.every->hundredths;
  const Wide given = (*limb.due_at - *limb.fitted_at).hundredths;
  if (given <= 0) return std::max(life, life_where_not_known);
  if (given >= whole) return life;
  return static_cast<int>(std::min<Wide>(half_up(life * whole, given), std::max(life, most_days)));
}

PointWorth worth_of(const DueList& list, const Point& point, std::set<std::string>& no_price) {
  const Fleet& fleet = *list.fleet;
  PointWorth worth;
  worth.due_on = *point.due_on;
  if (const Day wanted = wanted_on(list, point); wanted != worth.due_on) worth.late_from = wanted;
  worth.life_days = interval_days_in(list, point);
  worth.value = value_of(fleet, resources_of(*point.machine, *point.task, point.follow_up), no_price);
  // What a task says of being late is said of the task, not of a check that follows it.
  if (point.follow_up == nullptr && point.task->late) {
    worth.late = *point.task->late;
  } else {
    const int percent = fleet.costs.late_percent.value_or(usual_late_percent);
    worth.late = {half_up(Wide{percent} * worth.value.hundredths, 100)};
  }
  return worth;
}

Fraction late_share(const PointWorth& worth, Day as_of, Day done_on) {
  const Wide interval = worth.life_days;
  const Wide already = std::max(0, days_between(worth.wanted_on(), as_of));
  const Wide then = std::max(0, days_between(worth.wanted_on(), std::max(as_of, done_on)));
  return {worth.late.hundredths * (lost_by(then, interval) - lost_by(already, interval)), 3 * interval * interval};
}

Fraction early_share(const PointWorth& worth, Day done_on) {
  const int given_up = std::max(0, days_between(done_on, worth.due_on));
  return {Wide{worth.value.hundredths} * given_up, worth.life_days};
}

Money waiting_cost(const Call& call, Day as_of, Day done_on) {
  return {call.wait.value_or(Money{}).hundredths * std::max(0, days_between(as_of, done_on))};
}

}  // namespace service::visits
