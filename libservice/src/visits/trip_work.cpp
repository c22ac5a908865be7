#include "visits/trip_work.h"

#include <algorithm>
#include <numeric>

#include "service/job_sheet.h"
#include "visits/visits_made.h"

namespace service::visits::trip {
namespace {

std::vector<std::vector<const Point*>> by_machine(const std::vector<const Point*>& points) {
  std::vector<std::vector<const Point*>> by_machine;
  for (const Point* point : points) {
    auto same = std::find_if(by_machine.begin(), by_machine.end(),
                             [&](const auto& one) { return one.front()->machine == point->machine; });
    if (same == by_machine.end()) same = by_machine.insert(by_machine.end(), {{}});
    same->push_back(point);
  }
  return by_machine;
}

}  // namespace

std::vector<const Point*> done_alone(const Fleet& fleet, const std::vector<const Point*>& points) {
  std::vector<const Point*> alone;
  for (const auto& of_machine : by_machine(points)) {
    const auto these = by_themselves(fleet, of_machine);
    alone.insert(alone.end(), these.begin(), these.end());
  }
  return alone;
}

std::vector<int> stays_of(const Fleet& fleet, const std::vector<const Point*>& points) {
  std::vector<int> stays;
  for (const auto& of_machine : by_machine(points)) stays.push_back(work_minutes(by_themselves(fleet, of_machine)));
  return stays;
}

int work_minutes(const std::vector<const Point*>& alone) {
  return std::accumulate(alone.begin(), alone.end(), 0,
                         [](int minutes, const Point* point) { return minutes + minutes_of(*point).value_or(0); });
}

}  // namespace service::visits::trip
