// The rules of a week, said of a plan that somebody made.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "visits/judge_head.h"
#include "visits/judge_parts.h"
#include "visits/judge_words.h"
#include "visits/opening.h"

namespace service {
namespace visits {
namespace {

class PlanJudge {
 public:
  PlanJudge(const Week& week, const GivenPlan& given) : week_(week), given_(given) {
    for (std::size_t i = 0; i < week.visits.size(); ++i) {
      numbers_.emplace(week.visits[i].name, i);
      names_.push_back(week.visits[i].name);
    }
  }

  PlanJudgement judge() {
    JudgedHead head(week_, given_, faults_);
    faults_.end_head();
    for (const UnreadRound& round : given_.unread) {
      const auto fault = faults_.add_grave(PlanRule::form, round.where, round.says);
      for (const std::string& visit : round.visits) in_unread_.emplace(visit, fault);
    }
    for (const GivenRound& round : given_.rounds) judge_round(round);
    for (const GivenPutOff& out : given_.put_off) judge_out(out);
    judge_left_out();
    judge_safety_left_out();
    PlanJudgement judgement;
    if (!faults_.grave()) {
      judgement.value = sums_.value();
      for (const std::size_t visit : out_) {
        if (week_.visits[visit].safety && reason_but_for_promise(week_, visit) == PutOffReason::dearer) {
          judgement.safety_left_out.push_back(week_.visits[visit].name);
        }
      }
      const auto cause = judge_plan_sums(given_, sums_, cause_of_sums(), faults_);
      judge_bound(given_, *judgement.value, cause, faults_);
    }
    head.put_behind();
    judgement.faults = faults_.all();
    return judgement;
  }

 private:
  // Why no crew-day is to be had, in words.
  std::string why_off(const GivenRound& given, const Crew* crew) const {
    if (crew == nullptr) {
      std::vector<std::string> keys;
      for (const Crew& one : week_.fleet->crews) keys.push_back(one.key);
      return fmt::format("there is no crew `{}`; {}", cleaned(given.crew),
                         names_instead(given.crew, keys, "the fleet has none"));
    }
    if (given.on < week_.from || given.on > week_.to) {
      return fmt::format("the week is {} to {}", to_text(week_.from), to_text(week_.to));
    }
    if (std::find(crew->off.begin(), crew->off.end(), given.on) != crew->off.end()) {
      return fmt::format("{} is off that day", crew->key);
    }
    const auto hours = crew->hours.find(weekday_of(given.on));
    if (hours == crew->hours.end() || hours->second.empty()) return fmt::format("{} has no hours that day", crew->key);
    return fmt::format("{} does not go this week", crew->key);
  }

  // The names of those to a machine, but for calls.
  std::vector<std::string> visits_at(const std::string& machine) const {
    std::vector<std::string> names;
    for (const Visit& visit : week_.visits) {
      if (visit.call == nullptr && visit.machine != nullptr && visit.machine->key == machine) {
        names.push_back(fmt::format("`{}`", cleaned(visit.name)));
      }
    }
    return names;
  }

  // Of a visit that nobody wants, in words.
  std::string why_unknown(const std::string& name) const {
    if (std::find(week_.done.begin(), week_.done.end(), name) != week_.done.end()) {
      return "it was made before this week";
    }
    const std::string machine = name.substr(0, name.find('+'));
    if (const auto others = visits_at(machine); !others.empty()) {
      return fmt::format("{} is visited this week as {}{}", cleaned(machine), listed(others, "nothing"),
                         others.size() > 1 ? ": its work is split by what crews can do" : "");
    }
    for (const NotPlanned& one : week_.not_planned) {
      const bool same = one.call != nullptr ? name == "call " + one.call->key
                                            : one.point.machine != nullptr && one.point.machine->key == machine;
      if (same) return fmt::format("there is nothing to do there this week: {}", to_text(one.reason));
    }
    return nearest_or(name, names_, "no work of that name is wanted this week");
  }

  std::optional<std::size_t> number_of(const std::string& name, const std::string& where) {
    const auto found = numbers_.find(name);
    if (found != numbers_.end()) return found->second;
    faults_.add_grave(PlanRule::unknown_visit, where, why_unknown(name));
    return std::nullopt;
  }

  void judge_round(const GivenRound& given) {
    JudgedRound round;
    round.given = &given;
    round.where = fmt::format("{} {}", cleaned(given.crew), to_text(given.on));
    for (const Crew& crew : week_.fleet->crews) {
      if (crew.key == given.crew) round.crew = &crew;
    }
    if (given.stops.empty()) {
      faults_.add(PlanRule::form, round.where, "has no stops; leave the round out");
      return;
    }
    round.crew_day = crew_day_of(week_, given.crew, given.on);
    if (!round.crew_day) {
      round.of_day = faults_.add_grave(PlanRule::off_day, round.where, why_off(given, round.crew));
    } else if (!used_.insert(*round.crew_day).second) {
      round.of_day = faults_.add_grave(PlanRule::off_day, round.where, "it has another round that day");
    }
    std::vector<std::optional<std::size_t>> visits;
    for (std::size_t i = 0; i < given.stops.size(); ++i)
      visits.push_back(made(given.stops[i].visit, round.where_of(i)));
    round.way = way_of(week_, round.crew, visits);
    round.of_stops.resize(given.stops.size());
    for (std::size_t i = 0; i < given.stops.size(); ++i) judge_stop(week_, round, i, faults_);
    judge_home(round);
    if (round.way.whole) {
      judge_clock(week_, round, faults_);
      judge_round_sums(week_, round, faults_);
      add(round);
    }
    if (round.crew != nullptr) judge_load(week_, round, round_before(week_, rounds_, round), faults_);
    rounds_.push_back(std::move(round));
  }

  // Why sums of the plan are wrong: a round was changed, else a sum is wrong of which they are made.
  Faults::Cause cause_of_sums() const {
    for (const JudgedRound& round : rounds_) {
      if (const auto cause = round.first_cause()) return cause;
    }
    for (const JudgedRound& round : rounds_) {
      if (round.of_cost) return round.of_cost;
    }
    return cost_put_off_;
  }

  // The number of a visit that is made there.
  std::optional<std::size_t> made(const std::string& name, const std::string& where) {
    const auto number = number_of(name, where);
    if (number) {
      const auto [first, fresh] = made_.emplace(*number, where);
      if (!fresh) faults_.add_grave(PlanRule::twice, where, fmt::format("is made twice: {} too", first->second));
    }
    return number;
  }

  void judge_home(const JudgedRound& round) {
    if (round.crew == nullptr || round.way.last == nullptr || round.way.home) return;
    faults_.add_grave(PlanRule::drive, round.where,
                      fmt::format("nothing tells how far it is from {} to {}", round.way.last->key, round.crew->end));
  }

  void add(const JudgedRound& round) {
    if (!round.crew_day) return;
    sums_.travel = sums_.travel + travel_cost(week_, *round.crew, round.way);
    for (const WayStop& stop : round.way.stops) {
      sums_.waiting = sums_.waiting + week_.visits[*stop.visit].options[*round.crew_day].waiting;
    }
  }

  void judge_out(const GivenPutOff& given) {
    const std::string where = "put_off " + cleaned(given.visit);
    const auto number = number_of(given.visit, where);
    if (!number) return;
    const auto at = made_.find(*number);
    if (at != made_.end()) {
      faults_.add_grave(PlanRule::twice, where, fmt::format("is put off, and made: {}", at->second));
    } else if (!out_.insert(*number).second) {
      faults_.add_grave(PlanRule::twice, where, "is put off twice");
    } else {
      sums_.put_off = sums_.put_off + week_.visits[*number].put_off;
      if (week_.visits[*number].safety) ++sums_.safety_put_off;
      judge_broken(week_, rounds_, *number, where, faults_);
    }
    const auto cost = judge_put_off(week_, given, *number, where, faults_);
    if (!cost_put_off_) cost_put_off_ = cost;
  }

  // Behind all rounds, whichever of both the plan has first.
  void judge_safety_left_out() {
    for (const std::size_t visit : out_) {
      if (!made_.contains(visit)) {
        judge_safety(week_, rounds_, visit, "put_off " + cleaned(week_.visits[visit].name), faults_);
      }
    }
  }

  void judge_left_out() {
    for (std::size_t i = 0; i < week_.visits.size(); ++i) {
      if (made_.contains(i) || out_.contains(i)) continue;
      const auto unread = in_unread_.find(week_.visits[i].name);
      const auto cause = unread == in_unread_.end() ? Faults::Cause{} : Faults::Cause{unread->second};
      faults_.add_grave_figure(cause, PlanRule::left_out, week_.visits[i].name, "is neither made nor put off");
    }
  }

  const Week& week_;
  const GivenPlan& given_;
  std::map<std::string, std::size_t> numbers_;
  std::map<std::string, Faults::Number> in_unread_;  // names of visits of a round that could not be read
  std::vector<std::string> names_;
  Faults faults_;
  std::vector<JudgedRound> rounds_;
  Faults::Cause cost_put_off_;
  std::set<std::size_t> used_;               // crew-days
  std::map<std::size_t, std::string> made_;  // visits, and where
  std::set<std::size_t> out_;
  PlanSums sums_;
};

}  // namespace
}  // namespace visits

PlanJudgement judge_plan(const Week& week, const GivenPlan& given) { return visits::PlanJudge(week, given).judge(); }

}  // namespace service
