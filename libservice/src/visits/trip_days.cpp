#include "visits/trip_days.h"

#include <algorithm>

#include "visits/opening.h"
#include "visits/trip_work.h"

namespace service::visits::trip {
bool has_time(const Fleet& fleet, const CrewTrip& trip, const std::vector<const Point*>& points) {
  std::vector<const Point*> all = trip.booked;
  all.insert(all.end(), points.begin(), points.end());
  return holds(trip.hours, stays_of(fleet, all));
}

int TripDay::longest_stay() const {
  int longest = 0;
  for (const CrewTrip& crew : crews) longest = std::max(longest, crew.longest);
  return longest;
}

std::vector<TripDay> trip_days(const Fleet& fleet, const std::vector<CrewDay>& crew_days, const Site& site,
                               const Needs& needs, int minutes) {
  std::vector<TripDay> days;
  for (const CrewDay& day : crew_days) {
    if (!can(*day.crew, needs)) continue;
    const auto open = opening_on(fleet, site, day.on);
    const auto trip = trip_of(fleet, *day.crew, site);
    if (open.empty() || !trip) continue;
    CrewTrip one{day.crew, *trip, hours_of(day, *trip, open), 0, 0, {}};
    one.room = most_work(one.hours);
    one.longest = longest_stay(one.hours);
    if (one.longest < minutes) continue;
    if (days.empty() || days.back().on != day.on) days.push_back({day.on, {}});
    days.back().crews.push_back(std::move(one));
  }
  for (TripDay& day : days) {
    std::stable_sort(day.crews.begin(), day.crews.end(),
                     [](const CrewTrip& a, const CrewTrip& b) { return a.trip.cost < b.trip.cost; });
  }
  return days;
}

std::optional<int> first_day(const std::vector<TripDay>& days, Day from, int minutes) {
  for (std::size_t i = 0; i < days.size(); ++i) {
    if (days[i].on >= from && days[i].longest_stay() >= minutes) return static_cast<int>(i);
  }
  return std::nullopt;
}

}  // namespace service::visits::trip
