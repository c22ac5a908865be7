#include "visits/point_cost.h"

#include <algorithm>

#include "service/workload.h"
#include "visits/exact.h"

namespace service::visits {
namespace {

constexpr int usual_late_percent = 300;
constexpr int life_where_not_known = 365;

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

}  // namespace

int life_days_of(const Point& point, Day due_on) {
  return point.fitted ? std::max(1, days_between(point.fitted->on.first, due_on)) : life_where_not_known;
}

PointWorth worth_of(const Fleet& fleet, const Point& point, std::set<std::string>& no_price) {
  PointWorth worth;
  worth.due_on = *point.due_on;
  worth.life_days = life_days_of(point, worth.due_on);
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
  const Wide life = worth.life_days;
  const Wide already = std::max(0, days_between(worth.due_on, as_of));
  const Wide then = std::max(0, days_between(worth.due_on, std::max(as_of, done_on)));
  return {worth.late.hundredths * (2 * life * (then - already) + then * then - already * already), 3 * life * life};
}

Fraction early_share(const PointWorth& worth, Day done_on) {
  const int given_up = std::max(0, days_between(done_on, worth.due_on));
  return {Wide{worth.value.hundredths} * given_up, worth.life_days};
}

Money waiting_cost(const Call& call, Day as_of, Day done_on) {
  return {call.wait.value_or(Money{}).hundredths * std::max(0, days_between(as_of, done_on))};
}

}  // namespace service::visits
