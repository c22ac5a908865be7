// What is due at a site as groups: each is planned by itself, for other crews may do it.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "service/visits.h"
#include "visits/crew_days.h"
#include "visits/trip_cost.h"
#include "visits/trip_days.h"

namespace service::visits::trip {

// A service that is to be done in the span.
struct TripPoint {
  const Point* point = nullptr;
  Needs needs;
  int minutes = 0;          // done by itself
  Day earliest;             // not before
  Day wanted;               // when it comes due; of what has to be done before its machine is back, a day before that
  std::optional<Day> back;  // its machine is laid up until then
  std::optional<Day> left;  // and before its machine leaves
  SpanCost cost;
};

// On which of some days, by number, a service may be done.
struct Window {
  int first = 0;
  int last = 0;         // of what never waits: the first day from its due day
  int last_of_all = 0;  // where nothing else is possible
  int own = 0;          // the first day from its due day, else the last before: planned by itself
};

// None: on none of them.
std::optional<Window> window_of(const TripPoint& point, const std::vector<TripDay>& days);

// Of a point or a day, as an index.
inline std::size_t slot(int number) { return static_cast<std::size_t>(number); }

struct Group {
  const Site* site = nullptr;
  std::vector<TripPoint> points;  // in the order of the due list
  std::vector<TripDay> days;      // on which all of these may be done
};

struct SiteWork {
  Day to;  // the last day of the span
  std::vector<Group> groups;
  std::vector<TripDay> days;  // on which anybody could go, whatever for
  std::vector<NotPossible> not_possible;
};

// The points of one site make one group where one crew can do them all, and nothing that never waits has to wait for
// that crew; else one for each different choice of crews that can do them.
SiteWork groups_of(const Fleet& fleet, const std::vector<CrewDay>& crew_days, std::vector<TripPoint> points, Day to);

}  // namespace service::visits::trip
