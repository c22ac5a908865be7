#include "visits/trip_packing.h"

#include <algorithm>
#include <numeric>
#include <optional>

namespace service::visits::trip {
namespace {

using Lot = std::vector<int>;  // points that are done together

class Packing {
 public:
  Packing(const Fleet& fleet, const Group& group) : fleet_(fleet), group_(group) {}

  Packed run(const Units& units, const std::vector<int>& day_of) {
    std::vector<std::vector<Lot>> by_day(group_.days.size());
    for (std::size_t unit = 0; unit < day_of.size(); ++unit) by_day[slot(day_of[unit])].push_back(units.points[unit]);
    for (int day = 0; day < static_cast<int>(by_day.size()); ++day) place_day(day, by_day[slot(day)]);
    first_what_never_waits(left_);
    for (const Lot& lot : left_) place_elsewhere(lot);
    std::stable_sort(packed_.trips.begin(), packed_.trips.end(),
                     [](const PackedTrip& a, const PackedTrip& b) { return a.day < b.day; });
    for (PackedTrip& trip : packed_.trips) std::sort(trip.points.begin(), trip.points.end());
    return packed_;
  }

 private:
  // A place for a lot: in a trip that is made, or with another crew.
  struct Place {
    int day = 0;
    int crew = 0;
    std::optional<std::size_t> trip;
    Cost cost = 0;
  };

  bool holds(const CrewTrip& crew, const Lot& lot) const {
    std::vector<const Point*> points;
    for (const int number : lot) points.push_back(group_.points[slot(number)].point);
    return has_time(fleet_, crew, points);
  }

  bool never_waits(const Lot& lot) const {
    return std::any_of(lot.begin(), lot.end(),
                       [&](int point) { return service::never_waits(*group_.points[slot(point)].point); });
  }

  void first_what_never_waits(std::vector<Lot>& lots) const {
    std::stable_sort(lots.begin(), lots.end(),
                     [&](const Lot& a, const Lot& b) { return never_waits(a) > never_waits(b); });
  }

  static Lot together(Lot a, const Lot& b) {
    a.insert(a.end(), b.begin(), b.end());
    return a;
  }

  void place_day(int day, std::vector<Lot> lots) {
    if (lots.empty()) return;
    const auto& crews = group_.days[slot(day)].crews;
    const Lot all = std::accumulate(lots.begin(), lots.end(), Lot{}, together);
    const auto all_fits = [&](const CrewTrip& crew) { return holds(crew, all); };
    if (const auto crew = std::find_if(crews.begin(), crews.end(), all_fits); crew != crews.end()) {
      packed_.as_asked = packed_.as_asked && crew->trip.cost == crews.front().trip.cost;
      packed_.trips.push_back({day, static_cast<int>(crew - crews.begin()), all});
      return;
    }
    packed_.as_asked = false;
    first_what_never_waits(lots);
    std::vector<int> free(crews.size());
    std::iota(free.begin(), free.end(), 0);
    while (!lots.empty() && !free.empty()) fill_one(day, lots, free);
    left_.insert(left_.end(), lots.begin(), lots.end());
  }

  // The next crew takes what it can of these: the cheapest that takes all, else the one with most time.
  void fill_one(int day, std::vector<Lot>& lots, std::vector<int>& free) {
    const auto& crews = group_.days[slot(day)].crews;
    const Lot all = std::accumulate(lots.begin(), lots.end(), Lot{}, together);
    const auto room = [&](int crew) { return crews[slot(crew)].room; };
    auto chosen = std::find_if(free.begin(), free.end(), [&](int crew) { return holds(crews[slot(crew)], all); });
    if (chosen == free.end()) {
      chosen = std::max_element(free.begin(), free.end(), [&](int a, int b) { return room(a) < room(b); });
    }
    PackedTrip trip{day, *chosen, {}};
    std::erase_if(lots, [&](const Lot& lot) {
      const Lot with = together(trip.points, lot);
      if (!holds(crews[slot(trip.crew)], with)) return false;
      trip.points = with;
      return true;
    });
    free.erase(chosen);
    if (!trip.points.empty()) packed_.trips.push_back(std::move(trip));
  }

  void place_elsewhere(const Lot& lot) {
    Window window{0, static_cast<int>(group_.days.size()) - 1, static_cast<int>(group_.days.size()) - 1, 0};
    for (const int point : lot) {
      const Window of = *window_of(group_.points[slot(point)], group_.days);
      window.first = std::max(window.first, of.first);
      window.last = std::min(window.last, of.last);
      window.last_of_all = std::min(window.last_of_all, of.last_of_all);
    }
    auto place = cheapest_place(lot, window.first, window.last);
    // Nothing else is possible: the first day after it.
    for (int day = window.last + 1; day <= window.last_of_all && !place; ++day) place = cheapest_place(lot, day, day);
    if (place) {
      put(lot, *place);
    } else if (lot.size() == 1) {
      packed_.nowhere.push_back(lot.front());
    } else {
      for (const int point : lot) place_elsewhere({point});
    }
  }

  std::optional<Place> cheapest_place(const Lot& lot, int first, int last) const {
    std::optional<Place> cheapest;
    for (int day = first; day <= last; ++day) {
      Cost waiting = 0;
      for (const int point : lot) waiting += group_.points[slot(point)].cost.compared(group_.days[slot(day)].on);
      for (const Place& place : places_on(lot, day)) {
        if (!cheapest || waiting + place.cost < cheapest->cost) {
          cheapest = Place{day, place.crew, place.trip, waiting + place.cost};
        }
      }
    }
    return cheapest;
  }

  std::vector<Place> places_on(const Lot& lot, int day) const {
    std::vector<Place> places;
    const auto& crews = group_.days[slot(day)].crews;
    std::vector<bool> goes(crews.size());
    for (std::size_t i = 0; i < packed_.trips.size(); ++i) {
      const PackedTrip& trip = packed_.trips[i];
      if (trip.day != day) continue;
      goes[slot(trip.crew)] = true;
      if (holds(crews[slot(trip.crew)], together(trip.points, lot))) places.push_back({day, trip.crew, i, 0});
    }
    for (std::size_t crew = 0; crew < crews.size(); ++crew) {
      if (goes[crew] || !holds(crews[crew], lot)) continue;
      places.push_back({day, static_cast<int>(crew), std::nullopt, one_penny * crews[crew].trip.cost.hundredths});
    }
    return places;
  }

  void put(const Lot& lot, const Place& place) {
    if (!place.trip) {
      packed_.trips.push_back({place.day, place.crew, lot});
      return;
    }
    auto& points = packed_.trips[*place.trip].points;
    points.insert(points.end(), lot.begin(), lot.end());
  }

  const Fleet& fleet_;
  const Group& group_;
  Packed packed_;
  std::vector<Lot> left_;
};

}  // namespace

Packed packed(const Fleet& fleet, const Group& group, const Units& units, const std::vector<int>& day_of) {
  return Packing(fleet, group).run(units, day_of);
}

}  // namespace service::visits::trip
