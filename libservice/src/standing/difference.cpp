#include <map>
#include <string>
#include <tuple>

#include "service/standing.h"

namespace service {
namespace {

using Key = std::tuple<std::string, std::string, std::string>;

Key key_of(const Point& point) { return {point.machine->key, point.name, point.position}; }

bool reached(const Point& point) {
  return (point.standing == Standing::overdue || point.standing == Standing::due) && !point.by_estimate;
}

bool same(const Point& a, const Point& b) {
  if (a.standing != b.standing || a.by_estimate != b.by_estimate) return false;
  if (a.fitted.has_value() != b.fitted.has_value()) return false;
  if (a.fitted && (a.fitted->on != b.fitted->on || a.fitted->at != b.fitted->at)) return false;
  return !reached(a) || a.due_on == b.due_on;
}

}  // namespace

std::vector<PointChange> difference(const DueList& before, const DueList& after) {
  std::map<Key, const Point*> old;
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
  for (const auto& [key, point] : old) changes.push_back({point, nullptr});
  return changes;
}

}  // namespace service
