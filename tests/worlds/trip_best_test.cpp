// Plans of visits against all plans there are, in tiny worlds whose work overflows their days. What a plan costs, what
// a trip has time for and what comes first is reckoned here by other code: the formulas as they are written down, and
// the clock of rounds, stay by stay.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <map>
#include <random>
#include <set>
#include <string>
#include <tuple>
#include <vector>

#include "routing/timing.h"
#include "service/job_sheet.h"
#include "service/visits.h"
#include "unit/visits/estate.h"
#include "visits/crew_days.h"
#include "visits/opening.h"
#include "visits/trips.h"
#include "visits/visits_made.h"

using namespace service;
using estate::Estate;
using estate::Texts;
using test::day;

namespace {

constexpr const char* as_of = "2026-05-03";  // a Sunday
constexpr int span_days = 6;
constexpr int worlds_tried = 2500;
constexpr int crowded_tried = 60;

class Roll {
 public:
  explicit Roll(std::uint64_t seed) : engine_(seed) {}
  int operator()(int from, int to) {
    return from + static_cast<int>(engine_() % static_cast<std::uint64_t>(to - from + 1));
  }
  bool one_in(int times) { return (*this)(1, times) == 1; }

 private:
  std::mt19937_64 engine_;
};

struct World {
  Texts texts;
  struct Done {
    std::string machine;
    std::string task;
    int days_ago;
  };
  std::vector<Done> done;
};

std::string span_of(int from, int to) { return '"' + estate::clock(from) + '-' + estate::clock(to) + '"'; }

// One site, one or two machines, one to four services, one or two crews that work some of five days.
World world_of(Roll& roll) {
  World world;
  const std::array<const char*, 4> gates{"", ", open: {mon-fri: [\"08:00-12:00\", \"13:00-17:00\"]}",
                                         ", open: {mon: \"09:00-12:00\", tue-fri: \"07:00-16:00\"}",
                                         ", open: {mon-wed: [\"07:30-09:30\", \"10:00-15:00\"], fri: \"08:00-14:00\"}"};
  world.texts.sites =
      "  workshop: {name: Workshop, at: [54.100, 3.200]}\n  holm: {name: Holm, at: [54.190, 3.350], "
      "set-up: " +
      std::to_string(roll(0, 2) * 10) + " min" + gates[static_cast<std::size_t>(roll(0, 3))] + "}\n";
  const std::array<const char*, 4> weeks{"mon-fri", "mon-tue", "tue-thu", "wed-fri"};
  const auto crew = [&](const std::string& key, const std::string& more) {
    const int leaves = 7 * 60 + 30 * roll(0, 2);
    return "  " + key + ": {start: workshop, hours: {" + weeks[static_cast<std::size_t>(roll(0, 3))] + ": " +
           span_of(leaves, leaves + 30 * roll(7, 16)) + "}" + (roll.one_in(3) ? ", meal: 30 min" : "") +
           (roll.one_in(4) ? ", duty: 5 h" : "") + more + "}\n";
  };
  world.texts.crews = crew("van", "");
  if (roll.one_in(2)) {
    world.texts.crews +=
        crew("lorry", ", qualified-for: [pressure], per-km: " + std::string(roll.one_in(2) ? "1" : "0.2"));
  }
  world.texts.calls = "";
  world.texts.tractor = "";
  const int tasks = roll(1, 4);
  const int machines = roll(1, 2);
  world.texts.machines = "";
  const std::array<std::string, 2> names{"loader", "second"};
  for (int i = 0; i < machines; ++i) {
    world.texts.machines += "  " + names[static_cast<std::size_t>(i)] +
                            ": {schedule: tractor, site: holm, bought: {on: 2020-03-01, at: 0}}\n";
  }
  for (int i = 0; i < tasks; ++i) {
    const std::string name = "t" + std::to_string(i);
    const int months = roll(1, 12);
    world.texts.tractor +=
        "  " + name + ": {do: It, every: {months: " + std::to_string(months) +
        "}, takes: " + std::to_string(roll(2, 22) * 10) + " min, late: " + std::to_string(roll(0, 4) * 400) +
        (roll.one_in(5) ? ", safety: true" : "") + (roll.one_in(6) ? ", needs: [pressure]" : "") +
        (i > 0 && roll.one_in(5) ? ", covers: [t" + std::to_string(i - 1) + "]" : "") +
        (roll.one_in(2) ? ", parts: {oil-filter-a: " + std::to_string(roll(1, 60)) + "}" : "") + "}\n";
    // Due from some days before until the end of the span; on which machine says the dice.
    const Day due = day(as_of) + std::chrono::days{roll(-12, span_days - 1)};
    const std::chrono::year_month_day at{due};
    const Day fitted = std::chrono::sys_days{at - std::chrono::months{months}};
    if (!std::chrono::year_month_day{at - std::chrono::months{months}}.ok()) continue;
    world.done.push_back(
        {names[static_cast<std::size_t>(roll(0, machines - 1))], name, days_between(fitted, day(as_of))});
  }
  return world;
}

// Smaller is better; the last is money, in pence.
using Value = std::tuple<int, int, int, int, double>;
constexpr double hair = 1e-6;

bool better(const Value& a, const Value& b) {
  const auto first = [](const Value& v) {
    return std::tuple(std::get<0>(v), std::get<1>(v), std::get<2>(v), std::get<3>(v));
  };
  return first(a) != first(b) ? first(a) < first(b) : std::get<4>(a) < std::get<4>(b) - hair;
}

using Assigned = std::vector<int>;  // the crew-day of each service; below zero: none

class Judge {
 public:
  explicit Judge(const VisitsPlan& plan) : plan_(plan), fleet_(*plan.list->fleet), site_(*fleet_.site("holm")) {
    WeekAsk ask{plan.from};
    ask.days = days_between(plan.from, plan.to) + 1;
    days_ = visits::crew_days_of(fleet_, ask);
    std::set<const Point*> alone_impossible;
    for (const NotPossible& out : plan.not_possible) {
      if (!out.days_full) alone_impossible.insert(&*out.point);
    }
    for (const Point& point : plan.list->points) {
      if (point.standing == Standing::no_record || !point.due_on || *point.due_on > plan.to) continue;
      points_.push_back(&point);
      bool can_be_done = false;
      for (int d = 0; d < crew_days(); ++d) can_be_done = can_be_done || fits(d, 1U << (points_.size() - 1));
      CHECK(can_be_done == !alone_impossible.contains(&point));
      if (!can_be_done) points_.pop_back();
      fits_.clear();
    }
    for (std::size_t i = 0; i < points_.size(); ++i) {
      costs_.emplace_back();
      includes_.emplace_back();
      for (const CrewDay& one : days_) costs_.back().push_back(cost(*points_[i], one.on));
      for (std::size_t k = 0; k < points_.size(); ++k) {
        includes_.back().push_back(k != i && includes(i, k));
        any_includes_ = any_includes_ || includes_.back().back();
      }
      own_.push_back(own_day(i));
      left_.push_back(cost(*points_[i], plan.to + std::chrono::days{7}));
    }
    for (int d = 0; d < crew_days(); ++d) trip_costs_.push_back(trip_cost(d));
  }

  int crew_days() const { return static_cast<int>(days_.size()); }
  std::size_t points() const { return points_.size(); }
  const Machine* machine(std::size_t i) const { return points_[i]->machine; }

  // As the plan has it.
  Assigned given() const {
    Assigned assigned(points_.size(), -1);
    for (const SiteVisit& visit : plan_.visits) {
      for (const TripTask& task : visit.tasks) {
        const auto at = std::find(points_.begin(), points_.end(), task.point) - points_.begin();
        REQUIRE(at < static_cast<std::ptrdiff_t>(points_.size()));
        REQUIRE(assigned[static_cast<std::size_t>(at)] == -1);
        for (int d = 0; d < crew_days(); ++d) {
          if (days_[n(d)].crew == visit.crew && days_[n(d)].on == visit.on) assigned[static_cast<std::size_t>(at)] = d;
        }
      }
    }
    return assigned;
  }

  bool feasible(const Assigned& assigned) {
    std::map<int, unsigned> trips;
    for (std::size_t i = 0; i < assigned.size(); ++i) {
      if (assigned[i] >= 0) trips[assigned[i]] |= 1U << i;
    }
    return std::all_of(trips.begin(), trips.end(), [&](const auto& trip) { return fits(trip.first, trip.second); });
  }

  Value value(const Assigned& assigned) {
    int unsafe = 0;
    int late = 0;
    int left = 0;
    int twice = 0;
    double money = 0;
    std::set<int> trips;
    for (std::size_t i = 0; i < assigned.size(); ++i) {
      const int at = assigned[i];
      if (at < 0) {
        ++(never_waits(*points_[i]) ? unsafe : left);
        money += left_[i];  // waits until a week after the span
        continue;
      }
      if (never_waits(*points_[i])) late += std::max(0, days_between(own_[i], days_[n(at)].on));
      money += costs_[i][n(at)];
      if (trips.insert(at).second) money += trip_costs_[n(at)];
      for (std::size_t k = 0; k < assigned.size(); ++k) {
        if (k == i || assigned[k] < 0 || assigned[k] == at || !includes_[i][k]) continue;
        if (days_[n(assigned[k])].on >= days_[n(at)].on) ++twice;
      }
    }
    return {unsafe, late, left, twice, money};
  }

  // How many crews too many there are at a machine on a day, in all.
  int meetings(const Assigned& assigned) const {
    std::set<std::pair<const Machine*, int>> by_trip;
    std::set<std::pair<const Machine*, Day>> by_day;
    for (std::size_t i = 0; i < assigned.size(); ++i) {
      if (assigned[i] < 0) continue;
      by_trip.emplace(machine(i), assigned[i]);
      by_day.emplace(machine(i), days_[n(assigned[i])].on);
    }
    return static_cast<int>(by_trip.size() - by_day.size());
  }

  // Of all ways to share out the services to crew-days; and in which of the best ones crews meet least.
  std::pair<Value, int> best() {
    Assigned assigned(points_.size(), -1);
    std::pair<Value, int> least{{1'000, 0, 0, 0, 0}, 0};
    try_all(0, assigned, least);
    return least;
  }

 private:
  static std::size_t n(int number) { return static_cast<std::size_t>(number); }

  void try_all(std::size_t i, Assigned& assigned, std::pair<Value, int>& least) {
    if (i == assigned.size()) {
      const Value now = value(assigned);
      if (better(now, least.first)) {
        least = {now, meetings(assigned)};
      } else if (!better(least.first, now)) {
        least.second = std::min(least.second, meetings(assigned));
      }
      return;
    }
    for (int d = -1; d < crew_days(); ++d) {
      assigned[i] = d;
      if (d >= 0) {
        unsigned set = 0;
        for (std::size_t k = 0; k <= i; ++k) set |= assigned[k] == d ? 1U << k : 0U;
        if (i + 1 == assigned.size() && !feasible(assigned)) continue;
        if (!may_grow(d, set) || (!any_includes_ && !fits(d, set))) continue;
      } else if (i + 1 == assigned.size() && !feasible(assigned)) {
        continue;
      }
      try_all(i + 1, assigned, least);
    }
    assigned[i] = -1;
  }

  // What is included takes no time later, so a trip that is too long may yet get shorter: only crews are told apart.
  bool may_grow(int d, unsigned set) const {
    for (std::size_t i = 0; i < points_.size(); ++i) {
      if ((set >> i & 1U) != 0 && !may(d, i)) return false;
    }
    return true;
  }

  bool may(int d, std::size_t i) const { return visits::can(*days_[n(d)].crew, visits::needs_of(*points_[i])); }

  bool includes(std::size_t outer, std::size_t inner) const {
    if (points_[outer]->machine != points_[inner]->machine) return false;
    const auto alone = by_themselves(fleet_, {points_[outer], points_[inner]});
    return std::find(alone.begin(), alone.end(), points_[inner]) == alone.end();
  }

  // By the clock of rounds: one stay at each machine, in some order.
  bool fits(int d, unsigned set) {
    const auto [known, fresh] = fits_.try_emplace({d, set}, false);
    if (!fresh) return known->second;
    std::map<std::string, std::vector<const Point*>> by_machine;
    for (std::size_t i = 0; i < points_.size(); ++i) {
      if ((set >> i & 1U) == 0) continue;
      if (!may(d, i)) return false;
      by_machine[points_[i]->machine->key].push_back(points_[i]);
    }
    const CrewDay& crew_day = days_[n(d)];
    const auto open = visits::opening_on(fleet_, site_, crew_day.on);
    const auto trip = visits::trip_of(fleet_, *crew_day.crew, site_);
    routing::Problem problem;
    routing::Profile profile;
    profile.places = 2;
    profile.legs = {{0, 0}, {trip->there.minutes, 0}, {trip->home.minutes, 0}, {0, 0}};
    profile.set_ups = {{0, 0}, {static_cast<int>(site_.set_up.count()), 0}};
    problem.profiles.push_back(profile);
    routing::Shift shift;
    shift.opens = crew_day.hours.from;
    shift.closes = crew_day.hours.to;
    if (crew_day.duty) shift.duty = static_cast<int>(crew_day.duty->count());
    shift.meal = static_cast<int>(crew_day.crew->meal.count());
    routing::Route route;
    for (const auto& [machine, points] : by_machine) {
      routing::Job job;
      job.place = 1;
      for (const Point* point : by_themselves(fleet_, points)) job.work += visits::minutes_of(*point).value_or(0);
      route.push_back(static_cast<int>(problem.jobs.size()));
      problem.jobs.push_back(job);
      routing::Option option{!open.empty(), 0, {}};
      for (const ClockSpan& span : open) option.spans.push_back({span.from, span.to});
      shift.options.push_back(option);
    }
    do {
      known->second = known->second || routing::times_of(problem, shift, route).has_value();
    } while (std::next_permutation(route.begin(), route.end()));
    return known->second;
  }

  Day own_day(std::size_t i) {
    const Day from = std::max(*points_[i]->due_on, plan_.from);
    std::optional<Day> last;
    for (int d = 0; d < crew_days(); ++d) {
      if (!fits(d, 1U << i)) continue;
      last = days_[n(d)].on;
      if (*last >= from) return *last;
    }
    return *last;
  }

  double trip_cost(int d) const {
    const Crew& crew = *days_[n(d)].crew;
    const Site& start = *fleet_.site(crew.start);
    const Money there = cost_of(fleet_, crew, *leg_of(fleet_, crew, start, site_));
    const Money home = cost_of(fleet_, crew, *leg_of(fleet_, crew, site_, *fleet_.site(crew.end)));
    return static_cast<double>((there + home + set_up_cost(fleet_, crew, site_)).hundredths);
  }

  // Late: what skipping it would cost x (2T(n - m) + n^2 - m^2) / 3T^2, beyond T as fast as there; early: value x
  // days / T.
  double cost(const Point& point, Day on) const {
    const auto resources = resources_of(*point.machine, *point.task, point.follow_up);
    double parts = 0;
    for (const auto& [key, pieces] : resources.parts) parts += 1420.0 * static_cast<double>(pieces.hundredths) / 100;
    const double value = std::floor(parts + static_cast<double>(resources.time->count()) * 4400 / 60 + 0.5);
    const double late = static_cast<double>(point.task->late->hundredths);
    const double life = std::max(1, days_between(point.fitted->on.first, *point.due_on));
    const double n = std::max(0, days_between(*point.due_on, on));
    const double m = std::max(0, days_between(*point.due_on, plan_.as_of));
    const double early = std::max(0, days_between(on, *point.due_on));
    const auto lost = [&](double days) {
      return days <= life ? 2 * life * days + days * days : 3 * life * life + 4 * life * (days - life);
    };
    return late * (lost(n) - lost(m)) / (3 * life * life) + value * early / life;
  }

  const VisitsPlan& plan_;
  const Fleet& fleet_;
  const Site& site_;
  std::vector<CrewDay> days_;
  std::vector<const Point*> points_;
  std::vector<std::vector<double>> costs_;
  std::vector<std::vector<bool>> includes_;
  bool any_includes_ = false;
  std::vector<Day> own_;
  std::vector<double> left_;
  std::vector<double> trip_costs_;
  std::map<std::pair<int, unsigned>, bool> fits_;
};

std::string told(const VisitsPlan& plan) {
  std::string text;
  for (const SiteVisit& visit : plan.visits) {
    text += to_text(visit.on) + ' ' + visit.crew->key + ' ' + std::to_string(visit.work_minutes) + " min:";
    for (const TripTask& task : visit.tasks) text += ' ' + task.point->machine->key + ' ' + task.point->name;
    text += "; ";
  }
  return text;
}

// A move that makes it better, if there is one: of a service, of all that is done at its machine on that trip, of the
// whole trip.
std::string move_that_helps(Judge& judge, const Assigned& given) {
  const Value now = judge.value(given);
  for (std::size_t i = 0; i < given.size(); ++i) {
    for (const int kind : {0, 1, 2}) {
      for (int to = 0; to < judge.crew_days(); ++to) {
        Assigned moved = given;
        for (std::size_t k = 0; k < given.size(); ++k) {
          const bool along = given[k] == given[i] && given[i] >= 0 &&
                             (kind == 2 || (kind == 1 && judge.machine(k) == judge.machine(i)));
          if (k == i || along) moved[k] = to;
        }
        if (!judge.feasible(moved) || !better(judge.value(moved), now)) continue;
        return "service " + std::to_string(i) + ", kind " + std::to_string(kind) + ", to " + std::to_string(to) +
               ": saves " + std::to_string(std::get<4>(now) - std::get<4>(judge.value(moved)));
      }
    }
  }
  return "";
}

}  // namespace

TEST_CASE("of tiny worlds the plan is the best of all in nearly all, and its bound is above none") {
  Roll roll(20260503);
  int worlds = 0;
  int best = 0;
  int other = 0;
  int proven = 0;
  int meet = 0;  // crews at a machine
  int meet_needlessly = 0;
  for (int i = 0; i < worlds_tried; ++i) {
    CAPTURE(i);
    const World world = world_of(roll);
    Estate place(world.texts);
    for (const World::Done& one : world.done) {
      place.done(one.machine, one.task, to_text(day(as_of) - std::chrono::days{one.days_ago}));
    }
    const Day to = day(as_of) + std::chrono::days{span_days - 1};
    DueAsk ask{to};
    ask.detail = Detail::coming;
    auto list = std::make_shared<DueList>(due_list(place.world.snapshot(as_of), ask, straight_line()));
    VisitsPlan plan;
    try {
      plan = plan_visits(list, {to});
    } catch (const Failure&) {
      continue;  // nobody works in the span
    }
    Judge judge(plan);
    if (judge.points() == 0) continue;
    const Assigned given = judge.given();
    CAPTURE(world.texts.sites);
    CAPTURE(world.texts.crews);
    CAPTURE(world.texts.tractor);
    CAPTURE(told(plan));
    REQUIRE(judge.feasible(given));
    CHECK(move_that_helps(judge, given) == "");
    const Value is = judge.value(given);
    const auto [least, least_meetings] = judge.best();
    CHECK_FALSE(better(is, least));
    ++worlds;
    const bool as_good = !better(least, is);
    best += as_good ? 1 : 0;
    if (as_good) CHECK(judge.meetings(given) >= least_meetings);
    meet += as_good && judge.meetings(given) > 0 ? 1 : 0;
    meet_needlessly += as_good && judge.meetings(given) > least_meetings ? 1 : 0;
    proven += plan.exact ? 1 : 0;
    // What is rounded is each of its lines.
    const double lines = plan.exact ? 0.5 * 2 * static_cast<double>(judge.points()) : 0;
    const bool all = std::get<0>(is) == 0 && std::get<2>(is) == 0;  // else the bound is of what is done
    if (all) CHECK(static_cast<double>(plan.bound.hundredths) <= std::get<4>(least) + lines + hair);
    CHECK(plan.bound <= plan.total);
    if (plan.exact && all) CHECK(std::get<4>(is) < std::get<4>(least) + 0.01 + hair);
    other += plan.on_own_days.visits != plan.visits.size() ? 1 : 0;
  }
  MESSAGE(worlds << " worlds, best in " << best << ", proven in " << proven << ", " << other << " on other days");
  MESSAGE("crews meet at a machine in " << meet << ", for nothing in " << meet_needlessly);
  CHECK(meet_needlessly * 5 < meet);
  CHECK(worlds * 10 > worlds_tried * 8);
  CHECK(best * 1000 >= worlds * 995);
  CHECK(proven * 10 > worlds * 8);
  CHECK(other * 8 > worlds);  // and not one that has to be made as it stands
}

namespace {

// More crews and more work than the tiny worlds above, whose plans are still quickly made.
World crowded_world(Roll& roll) {
  World world = world_of(roll);
  const std::array<const char*, 4> weeks{"mon-fri", "mon-tue", "tue-thu", "wed-fri"};
  world.texts.crews = "";
  for (const char* key : {"van", "lorry", "bike", "pickup"}) {
    if (roll.one_in(4)) continue;
    const int leaves = 7 * 60 + 30 * roll(0, 2);
    world.texts.crews += std::string("  ") + key + ": {start: workshop, hours: {" +
                         weeks[static_cast<std::size_t>(roll(0, 3))] + ": " +
                         span_of(leaves, leaves + 30 * roll(7, 16)) + "}, per-km: " + std::to_string(roll(1, 9)) +
                         (roll.one_in(2) ? ", qualified-for: [pressure]" : "") + "}\n";
  }
  world.texts.tractor = "";
  world.done.clear();
  for (int i = 0; i < 8; ++i) {
    const std::string name = "t" + std::to_string(i);
    world.texts.tractor += "  " + name + ": {do: It, every: {months: " + std::to_string(roll(1, 6)) +
                           "}, takes: " + std::to_string(roll(4, 20) * 10) +
                           " min, late: " + std::to_string(roll(1, 9) * 300) +
                           (roll.one_in(4) ? ", needs: [pressure]" : "") + "}\n";
    world.done.push_back({"loader", name, roll(28, 190)});
  }
  return world;
}

std::set<std::string> undone(const VisitsPlan& plan) {
  std::set<std::string> names;
  for (const NotPossible& out : plan.not_possible) names.insert(out.point->machine->key + ' ' + out.point->name);
  return names;
}

}  // namespace

TEST_CASE("no plan is behind one that is made without some of its crews") {
  Roll roll(20260504);
  const Day to = day(as_of) + std::chrono::days{span_days + 14};
  int compared = 0;
  for (int i = 0; i < crowded_tried; ++i) {
    CAPTURE(i);
    const World world = crowded_world(roll);
    if (world.texts.crews.empty()) continue;
    Estate place(world.texts);
    for (const World::Done& one : world.done) {
      place.done(one.machine, one.task, to_text(day(as_of) - std::chrono::days{one.days_ago}));
    }
    DueAsk ask{to};
    ask.detail = Detail::coming;
    auto list = std::make_shared<DueList>(due_list(place.world.snapshot(as_of), ask, straight_line()));
    const VisitsPlan plan = plan_visits(list, {to});
    for (const Crew& crew : list->fleet->crews) {
      if (list->fleet->crews.size() < 2) continue;
      const VisitsPlan without = plan_visits(list, {to, {crew.key}});
      if (undone(without) != undone(plan)) continue;  // what nobody does costs nothing there
      CAPTURE(crew.key);
      CAPTURE(world.texts.crews);
      CAPTURE(world.texts.tractor);
      CHECK(plan.total <= without.total);
      ++compared;
    }
  }
  MESSAGE(compared << " plans compared");
  CHECK(compared > crowded_tried);
}
