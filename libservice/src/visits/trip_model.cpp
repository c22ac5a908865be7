#include "visits/trip_model.h"

#include <algorithm>

#include "visits/trip_units.h"
#include "visits/trip_work.h"

namespace service::visits::trip {
namespace {

// What goes nowhere waits until so long after the span, as what is put off in a week of rounds does.
constexpr std::chrono::days left_days{7};

class ModelMaking {
 public:
  ModelMaking(const Fleet& fleet, const SiteWork& work) : left_until_(work.to + left_days) {
    model_.fleet = &fleet;
    model_.site = work.groups.front().site;
    for (const Group& group : work.groups) {
      model_.points.insert(model_.points.end(), group.points.begin(), group.points.end());
    }
    std::sort(model_.points.begin(), model_.points.end(),
              [](const TripPoint& a, const TripPoint& b) { return a.point < b.point; });  // they stand in the list
    for (const TripDay& day : work.days) {
      for (const CrewTrip& crew : day.crews) {
        model_.slots.push_back({day.on, crew, one_penny * crew.trip.cost.hundredths});
      }
    }
    for (const TripPoint& point : model_.points) add(point);
    find_pairs();
    for (std::size_t point = 0; point < model_.points.size(); ++point) leave_time(point);
  }

  SiteModel take() { return std::move(model_); }

 private:
  void add(const TripPoint& point) {
    std::vector<bool> may;
    std::vector<Cost> costs;
    std::optional<int> from_due;
    int last = nowhere;
    const Day wished = std::max(point.wanted, point.earliest);
    for (int i = 0; i < static_cast<int>(model_.slots.size()); ++i) {
      const TripSlot& at = model_.slots[slot(i)];
      const bool same_day = last != nowhere && model_.slots[slot(last)].on == at.on;
      costs.push_back(i > 0 && model_.slots[slot(i - 1)].on == at.on ? costs.back() : point.cost.compared(at.on));
      may.push_back(at.on >= point.earliest && (!point.left || at.on < *point.left) && can(*at.crew.crew, point.needs));
      if (!may.back() || at.crew.longest < point.minutes) continue;
      if (!same_day) last = i;
      if (!from_due && at.on >= wished) from_due = i;
    }
    model_.urgent.push_back(never_waits(*point.point));
    model_.left.push_back(point.cost.compared(left_until_));
    model_.may.push_back(std::move(may));
    model_.costs.push_back(std::move(costs));
    model_.own.push_back(from_due.value_or(last));
  }

  // What somebody put off waits for that day, whatever includes it.
  void find_pairs() {
    const auto count = static_cast<int>(model_.points.size());
    model_.includes.resize(model_.points.size());
    model_.included_in.resize(model_.points.size());
    for (int inner = 0; inner < count; ++inner) {
      const Point& part = *model_.points[slot(inner)].point;
      for (int outer = 0; outer < count; ++outer) {
        const Point& whole = *model_.points[slot(outer)].point;
        if (inner == outer || part.machine != whole.machine || !stands_for(*model_.fleet, whole, part)) continue;
        model_.included_in[slot(inner)].push_back(outer);
        if (!part.put_off) model_.includes[slot(outer)].push_back(inner);
      }
    }
  }

  // What includes it may be shorter, and what is done before it has set up.
  void leave_time(std::size_t point) {
    int least = model_.points[point].minutes;
    for (const int outer : model_.included_in[point]) least = std::min(least, model_.points[slot(outer)].minutes);
    for (std::size_t at = 0; at < model_.slots.size(); ++at) {
      if (longest_behind(model_.slots[at].crew.hours) < least) model_.may[point][at] = false;
    }
  }

  Day left_until_;
  SiteModel model_;
};

}  // namespace

int SiteModel::late_days(int point, int at) const {
  if (at == nowhere || !urgent[slot(point)]) return 0;
  return std::max(0, days_between(slots[slot(own[slot(point)])].on, slots[slot(at)].on));
}

SiteModel model_of(const Fleet& fleet, const SiteWork& work) { return ModelMaking(fleet, work).take(); }

Rank rank_of(const SiteModel& model, const Places& places) {
  Rank rank;
  std::vector<bool> made(model.slots.size());
  for (int point = 0; point < static_cast<int>(places.size()); ++point) {
    const int at = places[slot(point)];
    if (at == nowhere) {
      rank.cost += model.left[slot(point)];
      ++(model.urgent[slot(point)] ? rank.unsafe : rank.left);
      continue;
    }
    rank.late_days += model.late_days(point, at);
    rank.cost += model.costs[slot(point)][slot(at)];
    if (!made[slot(at)]) rank.cost += model.slots[slot(at)].cost;
    made[slot(at)] = true;
    for (const int inner : model.includes[slot(point)]) {
      const int before = places[slot(inner)];
      if (before != nowhere && before != at && model.slots[slot(before)].on >= model.slots[slot(at)].on) ++rank.twice;
    }
  }
  return rank;
}

std::vector<const Point*> points_of(const SiteModel& model, const std::vector<int>& numbers) {
  std::vector<const Point*> points;
  for (const int number : numbers) points.push_back(model.points[slot(number)].point);
  return points;
}

bool has_time(const SiteModel& model, int at, const std::vector<int>& points) {
  const TripHours& hours = model.slots[slot(at)].crew.hours;
  std::vector<std::pair<const Machine*, int>> stays;
  bool apart = true;
  for (const int number : points) {
    const TripPoint& point = model.points[slot(number)];
    const auto among = [&](int other) { return std::find(points.begin(), points.end(), other) != points.end(); };
    const auto& outer = model.included_in[slot(number)];
    apart = apart && std::none_of(outer.begin(), outer.end(), among);
    auto stay =
        std::find_if(stays.begin(), stays.end(), [&](const auto& one) { return one.first == point.point->machine; });
    if (stay == stays.end()) stay = stays.insert(stays.end(), {point.point->machine, 0});
    stay->second += point.minutes;
  }
  if (!apart) return holds(hours, stays_of(*model.fleet, points_of(model, points)));
  std::vector<int> minutes;
  for (const auto& [machine, stay] : stays) minutes.push_back(stay);
  return holds(hours, minutes);
}

std::vector<std::vector<int>> trips_of(const SiteModel& model, const Places& places) {
  std::vector<std::vector<int>> trips(model.slots.size());
  for (int point = 0; point < static_cast<int>(places.size()); ++point) {
    if (places[slot(point)] != nowhere) trips[slot(places[slot(point)])].push_back(point);
  }
  return trips;
}

std::vector<int> with_included(const SiteModel& model, int point, const std::vector<int>& trip) {
  std::vector<int> all{point};
  for (const int other : trip) {
    const auto& outer = model.included_in[slot(other)];
    if (other != point && std::find(outer.begin(), outer.end(), point) != outer.end()) all.push_back(other);
  }
  std::sort(all.begin(), all.end());
  return all;
}

}  // namespace service::visits::trip
