#include "visits/trip_days.h"

#include <algorithm>

#include "visits/opening.h"

namespace service::visits::trip {
namespace {

// Its hours, or its duty where that is shorter, less the meal, the way and the set-up; and no more than the site is
// open between arriving and leaving. Below zero: it cannot be there at all.
int room_of(const CrewDay& day, const Trip& trip, const std::vector<ClockSpan>& open) {
  int away = day.hours.to - day.hours.from;
  if (day.duty) away = std::min(away, static_cast<int>(day.duty->count()));
  const int hours = away - static_cast<int>(day.crew->meal.count()) - trip.drive_minutes();
  int there = 0;
  for (const ClockSpan& span :
       in_both(open, {{day.hours.from + trip.there.minutes, day.hours.to - trip.home.minutes}})) {
    there += span.to - span.from;
  }
  return there == 0 ? -1 : std::min(hours, there) - trip.set_up_minutes;
}

}  // namespace

int TripDay::longest_room() const {
  int longest = 0;
  for (const CrewTrip& crew : crews) longest = std::max(longest, crew.room);
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
    const int room = room_of(day, *trip, open);
    if (room < minutes) continue;
    if (days.empty() || days.back().on != day.on) days.push_back({day.on, {}});
    days.back().crews.push_back({day.crew, *trip, room});
  }
  for (TripDay& day : days) {
    std::stable_sort(day.crews.begin(), day.crews.end(),
                     [](const CrewTrip& a, const CrewTrip& b) { return a.trip.cost < b.trip.cost; });
  }
  return days;
}

std::optional<int> first_day(const std::vector<TripDay>& days, Day from, int minutes) {
  for (std::size_t i = 0; i < days.size(); ++i) {
    if (days[i].on >= from && days[i].longest_room() >= minutes) return static_cast<int>(i);
  }
  return std::nullopt;
}

}  // namespace service::visits::trip
