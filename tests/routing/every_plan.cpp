#include "routing/every_plan.h"

#include <algorithm>
#include <set>
#include <vector>

#include "routing/dice.h"

namespace test {

std::optional<std::pair<Minute, Minute>> back_and_leaving(const Problem& problem, const Shift& shift,
                                                          const Route& route) {
  const Profile& profile = problem.profiles[static_cast<std::size_t>(shift.profile)];
  std::optional<std::pair<Minute, Minute>> best;
  for (Minute leaves = shift.opens; leaves <= shift.closes; ++leaves) {
    std::set<Minute> ends = {leaves};
    int place = shift.start;
    Minute busy = 0;
    int load = 0;
    for (const int number : route) {
      const Job& job = problem.jobs[static_cast<std::size_t>(number)];
      const Option& option = shift.options[static_cast<std::size_t>(number)];
      const Minute drive = profile.leg(place, job.place).minutes;
      const Minute stay =
          job.work + (place == job.place ? 0 : profile.set_ups[static_cast<std::size_t>(job.place)].minutes);
      busy += drive + stay;
      load += job.load;
      std::set<Minute> next;
      for (const Span& span : option.spans) {
        for (Minute start = span.from; !ends.empty() && start + stay <= span.to; ++start) {
          if (option.possible && start >= *ends.begin() + drive) next.insert(start + stay);
        }
      }
      ends = std::move(next);
      place = job.place;
    }
    const Minute home = profile.leg(place, shift.end).minutes;
    busy += home;
    for (const Minute end : ends) {
      const Minute back = end + home;
      if (load > shift.capacity || back > shift.closes || back - leaves > shift.duty ||
          back - leaves - busy < shift.meal) {
        continue;
      }
      if (!best || back < best->first || (back == best->first && leaves > best->second)) best = {back, leaves};
    }
  }
  return best;
}

Problem random_problem(std::uint64_t seed, const Size& most) {
  Dice dice(seed);
  const auto from_to = [&](int from, int to) {
    return from + static_cast<int>(dice.below(static_cast<std::size_t>(to - from + 1)));
  };
  Problem problem;
  const int places = from_to(2, 5);
  Profile profile;
  profile.places = places;
  for (int from = 0; from < places; ++from) {
    for (int to = 0; to < places; ++to) {
      const Minute minutes = from == to ? 0 : from_to(0, 15);
      profile.legs.push_back({minutes, minutes * from_to(3, 9)});
    }
    const Minute set_up = from_to(0, 6);
    profile.set_ups.push_back({set_up, set_up * 2});
  }
  problem.profiles.push_back(profile);
  if (from_to(0, 2) == 0) {  // another crew's costs and speed
    for (Leg& leg : profile.legs) leg.cost += from_to(0, 5), leg.minutes = leg.minutes * 3 / 4;
    for (int place = 0; place < places; ++place) {
      profile.legs[static_cast<std::size_t>(place * places + place)] = {};
    }
    problem.profiles.push_back(profile);
  }
  const int jobs = from_to(1, most.jobs);
  for (int j = 0; j < jobs; ++j) {
    const int rank = from_to(0, 9);
    problem.jobs.push_back({from_to(0, places - 1), from_to(0, 25), from_to(0, 200),
                            rank == 0  ? Rank::promise
                            : rank < 3 ? Rank::safety
                                       : Rank::money,
                            from_to(0, 3)});
  }
  const bool loads = from_to(0, 3) == 0;
  const int shifts = from_to(1, most.shifts);
  for (int s = 0; s < shifts; ++s) {
    if (s > 0 && from_to(0, 3) == 0) {  // just like another
      problem.shifts.push_back(problem.shifts.front());
      continue;
    }
    Shift shift;
    shift.profile = from_to(0, static_cast<int>(problem.profiles.size()) - 1);
    shift.start = from_to(0, places - 1);
    shift.end = from_to(0, 3) != 0 ? shift.start : from_to(0, places - 1);
    shift.opens = from_to(0, 20);
    shift.closes = shift.opens + from_to(20, 110);
    if (from_to(0, 2) == 0) shift.duty = from_to(15, 80);
    if (from_to(0, 2) == 0) shift.meal = from_to(1, 20);
    if (loads) shift.capacity = from_to(2, 7);
    for (int j = 0; j < jobs; ++j) {
      Option option;
      option.possible = from_to(0, 7) != 0;
      option.cost = from_to(0, 60);
      Minute at = from_to(0, 30);
      const int spans = from_to(1, 3);
      for (int i = 0; option.possible && i < spans; ++i) {
        const Minute to = at + from_to(5, 70);
        option.spans.push_back({at, to});
        at = to + from_to(1, 20);
      }
      shift.options.push_back(std::move(option));
    }
    problem.shifts.push_back(std::move(shift));
  }
  return problem;
}

namespace {

// The cheapest cost of each set of jobs in a shift; -1: it cannot be done.
std::vector<Pence> cheapest_by_set(const Problem& problem, const Shift& shift, const Possible& possible) {
  const std::size_t jobs = problem.jobs.size();
  std::vector<Pence> cheapest(std::size_t{1} << jobs, -1);
  cheapest[0] = 0;
  for (std::size_t set = 1; set < cheapest.size(); ++set) {
    Route route;
    for (std::size_t j = 0; j < jobs; ++j) {
      if ((set >> j & 1U) != 0) route.push_back(static_cast<int>(j));
    }
    do {
      Pence cost = 0;
      const Profile& profile = problem.profiles[static_cast<std::size_t>(shift.profile)];
      int place = shift.start;
      for (const int job : route) {
        const int next = problem.jobs[static_cast<std::size_t>(job)].place;
        cost += profile.leg(place, next).cost + shift.options[static_cast<std::size_t>(job)].cost;
        if (next != place) cost += profile.set_ups[static_cast<std::size_t>(next)].cost;
        place = next;
      }
      cost += profile.leg(place, shift.end).cost;
      if ((cheapest[set] < 0 || cost < cheapest[set]) && possible(shift, route)) cheapest[set] = cost;
    } while (std::next_permutation(route.begin(), route.end()));
  }
  return cheapest;
}

}  // namespace

Value best_value(const Problem& problem, const Possible& possible) {
  const std::size_t jobs = problem.jobs.size();
  std::vector<std::vector<Pence>> cheapest;
  for (const Shift& shift : problem.shifts) cheapest.push_back(cheapest_by_set(problem, shift, possible));
  std::optional<Value> best;
  const auto go_on = [&](auto&& self, std::size_t shift, std::size_t done, Pence cost) -> void {
    if (shift == cheapest.size()) {
      Value value{0, 0, cost};
      for (std::size_t j = 0; j < jobs; ++j) {
        if ((done >> j & 1U) != 0) continue;
        value.money += problem.jobs[j].skip;
        value.safety += problem.jobs[j].rank == Rank::safety;
        value.promises += problem.jobs[j].rank == Rank::promise;
      }
      if (!best || value < *best) best = value;
      return;
    }
    const auto& sets = cheapest[shift];
    for (std::size_t set = 0; set < sets.size(); ++set) {
      if (sets[set] >= 0 && (set & done) == 0) self(self, shift + 1, done | set, cost + sets[set]);
    }
  };
  go_on(go_on, 0, 0, 0);
  return *best;
}

}  // namespace test
