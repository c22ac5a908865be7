#include "visits/trip_wanted.h"

#include <algorithm>

#include "visits/opening.h"
#include "visits/trips.h"
#include "visits/visits_made.h"
#include "visits/wanted.h"

namespace service::visits::trip {
namespace {

std::optional<NotPlannedReason> not_planned_for(const VisitsPlan& plan, const std::vector<CrewDay>& crew_days,
                                                const Point& point) {
  if (const auto reason = why_not_planned(*plan.list, point, {plan.from, plan.to, plan.to})) return reason;
  // Nobody serves for its new owner a machine that is sold before.
  if (point.machine->left && *point.due_on >= *point.machine->left) return NotPlannedReason::left;
  const Fleet& fleet = *plan.list->fleet;
  if (!cheapest_trip(fleet, crew_days, *fleet.site(point.machine->site))) return NotPlannedReason::no_way;
  return std::nullopt;
}

// What has to be done before its machine is back is done by the last day before on which somebody can go.
Day wanted_by(const VisitsPlan& plan, const std::vector<CrewDay>& crew_days, const Point& point) {
  const Day wanted = wanted_on(*plan.list, point);
  if (wanted == *point.due_on) return wanted;
  const Fleet& fleet = *plan.list->fleet;
  Day last = *point.due_on;
  for (const CrewDay& day : crew_days) {
    const bool can_go =
        can(*day.crew, needs_of(point)) && !opening_on(fleet, *fleet.site(point.machine->site), day.on).empty();
    if (can_go && day.on <= wanted) last = std::max(last, day.on);
  }
  return last;
}

}  // namespace

std::vector<std::vector<TripPoint>> wanted_by_site(VisitsPlan& plan, const std::vector<CrewDay>& crew_days) {
  const Fleet& fleet = *plan.list->fleet;
  std::vector<std::vector<TripPoint>> by_site(fleet.sites.size());
  Worths worths(*plan.list);
  for (const Point& point : plan.list->points) {
    if (point.standing == Standing::no_record) {
      plan.no_record.push_back(service::name_of(point));
      continue;
    }
    if (!point.due_on || *point.due_on > plan.to) {
      // Other limbs may bring it due within the span. Of a machine that stands nothing is expected, and that it stands
      // is told: only what can be found out is not known of it.
      const bool runs = plan.list->state_of(*point.machine) == nullptr;
      if (!point.unknown.empty() || (runs && unforeseen(point))) plan.unknown.push_back(service::name_of(point));
      continue;
    }
    if (const auto reason = not_planned_for(plan, crew_days, point)) {
      plan.not_planned.push_back(not_planned(*plan.list, point, *reason));
      continue;
    }
    const auto site = std::find_if(fleet.sites.begin(), fleet.sites.end(),
                                   [&](const Site& one) { return one.key == point.machine->site; });
    by_site[static_cast<std::size_t>(site - fleet.sites.begin())].push_back(
        {&point, needs_of(point), minutes_of(point).value_or(0), std::max(plan.from, not_before(*plan.list, point)),
         wanted_by(plan, crew_days, point), back_on(*plan.list, point), point.machine->left,
         SpanCost(point, worths.of(point), plan.as_of)});
  }
  plan.no_price = worths.no_price();
  std::erase_if(by_site, [](const auto& points) { return points.empty(); });
  return by_site;
}

}  // namespace service::visits::trip
