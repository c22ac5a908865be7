#include "routing/timing.h"

#include <algorithm>
#include <cstdlib>

#include "routing/stays.h"

namespace service::routing {
namespace {

const Option& option_of(const Shift& shift, int job) { return shift.options[static_cast<std::size_t>(job)]; }

// A route with its lengths: what of it does not depend on the clock.
struct Lengths {
  struct Stop {
    const Option* option = nullptr;
    Minute drive = 0;  // that leads to it
    Minute set_up = 0;
    Minute stay = 0;
  };
  std::vector<Stop> stops;
  Minute home = 0;
  Minute driving = 0;
  Minute set_up = 0;
  Minute work = 0;
  int load = 0;
  bool possible = true;
  Minute busy() const { return driving + set_up + work; }
};

Lengths lengths_of(const Problem& problem, const Shift& shift, const Route& route) {
  const Profile& profile = problem.profiles[static_cast<std::size_t>(shift.profile)];
  Lengths lengths;
  int place = shift.start;
  for (const int number : route) {
    const Job& job = problem.jobs[static_cast<std::size_t>(number)];
    const Option& option = option_of(shift, number);
    Lengths::Stop stop{&option, profile.leg(place, job.place).minutes};
    if (job.place != place) stop.set_up = profile.set_ups[static_cast<std::size_t>(job.place)].minutes;
    stop.stay = stop.set_up + job.work;
    lengths.driving += stop.drive;
    lengths.set_up += stop.set_up;
    lengths.work += job.work;
    lengths.load += job.load;
    lengths.possible = lengths.possible && option.possible;
    lengths.stops.push_back(stop);
    place = job.place;
  }
  lengths.home = profile.leg(place, shift.end).minutes;
  lengths.driving += lengths.home;
  return lengths;
}

// The earliest starts of all stops when leaving then; with the meal in it, which is waited out before the last stop.
std::optional<std::vector<Minute>> earliest_starts(const Lengths& lengths, Minute leaves, Minute meal) {
  std::vector<Minute> starts;
  Minute at = leaves;
  for (const Lengths::Stop& stop : lengths.stops) {
    at += stop.drive;
    if (&stop == &lengths.stops.back()) at = std::max(at, leaves + lengths.busy() + meal - lengths.home - stop.stay);
    const auto start = earliest_start(stop.option->spans, at, stop.stay);
    if (!start) return std::nullopt;
    starts.push_back(*start);
    at = *start + stop.stay;
  }
  return starts;
}

// The starts before that stop as late as it allows, with so long a wait before it.
void put_late(const Lengths& lengths, std::vector<Minute>& starts, std::size_t before, Minute wait = 0) {
  for (std::size_t i = before; i-- > 0; wait = 0) {
    const Minute until = starts[i + 1] - wait - lengths.stops[i + 1].drive - lengths.stops[i].stay;
    starts[i] = latest_start(lengths.stops[i].option->spans, until, lengths.stops[i].stay).value_or(starts[i]);
  }
}

// Before that stop, which is not the first one.
Minute wait_before(const Lengths& lengths, const std::vector<Minute>& starts, std::size_t stop) {
  return starts[stop] - lengths.stops[stop].drive - starts[stop - 1] - lengths.stops[stop - 1].stay;
}

// Nobody eats before his work begins if it can be helped: the meal in one piece between two stays, as near to the
// middle of the round as it goes, where leaving and coming back as they are leave room for that.
void put_meal_between(const Lengths& lengths, const Times& times, Minute meal, std::vector<Minute>& starts) {
  const auto early = earliest_starts(lengths, times.leaves, 0);
  if (meal == 0 || !early) return;
  std::size_t best = 0;
  Minute off_middle = 0;
  for (std::size_t i = 1; i < starts.size(); ++i) {
    if (wait_before(lengths, starts, i) >= meal) return;  // it is there anyway
    const Minute over = starts[i] - lengths.stops[i].drive - (*early)[i - 1] - lengths.stops[i - 1].stay - meal;
    const Minute off = std::abs(2 * starts[i] - meal - times.leaves - times.back);
    if (over < 0 || (best != 0 && off >= off_middle)) continue;
    best = i;
    off_middle = off;
  }
  if (best != 0) put_late(lengths, starts, best, meal);
}

}  // namespace

std::optional<Times> times_of(const Problem& problem, const Shift& shift, const Route& route) {
  const Lengths lengths = lengths_of(problem, shift, route);
  if (!lengths.possible || lengths.load > shift.capacity || lengths.stops.empty()) return std::nullopt;
  // Leaving later never brings a crew back earlier. So it leaves as early as it may, unless the day would be too long
  // for its duty: then as late as that asks, which may bring it back later still, and so on.
  Minute leaves = shift.opens;
  std::vector<Minute> starts;
  Minute back = 0;
  while (true) {
    auto earliest = earliest_starts(lengths, leaves, shift.meal);
    if (!earliest) return std::nullopt;
    starts = std::move(*earliest);
    back = starts.back() + lengths.stops.back().stay + lengths.home;
    if (back > shift.closes) return std::nullopt;
    if (shift.duty >= back - leaves) break;
    leaves = back - shift.duty;
  }
  put_late(lengths, starts, starts.size() - 1);
  Times times{std::min(starts.front() - lengths.stops.front().drive, back - lengths.busy() - shift.meal),
              back,
              lengths.driving,
              lengths.set_up,
              lengths.work,
              {}};
  put_meal_between(lengths, times, shift.meal, starts);
  Minute at = times.leaves;
  for (std::size_t i = 0; i < starts.size(); ++i) {
    const Lengths::Stop& stop = lengths.stops[i];
    times.stops.push_back({at + stop.drive, starts[i], starts[i] + stop.stay, stop.set_up});
    at = starts[i] + stop.stay;
  }
  return times;
}

std::vector<MealPiece> meal_of(const Shift& shift, const Times& times) {
  std::vector<MealPiece> waits;  // behind the first stay, the longest first
  for (std::size_t i = 1; i < times.stops.size(); ++i) {
    waits.push_back({i, times.stops[i].starts - times.stops[i].arrives});
  }
  const auto off_middle = [&](const MealPiece& wait) {
    return std::abs(2 * times.stops[wait.stop].starts - shift.meal - times.leaves - times.back);
  };
  std::stable_sort(waits.begin(), waits.end(), [&](const MealPiece& a, const MealPiece& b) {
    const bool whole = a.minutes >= shift.meal && b.minutes >= shift.meal;
    return whole ? off_middle(a) < off_middle(b) : a.minutes > b.minutes;
  });
  const bool one_before = !times.stops.empty() && times.stops[0].starts - times.stops[0].arrives >= shift.meal;
  Minute between = 0;
  for (const MealPiece& wait : waits) between += wait.minutes;
  Minute left = shift.meal;
  std::vector<MealPiece> pieces;
  for (const MealPiece& wait : waits) {
    if (left == 0 || wait.minutes == 0 || (between < shift.meal && one_before)) break;
    pieces.push_back({wait.stop, std::min(left, wait.minutes)});
    left -= pieces.back().minutes;
  }
  if (left > 0) pieces.push_back({0, left});
  std::sort(pieces.begin(), pieces.end(), [](const MealPiece& a, const MealPiece& b) { return a.stop < b.stop; });
  return pieces;
}

bool meal_before_work(const Shift& shift, const Times& times) {
  const auto meal = meal_of(shift, times);
  return !meal.empty() && meal.front().stop == 0;
}

std::optional<Route> with_job(const Problem& problem, const Shift& shift, const Route& route, int job) {
  std::optional<Route> best;
  for (std::size_t at = 0; at <= route.size(); ++at) {
    Route with = route;
    with.insert(with.begin() + static_cast<std::ptrdiff_t>(at), job);
    if (best && travel_of(problem, shift, with) >= travel_of(problem, shift, *best)) continue;
    if (times_of(problem, shift, with)) best = std::move(with);
  }
  return best;
}

Pence travel_of(const Problem& problem, const Shift& shift, const Route& route) {
  if (route.empty()) return 0;
  const Profile& profile = problem.profiles[static_cast<std::size_t>(shift.profile)];
  Pence cost = 0;
  int place = shift.start;
  for (const int number : route) {
    const int next = problem.jobs[static_cast<std::size_t>(number)].place;
    cost += profile.leg(place, next).cost;
    if (next != place) cost += profile.set_ups[static_cast<std::size_t>(next)].cost;
    place = next;
  }
  return cost + profile.leg(place, shift.end).cost;
}

Value value_of(const Problem& problem, const Plan& plan) {
  Value value;
  std::vector<bool> done(problem.jobs.size());
  for (std::size_t s = 0; s < plan.size(); ++s) {
    value.money += travel_of(problem, problem.shifts[s], plan[s]);
    for (const int job : plan[s]) {
      value.money += option_of(problem.shifts[s], job).cost;
      done[static_cast<std::size_t>(job)] = true;
    }
  }
  for (std::size_t j = 0; j < problem.jobs.size(); ++j) {
    if (done[j]) continue;
    value.money += problem.jobs[j].skip;
    if (problem.jobs[j].rank == Rank::safety) ++value.safety;
    if (problem.jobs[j].rank == Rank::promise) ++value.promises;
  }
  return value;
}

}  // namespace service::routing
