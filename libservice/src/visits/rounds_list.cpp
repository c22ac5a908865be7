#include "service/rounds_list.h"

#include <algorithm>
#include <map>

#include "service/first.h"
#include "service/run_ban.h"
#include "visits/kept_plan.h"
#include "visits/load.h"
#include "visits/short_parts.h"

namespace service {
namespace {

// What is told of one site.
class SitePart {
 public:
  explicit SitePart(const Site& site) : whole_(site), site_(site.key) {}

  bool holds(const Site* site) const { return site != nullptr && site->key == site_; }
  bool holds(const Machine* machine) const { return machine != nullptr && machine->site == site_; }
  bool holds(const NotPlanned& row) const {
    if (row.point.machine != nullptr) return holds(row.point.machine);
    return row.call != nullptr && row.call->site == site_;
  }

  void cut(RoundsPlan& plan) const {
    const std::vector<Visit>& visits = plan.week.visits;
    const auto elsewhere = [&](std::size_t visit) { return !holds(visits[visit].site); };
    for (Round& round : plan.rounds) {
      std::erase_if(round.stops, [&](const RoundStop& stop) { return elsewhere(stop.visit); });
      std::erase_if(round.meal, [&](const MealPiece& piece) { return elsewhere(piece.before); });
      std::erase_if(round.in_two_goes, [&](const Machine* machine) { return !holds(machine); });
    }
    std::erase_if(plan.rounds, [](const Round& round) { return round.stops.empty(); });
    std::erase_if(plan.not_this_week, [&](const NotThisWeek& out) { return elsewhere(out.visit); });
    std::erase_if(plan.changes, [&](const PlanChange& change) { return !holds(change.site); });
    plan.week.done = visits::done_at(plan.week, whole_);
    std::erase_if(plan.week.not_planned, [&](const NotPlanned& row) { return !holds(row); });
    std::erase_if(plan.week.calls_still_listed, [&](const CallStillListed& one) { return !holds(one.site); });
    std::erase_if(plan.week.not_in_book, [&](const NotInBook& one) { return !holds(one.point->machine); });
    for (auto* points : {&plan.week.no_record, &plan.week.unknown, &plan.week.no_time}) {
      std::erase_if(*points, [&](const PointName& point) { return !holds(point.machine); });
    }
  }

 private:
  const Site& whole_;
  const std::string& site_;
};

PlannedLoad filling_up(Day on, bool told, LoadFor what) {
  PlannedLoad load;
  load.on = on;
  load.told = told;
  load.what = what;
  return load;
}

void add_loads(visits::LoadsInOrder& loads, const DoneRound& done) {
  const auto add = [&](const std::vector<const Point*>& points, LoadFor what) {
    for (const Point* point : points) {
      visits::Load takes = visits::load_of(Crew{}, {point});
      PlannedLoad load = filling_up(done.on, false, what);
      load.point = point;
      load.parts = std::move(takes.parts);
      load.fluids = std::move(takes.fluids);
      loads.add(done.crew, std::move(load));
    }
  };
  add(done.points, LoadFor::done_before);
  add(done.entered, LoadFor::entered);
  if (done.crew != nullptr) loads.end_round(*done.crew, filling_up(done.on, false, LoadFor::done_before));
}

void add_loads(visits::LoadsInOrder& loads, const Week& week, const Round& round, const Site* site) {
  const CrewDay& day = week.crew_days[round.crew_day];
  for (const RoundStop& stop : round.stops) {
    const Visit& visit = week.visits[stop.visit];
    VisitLoad takes = load_of(visit);
    loads.add(day.crew, {stop.visit, nullptr, visit.machine, day.on, std::move(takes.parts), std::move(takes.fluids),
                         site == nullptr || SitePart(*site).holds(visit.site)});
  }
  loads.end_round(*day.crew, filling_up(day.on, site == nullptr, LoadFor::filling_up));
}

// What the kept plan did before the week is taken from stock first.
std::vector<PlannedLoad> loads_of(const RoundsPlan& plan, const Site* site) {
  visits::LoadsInOrder loads;
  for (const DoneRound& done : plan.week.done_rounds) add_loads(loads, done);
  for (const Round& round : plan.rounds) add_loads(loads, plan.week, round, site);
  return loads.take();
}

// The machine stands and is back within the week, so a service that mends it is planned, and nothing waits.
bool is_mended_by_visit(const Week& week, const WaitsToMend& one) {
  if (one.point == nullptr || leaves_unmended(*week.list, *one.point)) return false;
  return std::any_of(week.visits.begin(), week.visits.end(), [&](const Visit& visit) {
    return std::find(visit.points.begin(), visit.points.end(), one.point) != visit.points.end();
  });
}

}  // namespace

std::vector<const SeenSign*> seen_at(const DueList& list, const Visit& visit) {
  std::vector<const SeenSign*> seen;
  for (const SeenSign& sign : list.seen) {
    if (visit.machine != nullptr && sign.machine->key == visit.machine->key) seen.push_back(&sign);
  }
  return seen;
}

std::vector<const Point*> keep_out_of_use(const Visit& visit, Day on) {
  std::vector<const Point*> points;
  for (const Point* point : visit.points) {
    if (keep_out_of_use(*point, on)) points.push_back(point);
  }
  return points;
}

const MachineUse* use_at(const DueList& list, const Visit& visit, std::optional<Day> on) {
  const auto use = std::find_if(list.not_in_use.begin(), list.not_in_use.end(), [&](const MachineUse& one) {
    return visit.machine != nullptr && one.machine->key == visit.machine->key;
  });
  if (use == list.not_in_use.end() || (on && !stands_on(use->state, *on))) return nullptr;
  return &*use;
}

const MachineUse* lay_up_over_at(const DueList& list, const Visit& visit, Day on) {
  const MachineUse* const use = use_at(list, visit);
  return use != nullptr && lay_up_over_by(use->state, on) != nullptr ? use : nullptr;
}

bool forbids_running(const DueList& list, const Visit& visit) {
  if (visit.machine == nullptr) return false;
  const UseState* const state = list.state_of(*visit.machine);
  if (state != nullptr && state->kind == UseKind::out_of_use) return true;
  const auto of_it = [&](const Point& point) {
    return point.machine->key == visit.machine->key && forbids_running(point);
  };
  const auto seen = seen_at(list, visit);
  return std::any_of(list.points.begin(), list.points.end(), of_it) ||
         std::any_of(seen.begin(), seen.end(), [](const SeenSign* sign) { return forbids_running(*sign); });
}

RoundsList rounds_list(RoundsPlan plan, const Site* site) {
  RoundsList told;
  told.plan = std::move(plan);
  told.site = site;
  const DueList& list = *told.plan.week.list;
  for (const Gap& gap : list.gaps) {
    const Machine* const machine = list.fleet->machine(gap.machine);
    // What no machine of the fleet tells is told to everybody: nobody knows where it stands.
    if (site == nullptr || machine == nullptr || SitePart(*site).holds(machine)) told.gaps.push_back(&gap);
  }
  for (const SeenSign& seen : list.seen) {
    if (site == nullptr || SitePart(*site).holds(seen.machine)) told.seen.push_back(&seen);
  }
  told.to_mend = waiting_to_mend(list);
  std::erase_if(told.to_mend, [&](const WaitsToMend& one) { return is_mended_by_visit(told.week(), one); });
  std::erase_if(told.to_mend,
                [&](const WaitsToMend& one) { return site != nullptr && !SitePart(*site).holds(one.site); });
  for (const MachineUse& use : list.not_in_use) {
    if (site == nullptr || SitePart(*site).holds(use.machine)) told.not_in_use.push_back(&use);
  }
  told.not_to_run = NotToRun(list, site);
  told.loads = loads_of(told.plan, site);
  if (site != nullptr) SitePart(*site).cut(told.plan);
  told.carried =
      site == nullptr && std::any_of(told.plan.rounds.begin(), told.plan.rounds.end(), [&](const Round& round) {
        return !told.week().crew_days[round.crew_day].crew->carries.empty();
      });
  return told;
}

void hold_against_stock(RoundsList& list, const PartsList& parts) {
  visits::take_from_stock(list.loads, parts);
  list.short_parts = visits::short_parts(list.loads);
}

std::vector<PartLack> lacks_of(const RoundsList& list, const RoundStop& stop) {
  return visits::lacks_of(
      list.loads, [&](const PlannedLoad& load) { return load.what == LoadFor::work && load.visit == stop.visit; });
}

std::vector<PartLack> lacks_of(const RoundsList& list, const Round& round) {
  const CrewDay& day = list.week().crew_days[round.crew_day];
  return visits::lacks_of(list.loads, [&](const PlannedLoad& load) {
    if (load.what == LoadFor::filling_up) return load.crew == day.crew && load.on == day.on;
    if (load.what != LoadFor::work) return false;
    return std::any_of(round.stops.begin(), round.stops.end(),
                       [&](const RoundStop& stop) { return stop.visit == load.visit; });
  });
}

std::vector<PartLack> short_then(const RoundsList& list, const NotInBook& one) {
  std::vector<PartLack> lacks = visits::lacks_of(list.loads, [&](const PlannedLoad& load) {
    return load.what == LoadFor::done_before && load.point == one.point && load.on == one.on;
  });
  std::erase_if(lacks, [](const PartLack& lack) { return !lack.is_short(); });
  return lacks;
}

VisitLoad taken_before(const RoundsList& list) {
  std::map<std::string, PartAmount> parts;
  std::map<std::pair<std::string, std::string>, PartAmount> fluids;  // by name and unit
  for (const PlannedLoad& load : list.loads) {
    if (load.what != LoadFor::done_before && load.what != LoadFor::entered) continue;
    // Filling up has no point: it is for a crew, whose loads are told of no site alone.
    if (list.site != nullptr && (load.point == nullptr || !SitePart(*list.site).holds(load.point->machine))) continue;
    const auto is_shown = [&](const std::string& key) {
      return std::find(load.shown.begin(), load.shown.end(), key) != load.shown.end();
    };
    for (const auto& [key, pieces] : load.parts) {
      if (!is_shown(key)) parts[key] = parts[key] + pieces;
    }
    for (const auto& [key, quantity] : load.fluids) {
      if (is_shown(key)) continue;
      PartAmount& amount = fluids[{key, quantity.unit}];
      amount = amount + quantity.amount;
    }
  }
  VisitLoad taken{{parts.begin(), parts.end()}, {}};
  for (const auto& [name, amount] : fluids) taken.fluids.emplace_back(name.first, Quantity{amount, name.second});
  return taken;
}

void keep_first(RoundsList& list, std::size_t first) {
  Week& week = list.plan.week;
  const auto cut = [&](auto& rows, const auto& never) {
    std::size_t kept = 0;
    list.left_off += std::erase_if(rows, [&](const auto& row) { return !never(row) && ++kept > first; });
  };
  const auto for_safety = [](const PointName& point) { return point.safety || point.competent_person; };
  // Machine by machine, for what is told of a machine is told whole.
  const auto cut_machines = [&](std::vector<PointName>& points) {
    std::vector<const Machine*> kept;
    const auto keep = [&](const PointName& point) {
      if (std::find(kept.begin(), kept.end(), point.machine) == kept.end()) kept.push_back(point.machine);
    };
    for (const PointName& point : points) {
      if (kept.size() < first) keep(point);
    }
    for (const PointName& point : points) {
      if (for_safety(point)) keep(point);
    }
    list.left_off += std::erase_if(points, [&](const PointName& point) {
      return std::find(kept.begin(), kept.end(), point.machine) == kept.end();
    });
  };
  cut(list.plan.not_this_week, [&](const NotThisWeek& out) { return out.promised || week.visits[out.visit].safety; });
  cut_machines(week.no_record);
  cut_machines(week.unknown);
  cut(week.not_planned, [&](const NotPlanned& row) { return for_safety(row.point); });
}

bool needs_doing(const RoundsList& list) {
  const Week& week = list.week();
  const bool out_of_use = std::any_of(list.not_in_use.begin(), list.not_in_use.end(),
                                      [](const MachineUse* use) { return use->state.kind == UseKind::out_of_use; });
  return !week.calls_still_listed.empty() || !list.plan.not_this_week.empty() || !week.not_planned.empty() ||
         !week.no_record.empty() || !week.unknown.empty() || !week.not_in_book.empty() || !list.gaps.empty() ||
         !list.seen.empty() || out_of_use;
}

}  // namespace service
