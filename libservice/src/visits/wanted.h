// Which points of a due list are work of a week, and which are not, with the reason.
#pragma once

#include <optional>
#include <vector>

#include "service/rounds.h"
#include "visits/kept_plan.h"

namespace service::visits {

struct Wanted {
  std::vector<const Point*> points;    // due by the last crew-day, in the order of the list
  std::vector<const Point*> may_join;  // due soon after it, by `WeekAsk::join_days`
};

// Fills what the week says of points that are in no visit.
Wanted wanted_of(Week& week, const WeekAsk& ask, const DoneBefore& done);

// Why a point that is due is no work of these days; none: it is.
std::optional<NotPlannedReason> why_not_planned(const DueList& list, const Point& point, Day first, Day last);

// The first day on which a point may be visited that somebody put off; the earliest of all where nobody did.
Day not_before(const Point& point);

}  // namespace service::visits
