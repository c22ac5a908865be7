#include "visits/trip_stays.h"

#include <algorithm>
#include <numeric>

#include "visits/opening.h"

namespace service::visits::trip {
namespace {

using Loads = std::vector<int>;  // minutes of work in each span

// The gate is not waited at before somebody can be there, nor after he has to leave.
std::vector<ClockSpan> reached(const TripHours& hours) {
  return in_both(hours.open, {{hours.leaves + hours.there, hours.back - hours.home}});
}

// When the crew is back that leaves then; none: one of these stays ends too late for its span. What is left of the meal
// is eaten before the last stay at the latest.
std::optional<int> back_from(const TripHours& hours, const Loads& loads, int leaves) {
  const int work = std::accumulate(loads.begin(), loads.end(), 0);
  int at = leaves + hours.there;
  int set_up = hours.set_up;
  std::size_t last = loads.size();
  while (last > 1 && loads[last - 1] == 0) --last;
  for (std::size_t i = 0; i < last; ++i) {
    if (loads[i] == 0 && i + 1 < last) continue;
    int ends = std::max(at, hours.open[i].from) + set_up + loads[i];
    if (i + 1 == last) ends = std::max(ends, leaves + hours.there + hours.meal + hours.set_up + work);
    if (ends > hours.open[i].to) return std::nullopt;
    at = ends;
    set_up = 0;
  }
  return at + hours.home;
}

bool holds_shared(const TripHours& hours, const Loads& loads) {
  int leaves = hours.leaves;
  while (true) {
    const auto back = back_from(hours, loads, leaves);
    if (!back || *back > hours.back) return false;
    if (!hours.duty || *back - leaves <= *hours.duty) return true;
    leaves = *back - *hours.duty;  // a long day begins later, which may end it later still
  }
}

// All ways in which stays can be shared out to spans, by their sums.
std::vector<Loads> shares_of(const TripHours& hours, const std::vector<int>& stays) {
  std::vector<Loads> shares{Loads(hours.open.size())};
  for (const int stay : stays) {
    std::vector<Loads> next;
    for (const Loads& share : shares) {
      for (std::size_t i = 0; i < share.size(); ++i) {
        if (share[i] + stay > hours.open[i].to - hours.open[i].from) continue;
        next.push_back(share);
        next.back()[i] += stay;
      }
    }
    std::sort(next.begin(), next.end());
    next.erase(std::unique(next.begin(), next.end()), next.end());
    shares = std::move(next);
  }
  return shares;
}

}  // namespace

TripHours hours_of(const CrewDay& day, const Trip& trip, std::vector<ClockSpan> open) {
  TripHours hours;
  hours.leaves = day.hours.from;
  hours.back = day.hours.to;
  if (day.duty) hours.duty = static_cast<int>(day.duty->count());
  hours.meal = static_cast<int>(day.crew->meal.count());
  hours.there = trip.there.minutes;
  hours.home = trip.home.minutes;
  hours.set_up = trip.set_up_minutes;
  hours.open = std::move(open);
  hours.open = reached(hours);
  return hours;
}

TripHours without_gate(TripHours hours) {
  constexpr int minutes_of_a_day = 24 * 60;
  hours.open = {{0, minutes_of_a_day}};
  hours.open = reached(hours);
  return hours;
}

int most_work(const TripHours& hours) {
  int away = hours.back - hours.leaves;
  if (hours.duty) away = std::min(away, *hours.duty);
  int there = 0;
  for (const ClockSpan& span : hours.open) there += span.to - span.from;
  if (there == 0) return -1;
  return std::min(away - hours.meal - hours.there - hours.home, there) - hours.set_up;
}

int longest_stay(const TripHours& hours) {
  // What is shorter fits where something longer does.
  int fits = -1;
  int too_long = most_work(hours) + 1;
  while (too_long - fits > 1) {
    const int stay = fits + (too_long - fits) / 2;
    (holds(hours, {stay}) ? fits : too_long) = stay;
  }
  return fits;
}

int longest_behind(const TripHours& hours) {
  int longest = -1;
  for (const ClockSpan& span : hours.open) longest = std::max(longest, span.to - span.from);
  return std::min(longest, most_work(hours));
}

bool holds(const TripHours& hours, const std::vector<int>& stays) {
  const int work = std::accumulate(stays.begin(), stays.end(), 0);
  if (work > most_work(hours)) return false;
  if (work == 0) {
    return std::any_of(hours.open.begin(), hours.open.end(), [&](const ClockSpan& span) {
      TripHours one = hours;
      one.open = {span};
      return holds_shared(one, {0});
    });
  }
  if (hours.open.size() == 1) return holds_shared(hours, {work});
  std::vector<int> longest_first = stays;
  std::sort(longest_first.begin(), longest_first.end(), std::greater<>());
  const auto shares = shares_of(hours, longest_first);
  return std::any_of(shares.begin(), shares.end(), [&](const Loads& share) { return holds_shared(hours, share); });
}

}  // namespace service::visits::trip
