// What goes on board for a round, and what is to be minded on it.
#include <algorithm>
#include <map>

#include "service/minding.h"
#include "service/workload.h"
#include "visits/rounds_made.h"
#include "visits/visits_made.h"

namespace service::visits {
namespace {

void add_each(std::vector<std::string>& to, const std::vector<std::string>& names) {
  for (const std::string& name : names) {
    if (std::find(to.begin(), to.end(), name) == to.end()) to.push_back(name);
  }
}

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
  std::map<std::string, PartAmount> parts;
  std::map<std::pair<std::string, std::string>, PartAmount> fluids;  // by name and unit
  for (const RoundStop& stop : round.stops) {
    const Visit& visit = week.visits[stop.visit];
    for (const Point* point : worked_on(visit)) {
      const Resources takes = resources_of(*point->machine, *point->task, point->follow_up);
      for (const auto& [key, pieces] : takes.parts) parts[key] = parts[key] + pieces;
      for (const auto& [key, quantity] : takes.fluids) {
        PartAmount& amount = fluids[{key, quantity.unit}];
        amount = amount + quantity.amount;
      }
    }
    add_each(round.cautions, cautions_of(*week.fleet, visit));
  }
  std::stable_sort(round.cautions.begin(), round.cautions.end(),
                   [](const std::string& a, const std::string& b) { return catalogue_place(a) < catalogue_place(b); });
  for (const auto& [key, pieces] : week.crew_days[round.crew_day].crew->carries) {
    if (const auto part = parts.find(key); part != parts.end()) part->second = part->second - pieces;
  }
  for (const auto& [key, pieces] : parts) {
    if (pieces > PartAmount{}) round.parts.emplace_back(key, pieces);
  }
  for (const auto& [name, amount] : fluids) round.fluids.emplace_back(name.first, Quantity{amount, name.second});
}

}  // namespace service::visits
