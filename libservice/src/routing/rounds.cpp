#include "routing/rounds.h"

#include <algorithm>

#include "routing/stays.h"
#include "routing/timing.h"

namespace service::routing {
namespace {

const Profile& profile_of(const Problem& problem, std::size_t shift) {
  return problem.profiles[static_cast<std::size_t>(problem.shifts[shift].profile)];
}

int place_of(const Problem& problem, int job) { return problem.jobs[static_cast<std::size_t>(job)].place; }

// How long a stay is when coming from there.
Minute stay_of(const Problem& problem, const Profile& profile, int from, int job) {
  const Job& what = problem.jobs[static_cast<std::size_t>(job)];
  return what.work + (from == what.place ? 0 : profile.set_ups[static_cast<std::size_t>(what.place)].minutes);
}

Pence way_cost(const Profile& profile, int from, int to) {
  return profile.leg(from, to).cost + (from == to ? 0 : profile.set_ups[static_cast<std::size_t>(to)].cost);
}

}  // namespace

Rounds::Rounds(const Problem& problem, const Weights& weights) : problem_(&problem), weights_(&weights) {
  for (const Shift& shift : problem.shifts) {
    needs_all_.push_back(shift.meal > 0 || shift.duty < shift.closes - shift.opens);
  }
  reset(Plan(problem.shifts.size()));
}

void Rounds::reset(const Plan& plan) {
  plan_ = plan;
  slacks_.assign(plan.size(), {});
  loads_.assign(plan.size(), 0);
  costs_.assign(plan.size(), 0);
  shift_of_.assign(problem_->jobs.size(), -1);
  weighed_ = 0;
  for (const Job& job : problem_->jobs) weighed_ += weights_->of_skipping(job);
  for (std::size_t shift = 0; shift < plan.size(); ++shift) {
    for (const int job : plan[shift]) {
      shift_of_[static_cast<std::size_t>(job)] = static_cast<int>(shift);
      weighed_ -= weights_->of_skipping(problem_->jobs[static_cast<std::size_t>(job)]);
    }
    reckon(shift);
  }
}

Pence Rounds::cost_of(std::size_t shift) const {
  const Shift& of = problem_->shifts[shift];
  Pence cost = travel_of(*problem_, of, plan_[shift]);
  for (const int job : plan_[shift]) cost += of.options[static_cast<std::size_t>(job)].cost;
  return cost;
}

void Rounds::reckon(std::size_t number) {
  const Shift& shift = problem_->shifts[number];
  const Profile& profile = profile_of(*problem_, number);
  const Route& route = plan_[number];
  Slack& slack = slacks_[number];
  slack.ends.resize(route.size());
  slack.may_end.resize(route.size());
  loads_[number] = 0;
  Minute at = shift.opens;
  int place = shift.start;
  std::vector<Minute> stays(route.size());
  for (std::size_t i = 0; i < route.size(); ++i) {
    const int next = place_of(*problem_, route[i]);
    stays[i] = stay_of(*problem_, profile, place, route[i]);
    const auto& spans = shift.options[static_cast<std::size_t>(route[i])].spans;
    at = earliest_start(spans, at + profile.leg(place, next).minutes, stays[i]).value_or(shift.closes) + stays[i];
    slack.ends[i] = at;
    loads_[number] += problem_->jobs[static_cast<std::size_t>(route[i])].load;
    place = next;
  }
  for (std::size_t i = route.size(); i-- > 0;) {
    const int here = place_of(*problem_, route[i]);
    if (i + 1 == route.size()) {
      slack.may_end[i] = shift.closes - profile.leg(here, shift.end).minutes;
      continue;
    }
    const auto& spans = shift.options[static_cast<std::size_t>(route[i + 1])].spans;
    const auto latest = latest_start(spans, slack.may_end[i + 1] - stays[i + 1], stays[i + 1]);
    slack.may_end[i] = latest.value_or(shift.opens) - profile.leg(here, place_of(*problem_, route[i + 1])).minutes;
  }
  weighed_ -= costs_[number];
  costs_[number] = cost_of(number);
  weighed_ += costs_[number];
}

Pence Rounds::dearer(std::size_t shift, int job, std::size_t at) const {
  const Profile& profile = profile_of(*problem_, shift);
  const Shift& of = problem_->shifts[shift];
  const Route& route = plan_[shift];
  const int here = place_of(*problem_, job);
  const int before = at == 0 ? of.start : place_of(*problem_, route[at - 1]);
  const Pence there = way_cost(profile, before, here) + of.options[static_cast<std::size_t>(job)].cost;
  if (at < route.size()) {
    const int after = place_of(*problem_, route[at]);
    return there + way_cost(profile, here, after) - way_cost(profile, before, after);
  }
  const Pence home = route.empty() ? 0 : profile.leg(before, of.end).cost;
  return there + profile.leg(here, of.end).cost - home;
}

bool Rounds::in_time(std::size_t number, int job, std::size_t at) const {
  const Shift& shift = problem_->shifts[number];
  const Profile& profile = profile_of(*problem_, number);
  const Route& route = plan_[number];
  if (loads_[number] + problem_->jobs[static_cast<std::size_t>(job)].load > shift.capacity) return false;
  const int here = place_of(*problem_, job);
  const int before = at == 0 ? shift.start : place_of(*problem_, route[at - 1]);
  const Minute left = at == 0 ? shift.opens : slacks_[number].ends[at - 1];
  const Minute stay = stay_of(*problem_, profile, before, job);
  const auto start = earliest_start(shift.options[static_cast<std::size_t>(job)].spans,
                                    left + profile.leg(before, here).minutes, stay);
  if (!start) return false;
  const Minute end = *start + stay;
  if (at == route.size()) {
    if (end + profile.leg(here, shift.end).minutes > shift.closes) return false;
  } else {
    const int after = place_of(*problem_, route[at]);
    const Minute next_stay = stay_of(*problem_, profile, here, route[at]);
    const auto next = earliest_start(shift.options[static_cast<std::size_t>(route[at])].spans,
                                     end + profile.leg(here, after).minutes, next_stay);
    if (!next || *next + next_stay > slacks_[number].may_end[at]) return false;
  }
  if (!needs_all_[number]) return true;
  Route longer = route;
  longer.insert(longer.begin() + static_cast<std::ptrdiff_t>(at), job);
  return times_of(*problem_, shift, longer).has_value();
}

void Rounds::consider(std::size_t shift, int job, int at, Insertion& best) const {
  const Pence cost = dearer(shift, job, static_cast<std::size_t>(at));
  if (best.shift >= 0 && cost >= best.dearer) return;
  if (in_time(shift, job, static_cast<std::size_t>(at))) best = {static_cast<int>(shift), at, cost};
}

void Rounds::insert(int job, const Insertion& place) {
  Route& route = plan_[static_cast<std::size_t>(place.shift)];
  route.insert(route.begin() + place.position, job);
  shift_of_[static_cast<std::size_t>(job)] = place.shift;
  weighed_ -= weights_->of_skipping(problem_->jobs[static_cast<std::size_t>(job)]);
  reckon(static_cast<std::size_t>(place.shift));
}

void Rounds::remove(const std::vector<int>& jobs) {
  std::vector<bool> touched(plan_.size());
  for (const int job : jobs) {
    int& shift = shift_of_[static_cast<std::size_t>(job)];
    if (shift < 0) continue;
    Route& route = plan_[static_cast<std::size_t>(shift)];
    route.erase(std::find(route.begin(), route.end(), job));
    touched[static_cast<std::size_t>(shift)] = true;
    shift = -1;
    weighed_ += weights_->of_skipping(problem_->jobs[static_cast<std::size_t>(job)]);
  }
  for (std::size_t shift = 0; shift < touched.size(); ++shift) {
    if (!touched[shift]) continue;
    reckon(shift);
    // Fewer stops can take longer: what is left may have to set up, or go by a slower way. Then it all comes out.
    if (plan_[shift].empty() || times_of(*problem_, problem_->shifts[shift], plan_[shift])) continue;
    const Route rest = plan_[shift];
    remove(rest);
  }
}

}  // namespace service::routing
