// On which days of the weeks ahead to go to each site, what to do there, and what to take along.
//
//   auto list = std::make_shared<DueList>(due_list(snapshot, {to, {}, Detail::coming}));
//   VisitsPlan plan = plan_visits(list, {to});
//
// As it is told, with what is to be said beside it: visits_list.h.
//
// Each service that is due by the last day of the span is done once in it. A trip costs the way there and back with
// set-up, for the cheapest crew that works that day and may do the work; a service costs the life that is given up
// where it is done early, and what waiting loses where it is late, both over the span of days in which it may come due:
// (3 x at its early end + 4 x at its middle + 3 x at its late end) / 10. The days are those that cost least of all sets
// of days, site by site. How the trips to several sites make the rounds of a week is the question of rounds.h.
//
// Money is whole hundredths of the currency, rounded half up once: for each trip leg and set-up, and for the early and
// the late money of each service. Sums add rounded figures. What is compared is not rounded, and no floating point
// decides.
//
// Work for safety, and for a competent person, is never put later than the first day from its due day on which somebody
// can do it, unless nothing else is possible.
//
// A plan is a value: it keeps its list, and what its pointers point to is in there.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "service/base.h"
#include "service/due_list.h"
#include "service/fleet.h"
#include "service/rounds.h"
#include "service/safety_left.h"
#include "service/shared_machines.h"

#pragma GCC visibility push(default)

namespace service {

struct VisitsAsk {
  Day to;                                 // the last day of the span, which begins with the day of the list
  std::vector<std::string> without = {};  // crews that do not go, by key
};

// Why a service is done on the day on which it is done: the first of these that holds.
enum class TripReason {
  included,    // along with a service of that trip that includes it, or after which its check is asked for anew
  day_full,    // a day of the plan that would be better holds no more work
  due_day,     // on the day on which it comes due
  put_off,     // on the first day on which somebody can go, once it is no longer put off
  laid_up,     // its machine is laid up: likewise once it is back; what never waits, before that
  first_day,   // on the first day from its due day on which somebody can go
  last_day,    // early: from its due day on nobody can go any more
  likely_day,  // on the day that is cheapest for it and what it includes, by the spans in which they may come due
  early,       // a trip is made then anyway, and it gives up less than a trip of its own would cost
  late,        // a trip is made then anyway, and waiting for it loses less than a trip of its own would cost
};

std::string_view to_text(TripReason reason);  // `due-day`

// What leaves too little time for work at a site: whoever goes has no more hours, or the site is not open for so long.
enum class TimeLimit { hours, opening };

std::string_view to_text(TimeLimit limit);

// Of all other places that a service could be done at, with what it includes, the one that costs least: a trip of the
// plan that has time for it, or a trip of its own.
struct OtherTrip {
  const Crew* crew = nullptr;
  Day on;
  bool made = false;  // the plan makes that trip
  Money cost;         // of life given up and of waiting; with the trip where it is one of its own
};

struct TripTask {
  const Point* point = nullptr;
  const Point* with = nullptr;  // of what is included: that service; it takes no time and no parts of its own
  TripReason why = TripReason::due_day;
  int early_days = 0;  // before its due day; so many after
  int late_days = 0;
  Money early;  // the life that is given up
  Money late;   // what waiting loses from the day asked about on
  // What it would cost by itself: on the first day from its due day on which somebody can go, else the last before, the
  // trip with it.
  Day own_day;
  Money own_cost;
  std::optional<Day> full_day;         // of `day_full`: the better day
  std::optional<TimeLimit> full_by;    // likewise: what it has no more of
  std::optional<OtherTrip> next_best;  // none: it is included, or could be done nowhere else
};

// Of work for safety that is done after its due day, or that nobody can do: nobody uses the machine from that day on,
// until it is done.
inline bool keep_out_of_use(const TripTask& task) {
  return keep_out_of_use(*task.point, *task.point->due_on + std::chrono::days{task.late_days});
}

// One crew's trip to one site, and back.
struct SiteVisit {
  const Site* site = nullptr;
  Day on;
  const Crew* crew = nullptr;
  Money trip_cost;
  int drive_minutes = 0;  // there and back
  int tenths_of_km = 0;   // likewise
  int set_up_minutes = 0;
  int work_minutes = 0;
  bool safety = false;  // some of it is work for safety
  Money early;          // of its tasks
  Money late;
  // Machine by machine, that with the worst first; those of each in the order of the due list.
  std::vector<TripTask> tasks;
  // To load, by name: what its work takes beside what the crew always carries, which is on board when its first trip
  // of the plan begins; and what the crew's trip before used of that.
  std::vector<std::pair<std::string, PartAmount>> parts;
  std::vector<std::pair<std::string, Quantity>> fluids;      // likewise
  std::vector<std::pair<std::string, PartAmount>> fills_up;  // of `parts`: what that trip used
  std::vector<SharedMachine> shared;                         // machines at which others work that day
  std::vector<SafetyLeft> safety_left;                       // of its machines, in their order
  std::vector<const SeenSign*> seen;                         // of its machines, and nobody has found good
  std::vector<std::string> cautions;                         // of all its work, and of all that these may be about
};

// By day, then site and crew in the order of the fleet file.
bool comes_before(const SiteVisit& a, const SiteVisit& b);

// A service that is due in the span and that nobody can do in it.
struct NotPossible {
  const Point* point = nullptr;
  // not_qualified, no_crew, closed (no open day is left) or unreachable
  PutOffReason reason = PutOffReason::not_qualified;
  Day from{};                        // the first day on which it may be done
  std::vector<std::string> lacking;  // of what is not qualified: what no crew has
  // Of what is unreachable: it would fit by itself, but other work leaves it no room on any day.
  bool days_full = false;
  // Of what is unreachable by itself: the longest stay that somebody who can do it has there, in minutes, less set-up;
  // and whether it is the opening that is too short.
  int longest_stay = 0;
  TimeLimit limit = TimeLimit::hours;
};

inline bool keep_out_of_use(const NotPossible& out) { return is_safety(*out.point); }

// The same services, each on its own day: its due day or the first day from then on which somebody can go, else the
// last before; for each site and day one trip. What a service includes that is due no later than it is done with it.
struct OnOwnDays {
  Money total;
  Money trips;
  std::size_t visits = 0;
  bool behind = false;  // where days overflow they leave out more, or do work for safety later, and so may cost less
};

// Each choice of up to so many of these crews stayed at home; of a large site none.
struct CrewsTried {
  std::size_t at_home = 0;
  std::size_t of = 0;
};

struct VisitsPlan {
  std::shared_ptr<const DueList> list;  // its fleet, gaps, what was seen, and machines that stand
  Day as_of;
  Day from;  // the span, both inclusive
  Day to;
  std::vector<std::string> without;  // crews that do not go, by key
  std::vector<SiteVisit> visits;     // by day, then site and crew in the order of the fleet file
  Money total;
  Money trips;
  Money late;
  Money early;
  // No plan for these services costs less, whoever goes when. Where the cheapest days have no time for all of it, or
  // not every crew can do all work of a site, the plan is the best that changes of one at hand lead to: no service, nor
  // all at a machine or of a trip, is cheaper on another trip or day. Then `bound` alone is proven.
  Money bound;
  bool exact = true;  // bound = total: nothing is better
  OnOwnDays on_own_days;
  // Of the site of which least was tried, where that is not all: a site that is not proven is planned with crews left
  // out, too, but of many crews only few at a time.
  std::optional<CrewsTried> crews_tried;

  std::vector<PointName> no_record;  // somebody must look: nobody knows whether it is due
  std::vector<PointName> unknown;    // not due by what is known, but something about it cannot be told ahead
  std::vector<NotPlanned> not_planned;
  std::vector<NotPossible> not_possible;
  std::vector<PointName> no_time;     // planned with no minutes, for their tasks say no `takes`
  std::vector<std::string> no_price;  // parts and fluids without a price, which count as nothing
};

// The list reckons at least `Detail::coming` to the last day, of the whole fleet or of whole sites. Fails with bad_data
// where no crew works in the span, with bad_fleet where `costs` lacks `hour` or `km`, or the fleet has no crews; with
// usage where there is no such crew, or the span ends before it begins.
VisitsPlan plan_visits(std::shared_ptr<const DueList> list, const VisitsAsk& ask);

}  // namespace service

#pragma GCC visibility pop
