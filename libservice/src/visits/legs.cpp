// How crews get from site to site, and what that costs.
#include <algorithm>
#include <tuple>

#include "service/rounds.h"
#include "visits/exact.h"
#include "visits/great_circle.h"

namespace service {
namespace {

const TravelRow* row_of(const Travel& travel, const std::string& from, const std::string& to) {
  const auto found =
      std::lower_bound(travel.rows.begin(), travel.rows.end(), std::tie(from, to),
                       [](const TravelRow& row, const auto& wanted) { return std::tie(row.from, row.to) < wanted; });
  return found != travel.rows.end() && found->from == from && found->to == to ? &*found : nullptr;
}

// The speed is in hundredths of a km an hour, so a minute is 1/600 of tenths over it.
int minutes_of(int tenths, Speed speed) {
  constexpr std::int64_t tenths_a_minute = 600;
  return static_cast<int>((tenths * tenths_a_minute + speed.hundredths - 1) / speed.hundredths);
}

Money per_hour(const Fleet& fleet, const Crew& crew) {
  return crew.per_hour.value_or(fleet.costs.hour.value_or(Money{}));
}

constexpr std::int64_t minutes_an_hour = 60;

}  // namespace

std::optional<Leg> leg_of(const Fleet& fleet, const Crew& crew, const Site& from, const Site& to) {
  if (from.key == to.key) return Leg{};
  const Travel travel_by_the_map;
  const Travel& travel = fleet.travel ? *fleet.travel : travel_by_the_map;
  if (const TravelRow* row = row_of(travel, from.key, to.key)) return Leg{row->minutes, row->tenths_of_km};
  const Speed speed = crew.speed.value_or(travel.speed);
  if (!from.at || !to.at || speed.hundredths <= 0) return std::nullopt;
  const int tenths = visits::tenths_of_km(*from.at, *to.at, travel.road_factor);
  return Leg{minutes_of(tenths, speed), tenths};
}

Money cost_of(const Fleet& fleet, const Crew& crew, const Leg& leg) {
  const Money per_km = crew.per_km.value_or(fleet.costs.km.value_or(Money{}));
  // Minutes over 60, and tenths of a km over 10: over 60 both.
  const visits::Wide sixtieths = visits::Wide{leg.minutes} * per_hour(fleet, crew).hundredths +
                                 visits::Wide{6} * leg.tenths_of_km * per_km.hundredths;
  return {visits::half_up(sixtieths, minutes_an_hour)};
}

Money set_up_cost(const Fleet& fleet, const Crew& crew, const Site& site) {
  return {visits::half_up(visits::Wide{site.set_up.count()} * per_hour(fleet, crew).hundredths, minutes_an_hour)};
}

}  // namespace service
