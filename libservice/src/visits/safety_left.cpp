#include "service/safety_left.h"

#include <algorithm>
#include <tuple>

#include "service/rounds_list.h"
#include "service/waiting_to_mend.h"
#include "visits/trip_safety_left.h"

namespace service {

std::string_view to_text(WhyLeft why) {
  switch (why) {
    case WhyLeft::not_made:
      return "not-made";
    case WhyLeft::later:
      return "later";
    case WhyLeft::not_planned:
      return "not-planned";
    case WhyLeft::no_record:
      return "no-record";
    case WhyLeft::not_in_book:
      return "not-in-book";
  }
  return "";
}

namespace {

// What is left at one machine.
class Left {
 public:
  Left(const DueList& list, const Machine& machine) : list_(list), machine_(machine) {}

  void add(const Point& point, WhyLeft why, std::optional<Day> on = {}, const Crew* crew = nullptr,
           std::optional<NotPlannedReason> reason = {}) {
    if (!is_safety(point) || point.machine->key != machine_.key) return;
    SafetyLeft& one = all_.emplace_back();
    one.point = name_of(point);
    one.why = why;
    one.due_on = point.due_on;
    one.on = on;
    one.crew = crew;
    one.reason = reason;
    one.unmended = leaves_unmended(list_, point);
  }

  void add(const Call& call, WhyLeft why, std::optional<Day> on = {}, const Crew* crew = nullptr) {
    SafetyLeft& one = all_.emplace_back();
    one.point.machine = &machine_;
    one.point.safety = true;
    one.call = &call;
    one.why = why;
    one.on = on;
    one.crew = crew;
  }

  void add(const std::vector<NotPlanned>& rows) {
    for (const NotPlanned& row : rows) {
      if (row.call != nullptr || !is_here(row.point)) continue;
      if (const Point* const point = named(row.point)) add(*point, WhyLeft::not_planned, {}, nullptr, row.reason);
    }
  }

  void add_no_record(const std::vector<PointName>& points) {
    for (const PointName& point : points) {
      if (!point.safety || !is_here(point)) continue;
      SafetyLeft& one = all_.emplace_back();
      one.point = point;
      one.why = WhyLeft::no_record;
    }
  }

  std::vector<SafetyLeft> take() { return std::move(all_); }

 private:
  bool is_here(const PointName& point) const { return point.machine != nullptr && point.machine->key == machine_.key; }

  const Point* named(const PointName& name) const {
    const auto found =
        std::find_if(list_.points.begin(), list_.points.end(), [&](const Point& one) { return name_of(one) == name; });
    return found == list_.points.end() ? nullptr : &*found;
  }

  const DueList& list_;
  const Machine& machine_;
  std::vector<SafetyLeft> all_;
};

}  // namespace

std::vector<SafetyLeft> safety_left(const RoundsPlan& plan, const Round& round, const RoundStop& stop) {
  const Week& week = plan.week;
  const Machine* const machine = week.visits[stop.visit].machine;
  if (machine == nullptr) return {};
  Left left(*week.list, *machine);
  const auto is_here = [&](const Visit& visit) {
    return visit.machine != nullptr && visit.machine->key == machine->key;
  };
  for (const NotThisWeek& out : plan.not_this_week) {
    const Visit& visit = week.visits[out.visit];
    if (!is_here(visit)) continue;
    if (visit.call != nullptr && visit.safety) left.add(*visit.call, WhyLeft::not_made);
    for (const Point* point : visit.points) {
      if (*point->due_on <= week.to) left.add(*point, WhyLeft::not_made);  // what only joins may come due later
    }
  }
  const auto begins = [&](const Round& of, const RoundStop& at) {
    return std::tuple(week.crew_days[of.crew_day].on, at.starts);
  };
  for (const Round& other : plan.rounds) {
    const CrewDay& day = week.crew_days[other.crew_day];
    for (const RoundStop& at : other.stops) {
      const Visit& visit = week.visits[at.visit];
      if (!is_here(visit) || begins(other, at) <= begins(round, stop)) continue;
      if (keep_out_until_made(visit)) left.add(*visit.call, WhyLeft::later, day.on, day.crew);
      for (const Point* point : visit.points) {
        if (keep_out_of_use(*point, day.on)) left.add(*point, WhyLeft::later, day.on, day.crew);
      }
    }
  }
  left.add(week.not_planned);
  for (const NotInBook& one : week.not_in_book) {
    if (keep_out_of_use(one, week.to)) left.add(*one.point, WhyLeft::not_in_book, one.on, one.crew);
  }
  for (const CallStillListed& one : week.calls_still_listed) {
    const bool here = one.machine != nullptr && one.machine->key == machine->key;
    if (here && keep_out_of_use(one)) left.add(*one.call, WhyLeft::not_in_book, one.on, one.crew);
  }
  left.add_no_record(week.no_record);
  return left.take();
}

namespace visits::trip {
namespace {

std::vector<SafetyLeft> left_at(const VisitsPlan& plan, const SiteVisit& visit, const Machine& machine) {
  Left left(*plan.list, machine);
  for (const NotPossible& out : plan.not_possible) left.add(*out.point, WhyLeft::not_made);
  for (const SiteVisit& other : plan.visits) {
    if (other.on <= visit.on) continue;
    for (const TripTask& task : other.tasks) {
      if (keep_out_of_use(*task.point, other.on)) left.add(*task.point, WhyLeft::later, other.on, other.crew);
    }
  }
  left.add(plan.not_planned);
  left.add_no_record(plan.no_record);
  return left.take();
}

}  // namespace

void fill_safety_left(VisitsPlan& plan) {
  for (SiteVisit& visit : plan.visits) {
    visit.safety_left.clear();
    const Machine* before = nullptr;
    for (const TripTask& task : visit.tasks) {  // machine by machine
      if (task.point->machine == before) continue;
      before = task.point->machine;
      for (SafetyLeft& one : left_at(plan, visit, *before)) visit.safety_left.push_back(std::move(one));
    }
  }
}

}  // namespace visits::trip
}  // namespace service
