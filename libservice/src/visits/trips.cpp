#include "visits/trips.h"

#include "visits/exact.h"

namespace service::visits {
namespace {

constexpr int usual_later_trip_percent = 100;

}  // namespace

std::optional<Trip> trip_of(const Fleet& fleet, const Crew& crew, const Site& site) {
  const Site& start = *fleet.site(crew.start);
  const auto there = leg_of(fleet, crew, start, site);
  const auto home = leg_of(fleet, crew, site, *fleet.site(crew.end));
  if (!there || !home) return std::nullopt;
  Trip trip{*there, *home, 0, cost_of(fleet, crew, *there) + cost_of(fleet, crew, *home)};
  if (start.key == site.key) return trip;
  trip.set_up_minutes = static_cast<int>(site.set_up.count());
  trip.cost = trip.cost + set_up_cost(fleet, crew, site);
  return trip;
}

std::optional<Money> cheapest_trip(const Fleet& fleet, const std::vector<CrewDay>& days, const Site& site) {
  std::optional<Money> cheapest;
  for (const CrewDay& day : days) {
    const auto trip = trip_of(fleet, *day.crew, site);
    if (trip && (!cheapest || trip->cost < *cheapest)) cheapest = trip->cost;
  }
  return cheapest;
}

Money later_trip_share(const Fleet& fleet, const std::optional<Money>& trip, std::size_t shared_by) {
  if (!trip) return {};
  const int percent = fleet.costs.later_trip_percent.value_or(usual_later_trip_percent);
  return {half_up(Wide{percent} * trip->hundredths, Wide{100} * static_cast<std::int64_t>(shared_by))};
}

}  // namespace service::visits
