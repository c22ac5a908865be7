#include "visits/trip_gather.h"

#include <algorithm>
#include <set>
#include <tuple>

namespace service::visits::trip {
namespace {

class Gathering {
 public:
  Gathering(const SiteModel& model, Places places) : model_(model), places_(std::move(places)) {}

  Places run() {
    while (meetings(places_) > 0 && gather_some()) {
    }
    return std::move(places_);
  }

 private:
  using Lot = std::vector<int>;  // what is done at one machine on one trip

  const Machine* machine(int point) const { return model_.points[slot(point)].point->machine; }

  // How many crews too many there are, at each machine on each day.
  std::size_t meetings(const Places& places) const {
    std::set<std::pair<const Machine*, int>> by_trip;
    std::set<std::pair<const Machine*, Day>> by_day;
    for (int point = 0; point < static_cast<int>(places.size()); ++point) {
      const int at = places[slot(point)];
      if (at == nowhere) continue;
      by_trip.emplace(machine(point), at);
      by_day.emplace(machine(point), model_.slots[slot(at)].on);
    }
    return by_trip.size() - by_day.size();
  }

  bool gather_some() {
    const auto trips = trips_of(model_, places_);
    const auto count = static_cast<int>(trips.size());
    for (int from = 0; from < count; ++from) {
      for (int to = 0; to < count; ++to) {
        const bool same_day = model_.slots[slot(from)].on == model_.slots[slot(to)].on;
        if (from != to && same_day && !trips[slot(from)].empty() && !trips[slot(to)].empty() &&
            gather(trips[slot(from)], trips[slot(to)], from, to)) {
          return true;
        }
      }
    }
    return false;
  }

  // The work at a machine at which both are goes from one trip to the other; where that has no time for it, in exchange
  // for the work at another machine.
  bool gather(const std::vector<int>& there, const std::vector<int>& here, int from, int to) {
    const std::vector<Lot> others = lots_of(here);
    for (const Lot& lot : lots_of(there)) {
      const auto same = [&](const Lot& other) { return machine(other.front()) == machine(lot.front()); };
      if (std::none_of(others.begin(), others.end(), same)) continue;
      if (taken({{&lot, to}}, from, to)) return true;
      for (const Lot& other : others) {
        if (!same(other) && taken({{&lot, to}, {&other, from}}, from, to)) return true;
      }
    }
    return false;
  }

  std::vector<Lot> lots_of(const std::vector<int>& trip) const {
    std::vector<Lot> lots;
    for (const int point : trip) {
      auto same = std::find_if(lots.begin(), lots.end(),
                               [&](const Lot& lot) { return machine(lot.front()) == machine(point); });
      if (same == lots.end()) same = lots.insert(lots.end(), {{}});
      same->push_back(point);
    }
    return lots;
  }

  bool taken(const std::vector<std::pair<const Lot*, int>>& moves, int one, int other) {
    Places next = places_;
    for (const auto& [lot, to] : moves) {
      for (const int point : *lot) {
        if (!model_.may[slot(point)][slot(to)]) return false;
        next[slot(point)] = to;
      }
    }
    if (std::tuple(rank_of(model_, next), meetings(next)) >= std::tuple(rank_of(model_, places_), meetings(places_))) {
      return false;
    }
    const auto trips = trips_of(model_, next);
    for (const int at : {one, other}) {
      if (!trips[slot(at)].empty() && !has_time(model_, at, trips[slot(at)])) return false;
    }
    places_ = std::move(next);
    return true;
  }

  const SiteModel& model_;
  Places places_;
};

}  // namespace

Places gathered(const SiteModel& model, Places places) { return Gathering(model, std::move(places)).run(); }

}  // namespace service::visits::trip
