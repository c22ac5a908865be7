// Visits out of points: those of one machine make one, or one for each different set of needs where no crew has all;
// what was put off until a day of the week is apart from what may be done before, `loader+from-2026-05-05`.
#pragma once

#include <optional>
#include <vector>

#include "service/rounds.h"
#include "visits/crew_days.h"
#include "visits/kept_plan.h"

namespace service::visits {

Needs needs_of(const Point& point);
Needs needs_of(const Visit& visit);

// In the order of the points, calls last, without what stands at no site.
std::vector<Visit> visits_of(Week& week, const std::vector<const Point*>& points, const DoneBefore& done);

// Of these points of one machine, before its work is reckoned.
Visit visit_for(const Fleet& fleet, const Machine& machine, std::string name, std::vector<const Point*> points);

// Of a point that is done by itself; none where its task says no `takes`.
std::optional<int> minutes_of(const Point& point);

// What of the points of a visit is done along with others, and how long the rest takes. Again where points were added.
void reckon_work(const Fleet& fleet, Visit& visit);

// The points that are done by themselves.
std::vector<const Point*> worked_on(const Visit& visit);

// Those of them whose tasks say no `takes`.
std::vector<PointName> without_time(const std::vector<Visit>& visits);

}  // namespace service::visits
