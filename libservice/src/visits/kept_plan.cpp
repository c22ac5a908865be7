#include "visits/kept_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <map>

#include "service/job_sheet.h"

namespace service {

std::vector<const Point*> DoneRound::all() const {
  std::vector<const Point*> work = points;
  work.insert(work.end(), entered.begin(), entered.end());
  return work;
}

namespace visits {
namespace {

// The machine of a stop: as it says, else by the visit's name, which begins with it.
std::string machine_of(const GivenStop& stop) {
  return stop.machine && !stop.machine->empty() ? *stop.machine : stop.visit.substr(0, stop.visit.find('+'));
}

using Where = std::pair<std::string, Day>;  // crew and day

// Where a stop was to be, as the plan that was kept says, else where its machine stands. Whoever waits there waits for
// a visit that is no longer wanted, too.
const Site* site_of(const Fleet& fleet, const GivenStop& stop) {
  if (const Site* const site = stop.site ? fleet.site(*stop.site) : nullptr; site != nullptr) return site;
  for (const Call& call : fleet.calls) {
    if (stop.visit != "call " + call.key) continue;
    const Machine* const of_call = fleet.machine(call.machine);
    return fleet.site(of_call == nullptr ? call.site : of_call->site);
  }
  const Machine* const machine = fleet.machine(machine_of(stop));
  return machine == nullptr ? nullptr : fleet.site(machine->site);
}

// Some of the stop's work is that of the visit. A stop that names no tasks means the visit of its name, and where there
// is none, all that its machine needs.
bool shares_work(const Week& week, const GivenStop& stop, const Visit& visit) {
  if (visit.call != nullptr || visit.machine == nullptr || machine_of(stop) != visit.machine->key) return false;
  if (!stop.tasks || stop.tasks->empty()) {
    return std::none_of(week.visits.begin(), week.visits.end(),
                        [&](const Visit& other) { return other.name == stop.visit; });
  }
  return std::any_of(visit.points.begin(), visit.points.end(), [&](const Point* point) {
    return std::any_of(stop.tasks->begin(), stop.tasks->end(), [&](const GivenTask& task) {
      return task.task == point->name && task.position == point->position;
    });
  });
}

bool names(const GivenStop& stop, const std::string& task, const std::string& position) {
  return !stop.tasks || stop.tasks->empty() ||
         std::any_of(stop.tasks->begin(), stop.tasks->end(),
                     [&](const auto& one) { return one.task == task && one.position == position; });
}

bool is_call(const GivenStop& stop) { return stop.visit.starts_with("call "); }

// The fleet has the machine, or the call, of its name.
bool is_listed(const Fleet& fleet, const GivenStop& stop) {
  if (!is_call(stop)) return fleet.machine(machine_of(stop)) != nullptr;
  return std::any_of(fleet.calls.begin(), fleet.calls.end(),
                     [&](const Call& call) { return stop.visit == "call " + call.key; });
}

// Says of a stop that is in no visit any more why that is so, where its work is not done.
void tell_why(const Week& week, const GivenStop& stop, PlanChange& change) {
  for (const NotPlanned& row : week.not_planned) {
    const bool is_it = row.call != nullptr ? stop.visit == "call " + row.call->key
                                           : machine_of(stop) == row.point.machine->key &&
                                                 names(stop, row.point.task, row.point.position);
    if (!is_it) continue;
    change.not_planned = row.reason;
    return;
  }
  if (!is_listed(*week.fleet, stop)) {
    change.unlisted = true;
    return;
  }
  // Of a stop that names no tasks nobody can tell which of its machine's it meant.
  if (!stop.tasks || stop.tasks->empty()) return;
  change.not_due = std::any_of(week.list->points.begin(), week.list->points.end(), [&](const Point& point) {
    return machine_of(stop) == point.machine->key && names(stop, point.name, point.position) &&
           point.standing != Standing::no_record &&
           !(point.fitted && point.fitted->on.first >= week.kept->as_of.value_or(week.from));
  });
}

// A plan says of what it puts off no more than the name, which begins with the machine.
bool was_put_off(const GivenPlan& kept, const Visit& visit) {
  return std::any_of(kept.put_off.begin(), kept.put_off.end(), [&](const GivenPutOff& out) {
    return out.visit == visit.name ||
           (visit.call == nullptr && out.visit.substr(0, out.visit.find('+')) == visit.machine->key);
  });
}

// Whoever was told an hour need not be told that it is some minutes later.
constexpr int moved_minutes = 30;

bool has_moved(const std::optional<int>& was, const std::optional<int>& is) {
  return was && is && std::abs(*was - *is) > moved_minutes;
}

void put_by_whom(std::vector<PlanChange>& changes) {
  std::map<std::string, std::pair<bool, std::size_t>> places;  // nothing promised, and where first
  for (std::size_t i = 0; i < changes.size(); ++i) {
    auto& place = places.try_emplace(whom_of(changes[i]), true, i).first->second;
    place.first = place.first && !changes[i].promised;
  }
  std::stable_sort(changes.begin(), changes.end(), [&](const PlanChange& a, const PlanChange& b) {
    return std::pair(places.at(whom_of(a)), !a.promised) < std::pair(places.at(whom_of(b)), !b.promised);
  });
}

struct KeptStop {
  const GivenStop* stop = nullptr;
  std::string crew;
  Day on;
};

std::vector<KeptStop> stops_ahead(const Week& week) {
  std::vector<KeptStop> stops;
  if (!week.kept) return stops;
  for (const GivenRound& round : week.kept->rounds) {
    if (round.on < week.from) continue;
    for (const GivenStop& stop : round.stops) stops.push_back({&stop, round.crew, round.on});
  }
  return stops;
}

}  // namespace

std::string whom_of(const PlanChange& change) {
  if (change.site == nullptr) return "";
  return change.site->contact.empty() ? "site " + change.site->key : "contact " + change.site->contact;
}

DoneBefore::DoneBefore(const std::optional<GivenPlan>& kept, Day from) {
  if (!kept) return;
  made_on_ = kept->as_of.value_or(Day::max());
  for (const GivenRound& round : kept->rounds) {
    if (round.on >= from) continue;
    rounds_.push_back(&round);
    for (const GivenStop& stop : round.stops) {
      visits_.push_back(stop.visit);
      if (!stop.tasks || stop.tasks->empty()) {
        whole_.insert(stop.visit);
        continue;
      }
      for (const GivenTask& task : *stop.tasks) points_.emplace(machine_of(stop), task.task, task.position);
    }
  }
}

bool DoneBefore::holds(const Point& point) const {
  return points_.contains({point.machine->key, point.name, point.position});
}

bool DoneBefore::holds(const std::string& visit) const { return whole_.contains(visit); }

void DoneBefore::fill_done(Week& week, const std::vector<Visit>& taken_out) const {
  const auto is_of = [](const GivenStop& stop, const Point& point) {
    return machine_of(stop) == point.machine->key &&
           std::any_of(stop.tasks->begin(), stop.tasks->end(), [&](const GivenTask& task) {
             return task.task == point.name && task.position == point.position;
           });
  };
  std::vector<DoneRound> rounds;
  for (const GivenRound* given : rounds_) {
    DoneRound& round = rounds.emplace_back();
    round.on = given->on;
    for (const Crew& crew : week.fleet->crews) {
      if (crew.key == given->crew) round.crew = &crew;
    }
    const Day in_book_from = std::min(given->on, made_on_);
    std::vector<const Point*> points;
    std::vector<const Point*> entered;
    const auto add = [&](const Point& point, const GivenStop& stop) {
      const bool in_book = point.fitted && point.fitted->on.first >= in_book_from;
      (in_book ? entered : points).push_back(&point);
      if (!in_book) week.not_in_book.push_back({&point, stop.visit, round.crew, round.on});
    };
    for (const GivenStop& stop : given->stops) {
      if (stop.tasks && !stop.tasks->empty()) {
        for (const Point& point : week.list->points) {
          if (is_of(stop, point)) add(point, stop);
        }
        continue;
      }
      for (const Visit& visit : taken_out) {
        if (visit.name != stop.visit) continue;
        if (visit.call != nullptr) {
          week.calls_still_listed.push_back({visit.call, visit.site, visit.machine, round.crew, round.on});
        }
        for (const Point* point : visit.points) add(*point, stop);
      }
    }
    round.points = by_themselves(*week.fleet, points);
    round.entered = by_themselves(*week.fleet, entered);
  }
  const auto by_day = [](const auto& a, const auto& b) { return a.on < b.on; };
  std::stable_sort(rounds.begin(), rounds.end(), by_day);
  std::stable_sort(week.not_in_book.begin(), week.not_in_book.end(), by_day);
  std::stable_sort(week.calls_still_listed.begin(), week.calls_still_listed.end(), by_day);
  week.done_rounds = std::move(rounds);
}

std::vector<std::string> done_at(const Week& week, const Site& site) {
  std::vector<std::string> names;
  if (!week.kept) return names;
  for (const GivenRound& round : week.kept->rounds) {
    if (round.on >= week.from) continue;
    for (const GivenStop& stop : round.stops) {
      const Site* const at = site_of(*week.fleet, stop);
      if (at != nullptr && at->key == site.key) names.push_back(stop.visit);
    }
  }
  return names;
}

void fill_came_from(Week& week) {
  for (Visit& visit : week.visits) {
    visit.came_from.reset();
    int best = 0;
    for (const KeptStop& kept : stops_ahead(week)) {
      const bool same_name = kept.stop->visit == visit.name;
      if (!same_name && !shares_work(week, *kept.stop, visit)) continue;
      const int rank = (same_name ? 2 : 0) + (kept.stop->promised ? 1 : 0) + 1;
      if (rank <= best) continue;
      best = rank;
      visit.came_from = CameFrom{kept.stop->visit, kept.crew, kept.on, kept.stop->promised};
    }
  }
}

std::vector<PlanChange> changes_of(const RoundsPlan& plan) {
  const Week& week = plan.week;
  if (!week.kept) return {};
  std::vector<std::optional<Where>> now(week.visits.size());   // [visit]
  std::vector<std::optional<int>> starts(week.visits.size());  // likewise
  std::vector<std::size_t> order;
  for (const Round& round : plan.rounds) {
    const CrewDay& day = week.crew_days[round.crew_day];
    for (const RoundStop& stop : round.stops) {
      now[stop.visit] = Where{day.crew->key, day.on};
      starts[stop.visit] = stop.starts;
      order.push_back(stop.visit);
    }
  }
  std::map<std::string, std::vector<std::size_t>> come_from;  // by the stop's name
  std::set<std::size_t> old;
  for (std::size_t i = 0; i < week.visits.size(); ++i) {
    if (!week.visits[i].came_from) continue;
    come_from[week.visits[i].came_from->stop].push_back(i);
    old.insert(i);
  }
  std::vector<PlanChange> changes;
  std::set<std::string> told;
  for (const KeptStop& kept : stops_ahead(week)) {
    if (!told.insert(kept.stop->visit).second) continue;
    const Where was{kept.crew, kept.on};
    if (const auto from_here = come_from.find(kept.stop->visit); from_here != come_from.end()) {
      for (const std::size_t visit : from_here->second) {
        const bool moved = kept.stop->promised && has_moved(kept.stop->starts, starts[visit]);
        if (now[visit] == was && !moved) continue;
        changes.push_back({week.visits[visit].name, was, now[visit], week.visits[visit].site, true, kept.stop->promised,
                           false, kept.stop->starts, starts[visit]});
      }
      continue;
    }
    const auto along = std::find_if(week.visits.begin(), week.visits.end(),
                                    [&](const Visit& visit) { return shares_work(week, *kept.stop, visit); });
    if (along == week.visits.end()) {
      changes.push_back({kept.stop->visit, was, std::nullopt, site_of(*week.fleet, *kept.stop), false,
                         kept.stop->promised, false, kept.stop->starts});
      tell_why(week, *kept.stop, changes.back());
      continue;
    }
    const auto number = static_cast<std::size_t>(along - week.visits.begin());
    if (now[number] == was && !(kept.stop->promised && has_moved(kept.stop->starts, starts[number]))) continue;
    changes.push_back({kept.stop->visit, was, now[number], along->site, true, kept.stop->promised, false,
                       kept.stop->starts, starts[number]});
  }
  for (const std::size_t visit : order) {
    if (old.contains(visit)) continue;
    const Visit& made = week.visits[visit];
    changes.push_back({made.name, std::nullopt, now[visit], made.site, true, false, !was_put_off(*week.kept, made),
                       std::nullopt, starts[visit]});
  }
  put_by_whom(changes);
  return changes;
}

}  // namespace visits

std::vector<PlanFault> promised_to_nobody(const Fleet& fleet, const GivenPlan& kept, Day from) {
  std::vector<std::string> machines;
  for (const Machine& machine : fleet.machines) machines.push_back(machine.key);
  std::vector<PlanFault> faults;
  for (const GivenRound& round : kept.rounds) {
    for (const GivenStop& stop : round.stops) {
      if (round.on < from || !stop.promised || visits::is_call(stop) || visits::is_listed(fleet, stop)) continue;
      faults.push_back({PlanRule::unknown_visit,
                        fmt::format("{} {} {}", cleaned(round.crew), to_text(round.on), cleaned(stop.visit)),
                        fmt::format("it is promised, and the fleet has no such machine; {}",
                                    names_instead(visits::machine_of(stop), machines, "it has none"))});
    }
  }
  return faults;
}

}  // namespace service
