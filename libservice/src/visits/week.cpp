// The question of a week, from what is due and who works.
#include "service/rounds.h"
#include "visits/crew_days.h"
#include "visits/kept_plan.h"
#include "visits/visits_made.h"
#include "visits/wanted.h"
#include "visits/week_parts.h"

namespace service {
namespace {

void insist_on_reach(const Snapshot& snapshot, const DueList& list, Day horizon) {
  if (list.within >= horizon && list.as_of == snapshot.as_of() && !list.scope.machines) return;
  throw Failure(FailureKind::internal,
                Diagnostic{"list-too-short", "the due list does not hold all that a week is made of",
                           "make it of the whole fleet, to week_horizon at least"});
}

}  // namespace

Week week_of_work(const Snapshot& snapshot, std::shared_ptr<const DueList> list, const WeekAsk& ask) {
  Week week;
  week.fleet = snapshot.fleet_ptr();
  week.as_of = snapshot.as_of();
  week.from = ask.from;
  week.to = ask.from + std::chrono::days{ask.days - 1};
  week.crew_days = visits::crew_days_of(*week.fleet, ask);
  week.later = week.crew_days.back().on + std::chrono::days{7};
  week.list = std::move(list);
  week.kept = ask.keep;
  insist_on_reach(snapshot, *week.list, week_horizon(*week.fleet, ask));

  const visits::DoneBefore done(week.kept, week.from);
  week.done = done.visits();
  const visits::Wanted wanted = visits::wanted_of(week, ask, done);
  week.visits = visits::visits_of(week, wanted.points, done);
  visits::take_out_without_way(week);

  visits::Worths worths(*week.list);
  for (Visit& visit : week.visits) visits::fill_options(week, visit, worths);
  visits::fill_put_off(week, worths);
  visits::fill_impossible(week);
  visits::set_safety_apart(week, done, worths);
  visits::join_points(week, wanted.may_join, worths);
  visits::fill_put_off(week, worths);  // of what joined, too
  visits::fill_came_from(week);
  visits::keep_promises(week);
  week.no_time = visits::without_time(week.visits);
  week.no_price = worths.no_price();
  return week;
}

}  // namespace service
