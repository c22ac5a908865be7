#include "visits/visits_made.h"

#include <algorithm>
#include <map>

#include "service/job_sheet.h"
#include "visits/wanted.h"

namespace service::visits {
namespace {

bool holds(const std::vector<const Point*>& points, const Point* point) {
  return std::find(points.begin(), points.end(), point) != points.end();
}

std::string name_of(std::string name, const Needs& needs) {
  for (const std::string& word : words_of(needs)) name += '+' + word;
  return name;
}

// These points of one machine, all in one visit where some crew can do that.
void add_points(std::vector<Visit>& visits, const Week& week, const std::string& name,
                const std::vector<const Point*>& points) {
  const Fleet& fleet = *week.fleet;
  const Machine& machine = *points.front()->machine;
  Visit whole = visit_for(fleet, machine, name, points);
  if (any_can(week.crew_days, needs_of(whole))) {
    visits.push_back(std::move(whole));
    return;
  }
  std::vector<std::pair<Needs, std::vector<const Point*>>> by_needs;
  for (const Point* point : points) {
    const Needs needs = needs_of(*point);
    auto same = std::find_if(by_needs.begin(), by_needs.end(), [&](const auto& one) { return one.first == needs; });
    if (same == by_needs.end()) same = by_needs.insert(by_needs.end(), {needs, {}});
    same->second.push_back(point);
  }
  for (auto& [needs, alike] : by_needs) {
    visits.push_back(visit_for(fleet, machine, name_of(name, needs), std::move(alike)));
  }
}

// What somebody put off, or what waits until its machine is back, waits alone: nothing else of its machine, work for
// safety least of all, waits with it. What may be done first has the machine's name.
void add_machine(std::vector<Visit>& visits, const Week& week, const std::vector<const Point*>& points) {
  std::map<Day, std::vector<const Point*>> by_first_day;
  for (const Point* point : points) {
    by_first_day[std::max(not_before(*week.list, *point), week.crew_days.front().on)].push_back(point);
  }
  const std::string& key = points.front()->machine->key;
  for (const auto& [day, alike] : by_first_day) {
    add_points(visits, week, day == by_first_day.begin()->first ? key : key + "+from-" + to_text(day), alike);
  }
}

void add_call(std::vector<Visit>& visits, Week& week, const Call& call) {
  const Fleet& fleet = *week.fleet;
  Visit visit;
  visit.name = "call " + call.key;
  visit.call = &call;
  visit.machine = call.machine.empty() ? nullptr : fleet.machine(call.machine);
  visit.site = fleet.site(visit.machine != nullptr ? visit.machine->site : call.site);
  visit.needs = both({call.needs, 1}, {}).skills;
  visit.work_minutes = static_cast<int>(call.takes.count());
  visit.safety = call.safety;
  if (visit.site == nullptr) {
    week.not_planned.push_back({{visit.machine, "", "", call.safety, false}, &call, NotPlannedReason::no_site});
  } else {
    visits.push_back(std::move(visit));
  }
}

}  // namespace

Needs needs_of(const Point& point) {
  return both({point.task->needs, resources_of(*point.machine, *point.task, point.follow_up).people}, {});
}

Needs needs_of(const Visit& visit) { return {visit.needs, visit.people}; }

Visit visit_for(const Fleet& fleet, const Machine& machine, std::string name, std::vector<const Point*> points) {
  Visit visit;
  visit.name = std::move(name);
  visit.machine = &machine;
  visit.site = fleet.site(machine.site);
  visit.points = std::move(points);
  Needs needs;
  for (const Point* point : visit.points) {
    needs = both(needs, needs_of(*point));
    visit.safety = visit.safety || is_safety(*point);
  }
  visit.needs = needs.skills;
  visit.people = needs.people;
  return visit;
}

std::vector<Visit> visits_of(Week& week, const std::vector<const Point*>& points, const DoneBefore& done) {
  std::vector<std::vector<const Point*>> by_machine;
  for (const Point* point : points) {
    auto same = std::find_if(by_machine.begin(), by_machine.end(),
                             [&](const auto& one) { return one.front()->machine == point->machine; });
    if (same == by_machine.end()) same = by_machine.insert(by_machine.end(), {{}});
    same->push_back(point);
  }
  std::vector<Visit> visits;
  for (const auto& of_machine : by_machine) add_machine(visits, week, of_machine);
  for (const Call& call : week.fleet->calls) {
    if (!call.from || *call.from <= week.to) add_call(visits, week, call);
  }
  const auto out =
      std::stable_partition(visits.begin(), visits.end(), [&](const Visit& visit) { return !done.holds(visit.name); });
  done.fill_done(week, {out, visits.end()});
  visits.erase(out, visits.end());
  for (Visit& visit : visits) {
    if (visit.call == nullptr) reckon_work(*week.fleet, visit);
  }
  return visits;
}

std::optional<int> minutes_of(const Point& point) {
  const auto time = resources_of(*point.machine, *point.task, point.follow_up).time;
  return time ? std::optional(static_cast<int>(time->count())) : std::nullopt;
}

void reckon_work(const Fleet& fleet, Visit& visit) {
  const auto alone = by_themselves(fleet, visit.points);
  visit.included.clear();
  visit.work_minutes = 0;
  for (const Point* point : visit.points) {
    if (!holds(alone, point)) {
      visit.included.push_back(point);
      continue;
    }
    visit.work_minutes += minutes_of(*point).value_or(0);
  }
}

std::vector<const Point*> worked_on(const Visit& visit) {
  std::vector<const Point*> points;
  for (const Point* point : visit.points) {
    if (!holds(visit.included, point)) points.push_back(point);
  }
  return points;
}

std::vector<PointName> without_time(const std::vector<Visit>& visits) {
  std::vector<PointName> names;
  for (const Visit& visit : visits) {
    for (const Point* point : worked_on(visit)) {
      if (!minutes_of(*point)) names.push_back(service::name_of(*point));
    }
  }
  return names;
}

}  // namespace service::visits
