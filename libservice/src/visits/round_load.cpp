// What goes on board for a round, and what is to be minded on it.
#include <utility>

#include "service/minding.h"
#include "service/rounds_list.h"
#include "visits/load.h"
#include "visits/rounds_made.h"
#include "visits/visits_made.h"

namespace service {
namespace {

// A call says in a customer's words what is wanted at a machine, as somebody who saw something does.
std::vector<std::string> cautions_of_call(const Fleet& fleet, const Visit& visit) {
  SeenSign as_seen;
  as_seen.machine = visit.machine;
  as_seen.sign = visit.call->doing;
  return cautions_of(fleet, as_seen);
}

}  // namespace

VisitLoad load_of(const Visit& visit) {
  visits::Load load = visits::load_of(Crew{}, visits::worked_on(visit));
  return {std::move(load.parts), std::move(load.fluids)};
}

std::vector<std::string> cautions_of(const DueList& list, const Visit& visit) {
  std::vector<std::string> cautions = cautions_of(visit.points);
  if (visit.call != nullptr && visit.machine != nullptr) {
    visits::add_each(cautions, cautions_of_call(*list.fleet, visit));
  }
  for (const SeenSign* seen : seen_at(list, visit)) visits::add_each(cautions, cautions_of(*list.fleet, *seen));
  visits::sort_by_catalogue(cautions);
  return cautions;
}

namespace visits {
namespace {

std::vector<const Point*> work_of(const Week& week, const Round& round) {
  std::vector<const Point*> work;
  for (const RoundStop& stop : round.stops) {
    for (const Point* point : worked_on(week.visits[stop.visit])) work.push_back(point);
  }
  return work;
}

}  // namespace

void fill_loads(const Week& week, std::vector<Round>& rounds) {
  LoadsOfCrews loads;
  for (const DoneRound& done : week.done_rounds) loads.next(done.crew, done.all());
  for (Round& round : rounds) {
    for (const RoundStop& stop : round.stops)
      add_each(round.cautions, service::cautions_of(*week.list, week.visits[stop.visit]));
    sort_by_catalogue(round.cautions);
    auto loaded = loads.next(week.crew_days[round.crew_day].crew, work_of(week, round));
    round.parts = std::move(loaded.load.parts);
    round.fluids = std::move(loaded.load.fluids);
    round.fills_up = std::move(loaded.fills_up);
  }
}

}  // namespace visits
}  // namespace service
