#include <algorithm>
#include <functional>
#include <optional>
#include <string_view>
#include <tuple>
#include <unordered_map>
#include <utility>
#include <vector>

#include "service/due_list.h"

namespace service {
namespace {

using Key = std::tuple<std::string_view, std::string_view, std::string_view>;  // of points that outlive it

Key key_of(const Point& point) { return {point.machine->key, point.name, point.position}; }

struct KeyHash {
  std::size_t operator()(const Key& key) const {
    constexpr std::size_t odd = 0x9e3779b97f4a7c15U;
    const std::hash<std::string_view> hash;
    return (hash(std::get<0>(key)) * odd + hash(std::get<1>(key))) * odd + hash(std::get<2>(key));
  }
};

template <class Value>
using ByPoint = std::unordered_map<Key, Value, KeyHash>;

bool same(const Point& a, const Point& b) {
  if (a.standing != b.standing || a.by_estimate != b.by_estimate) return false;
  if (a.fitted.has_value() != b.fitted.has_value()) return false;
  if (a.fitted && (a.fitted->on != b.fitted->on || a.fitted->at != b.fitted->at)) return false;
  return !reached(a) || a.due_on == b.due_on;
}

}  // namespace

std::vector<PointChange> difference(const DueList& before, const DueList& after) {
  ByPoint<const Point*> old(before.points.size());
  for (const Point& point : before.points) old.emplace(key_of(point), &point);
  std::vector<PointChange> changes;
  for (const Point& point : after.points) {
    const auto found = old.find(key_of(point));
    if (found == old.end()) {
      changes.push_back({nullptr, &point});
      continue;
    }
    if (!same(*found->second, point)) changes.push_back({found->second, &point});
    old.erase(found);
  }
  std::vector<std::pair<Key, const Point*>> gone(old.begin(), old.end());
  std::sort(gone.begin(), gone.end());
  for (const auto& [key, point] : gone) changes.push_back({point, nullptr});
  return changes;
}

std::vector<HeadingChange> heading_changes(const DueList& before, const DueList& after) {
  ByPoint<std::pair<Standing, std::optional<OverdueHeading>>> old(before.points.size());
  for (const Point& point : before.points) old[key_of(point)] = {point.standing, std::nullopt};
  for (const OverdueEntry& entry : overdue_list(before)) {
    if (entry.point != nullptr) old[key_of(*entry.point)].second = entry.heading;
  }
  std::unordered_map<const Point*, OverdueHeading> now;
  for (const OverdueEntry& entry : overdue_list(after)) {
    if (entry.point != nullptr) now.emplace(entry.point, entry.heading);
  }
  std::vector<HeadingChange> changes;
  for (const Point& point : after.points) {
    const auto was = old.find(key_of(point));
    const auto found = now.find(&point);
    const auto is = found == now.end() ? std::nullopt : std::optional(found->second);
    if (was == old.end() || was->second.first != point.standing || was->second.second == is) continue;
    changes.push_back({&point, was->second.second, is});
  }
  return changes;
}

}  // namespace service
