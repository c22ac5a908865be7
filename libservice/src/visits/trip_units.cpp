#include "visits/trip_units.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>

#include "service/job_sheet.h"

namespace service::visits::trip {
namespace {

std::size_t number(int index) { return static_cast<std::size_t>(index); }

bool meet(const PathUnit& a, const PathUnit& b) { return std::max(a.first, b.first) <= std::min(a.last, b.last); }

class Making {
 public:
  Making(const Fleet& fleet, const Group& group) : fleet_(fleet), group_(group) {
    for (int i = 0; i < static_cast<int>(group.points.size()); ++i) add_point(i);
    find_pairs();
  }

  Units make() {
    while (merge_one() || merge_too_many()) {
    }
    Units units;
    std::map<int, int> numbers;
    for (int unit = 0; unit < static_cast<int>(units_.size()); ++unit) {
      if (points_[number(unit)].empty()) continue;
      numbers[unit] = static_cast<int>(units.points.size());
      units.points.push_back(points_[number(unit)]);
      units.own.push_back(own_[number(unit)]);
      units.problem.units.push_back(units_[number(unit)]);
    }
    for (const auto& [inner, outer] : links()) units.problem.links.push_back({numbers[inner], numbers[outer]});
    for (const TripDay& day : group_.days) {
      units.problem.trips.push_back(one_penny * day.cheapest().trip.cost.hundredths);
    }
    settle_own_days(units);
    return units;
  }

 private:
  void add_point(int index) {
    const TripPoint& point = group_.points[number(index)];
    const Window window = *window_of(point, group_.days);
    PathUnit unit{window.first, window.last, {}};
    for (const TripDay& day : group_.days) unit.costs.push_back(point.cost.compared(day.on));
    best_.push_back(unit.best());
    units_.push_back(std::move(unit));
    points_.push_back({index});
    unit_of_.push_back(index);
    own_.push_back(window.own);
  }

  // What somebody put off waits for that day, whatever includes it.
  void find_pairs() {
    std::map<const Machine*, std::vector<int>> by_machine;
    for (int i = 0; i < static_cast<int>(group_.points.size()); ++i) {
      by_machine[group_.points[number(i)].point->machine].push_back(i);
    }
    for (const auto& [machine, points] : by_machine) {
      for (const int inner : points) {
        const Point& part = *group_.points[number(inner)].point;
        if (part.put_off) continue;
        for (const int outer : points) {
          if (inner != outer && stands_for(fleet_, *group_.points[number(outer)].point, part)) {
            pairs_.push_back({inner, outer});
          }
        }
      }
    }
    std::sort(pairs_.begin(), pairs_.end());  // not by where machines are kept
  }

  bool merge_one() {
    return std::any_of(pairs_.begin(), pairs_.end(), [&](const auto& pair) {
      const int inner = unit_of_[number(pair.first)];
      const int outer = unit_of_[number(pair.second)];
      if (inner == outer || best_[number(outer)] > best_[number(inner)]) return false;
      return merge(inner, outer);
    });
  }

  bool merge(int inner, int outer) {
    PathUnit& to = units_[number(outer)];
    const PathUnit& from = units_[number(inner)];
    if (!meet(to, from)) return false;
    to.first = std::max(to.first, from.first);
    to.last = std::min(to.last, from.last);
    for (std::size_t i = 0; i < to.costs.size(); ++i) to.costs[i] += from.costs[i];
    best_[number(outer)] = to.best();
    own_[number(outer)] = std::min(own_[number(outer)], own_[number(inner)]);
    auto& points = points_[number(outer)];
    for (const int point : points_[number(inner)]) {
      points.push_back(point);
      unit_of_[number(point)] = outer;
    }
    std::sort(points.begin(), points.end());
    points_[number(inner)].clear();
    return true;
  }

  // Units with others that they include, and that may be done before.
  std::set<std::pair<int, int>> links() const {
    std::set<std::pair<int, int>> links;
    for (const auto& [part, whole] : pairs_) {
      const int inner = unit_of_[number(part)];
      const int outer = unit_of_[number(whole)];
      if (inner != outer && best_[number(inner)] < best_[number(outer)]) links.insert({inner, outer});
    }
    return links;
  }

  // Of one machine, for what is linked is of one machine.
  bool merge_too_many() {
    std::map<const Machine*, std::set<int>> outers;
    const auto all = links();
    for (const auto& [inner, outer] : all) {
      outers[group_.points[number(points_[number(outer)].front())].point->machine].insert(outer);
    }
    return std::any_of(all.begin(), all.end(), [&](const auto& link) {
      const Machine* machine = group_.points[number(points_[number(link.second)].front())].point->machine;
      return outers[machine].size() > static_cast<std::size_t>(most_outers) && merge(link.first, link.second);
    });
  }

  // A day on which the unit may be done, and none later than what includes it.
  static void settle_own_days(Units& units) {
    for (std::size_t pass = 0; pass < units.points.size(); ++pass) {
      for (const PathLink& link : units.problem.links) {
        int& inner = units.own[number(link.inner)];
        inner = std::min(inner, units.own[number(link.outer)]);
      }
    }
    for (std::size_t i = 0; i < units.own.size(); ++i) {
      units.own[i] = std::clamp(units.own[i], units.problem.units[i].first, units.problem.units[i].last);
    }
  }

  const Fleet& fleet_;
  const Group& group_;
  std::vector<PathUnit> units_;
  std::vector<std::vector<int>> points_;    // of each unit; none: it was merged into another
  std::vector<int> best_;                   // day of each unit
  std::vector<int> own_;                    // likewise
  std::vector<int> unit_of_;                // of each point
  std::vector<std::pair<int, int>> pairs_;  // of points: one that the other stands for, and that other
};

}  // namespace

bool stands_for(const Fleet& fleet, const Point& whole, const Point& part) {
  const auto alone = by_themselves(fleet, {&whole, &part});
  return std::find(alone.begin(), alone.end(), &part) == alone.end();
}

Units units_of(const Fleet& fleet, const Group& group) { return Making(fleet, group).make(); }

}  // namespace service::visits::trip
