// What goes on board for a round, and what is to be minded on it.
#include <utility>

#include "service/minding.h"
#include "visits/load.h"
#include "visits/rounds_made.h"
#include "visits/visits_made.h"

namespace service::visits {
namespace {

// A call says in a customer's words what is wanted at a machine, as somebody who saw something does.
std::vector<std::string> cautions_of(const Fleet& fleet, const Visit& visit) {
  if (visit.call == nullptr) return service::cautions_of(visit.points);
  if (visit.machine == nullptr) return {};
  SeenSign as_seen;
  as_seen.machine = visit.machine;
  as_seen.sign = visit.call->doing;
  return service::cautions_of(fleet, as_seen);
}

}  // namespace

void fill_load(const Week& week, Round& round) {
  std::vector<const Point*> work;
  for (const RoundStop& stop : round.stops) {
    const Visit& visit = week.visits[stop.visit];
    for (const Point* point : worked_on(visit)) work.push_back(point);
    add_each(round.cautions, cautions_of(*week.fleet, visit));
  }
  sort_by_catalogue(round.cautions);
  Load load = load_of(*week.crew_days[round.crew_day].crew, work);
  round.parts = std::move(load.parts);
  round.fluids = std::move(load.fluids);
}

}  // namespace service::visits
