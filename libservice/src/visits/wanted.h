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

// The days on which somebody may go, and the last one that is asked about, which may lie behind them: what never waits
// has to be done before its machine is back on such a day, by whoever goes before.
struct DaysOfWork {
  Day first;
  Day last;
  Day to;
};

// Why a point that is due is no work of these days; none: it is.
std::optional<NotPlannedReason> why_not_planned(const DueList& list, const Point& point, const DaysOfWork& days);

// The same as a row, with what somebody said of it.
NotPlanned not_planned(const DueList& list, const Point& point, NotPlannedReason reason);

// When the machine of a point that is laid up goes back to work; none: it is not laid up, or nobody knows.
std::optional<Day> back_on(const DueList& list, const Point& point);

// The first day on which a point may be visited that somebody put off, or whose machine is laid up until then; the
// earliest of all else. What never waits may be done while the machine stands, for it has to be before it is back.
Day not_before(const DueList& list, const Point& point);

// The day on which it is wanted: when it comes due; of what never waits, and comes due while its machine is laid up,
// the day before that is back.
Day wanted_on(const DueList& list, const Point& point);

}  // namespace service::visits
