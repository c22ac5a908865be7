#include "visits/trip_start.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "visits/trip_packing.h"
#include "visits/trip_work.h"

namespace service::visits::trip {
namespace {

// What is done on the trips that are made.
using Booked = std::map<std::pair<Day, const Crew*>, std::vector<const Point*>>;

// A crew that is there with time for some of it comes first and costs nothing more; one that has none is the last.
void take_off(const Fleet& fleet, std::vector<TripDay>& days, const Booked& booked, int least_minutes) {
  for (TripDay& day : days) {
    std::set<const Crew*> full;
    for (CrewTrip& crew : day.crews) {
      const auto made = booked.find({day.on, crew.crew});
      if (made == booked.end()) continue;
      crew.booked = made->second;
      crew.room -= work_minutes(done_alone(fleet, crew.booked));
      crew.longest = std::min(crew.longest, crew.room);
      if (crew.longest < least_minutes) {
        full.insert(crew.crew);
      } else {
        crew.trip.cost = {};
      }
    }
    std::stable_sort(day.crews.begin(), day.crews.end(), [&](const CrewTrip& a, const CrewTrip& b) {
      return std::tuple(full.contains(a.crew), a.trip.cost) < std::tuple(full.contains(b.crew), b.trip.cost);
    });
  }
}

class Starting {
 public:
  Starting(const SiteModel& model, bool own_days) : model_(model), own_days_(own_days) {
    start_.places.assign(model.points.size(), nowhere);
  }

  void add(Group group) {
    if (!booked_.empty()) make_room(group);
    if (group.points.empty()) return;
    const Units units = units_of(*model_.fleet, group);
    const PathPlan path = shortest_path(units.problem);
    const Packed made = packed(*model_.fleet, group, units, own_days_ ? units.own : path.day_of);
    start_.least += path.value;
    start_.as_asked = start_.as_asked && made.as_asked;
    for (const PackedTrip& trip : made.trips) {
      const TripDay& day = group.days[slot(trip.day)];
      const CrewTrip& crew = day.crews[slot(trip.crew)];
      auto& booked = booked_[{day.on, crew.crew}];
      for (const int number : trip.points) {
        const Point* point = group.points[slot(number)].point;
        booked.push_back(point);
        start_.places[slot(number_of(point))] = slot_of(day.on, crew.crew);
      }
    }
  }

  Start take() { return std::move(start_); }

 private:
  void make_room(Group& group) const {
    int least = group.points.front().minutes;
    for (const TripPoint& point : group.points) least = std::min(least, point.minutes);
    take_off(*model_.fleet, group.days, booked_, least);
    std::erase_if(group.points, [&](const TripPoint& point) { return !window_of(point, group.days); });
  }

  int number_of(const Point* point) const {
    const auto found = std::lower_bound(model_.points.begin(), model_.points.end(), point,
                                        [](const TripPoint& one, const Point* other) { return one.point < other; });
    return static_cast<int>(found - model_.points.begin());
  }

  int slot_of(Day on, const Crew* crew) const {
    const auto found = std::find_if(model_.slots.begin(), model_.slots.end(),
                                    [&](const TripSlot& one) { return one.on == on && one.crew.crew == crew; });
    return static_cast<int>(found - model_.slots.begin());
  }

  const SiteModel& model_;
  bool own_days_;
  Booked booked_;
  Start start_;
};

}  // namespace

Start start_of(const SiteModel& model, const std::vector<Group>& groups, const std::vector<std::size_t>& order,
               bool own_days) {
  Starting starting(model, own_days);
  for (const std::size_t index : order) starting.add(groups[index]);
  return starting.take();
}

}  // namespace service::visits::trip
