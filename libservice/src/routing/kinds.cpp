#include "routing/kinds.h"

#include <algorithm>

#include "routing/stays.h"

namespace service::routing {
namespace {

constexpr Minute most_leavings = 32;

bool alike(const Option& a, const Option& b) {
  return a.possible == b.possible && (!a.possible || (a.cost == b.cost && a.spans == b.spans));
}

bool alike(const Shift& a, const Shift& b) {
  return a.profile == b.profile && a.start == b.start && a.end == b.end && a.opens == b.opens && a.closes == b.closes &&
         a.duty == b.duty && a.meal == b.meal && a.capacity == b.capacity &&
         std::equal(a.options.begin(), a.options.end(), b.options.begin(), b.options.end(),
                    [](const Option& x, const Option& y) { return alike(x, y); });
}

// Between all places, by way of whichever others.
std::vector<Minute> quickest_between(const Profile& profile) {
  const auto places = static_cast<std::size_t>(profile.places);
  std::vector<Minute> quickest;
  for (const Leg& leg : profile.legs) quickest.push_back(leg.minutes);
  for (std::size_t by = 0; by < places; ++by) {
    for (std::size_t from = 0; from < places; ++from) {
      for (std::size_t to = 0; to < places; ++to) {
        Minute& known = quickest[from * places + to];
        known = std::min(known, quickest[from * places + by] + quickest[by * places + to]);
      }
    }
  }
  return quickest;
}

void lay_out(const Problem& problem, const Weights& weights, ShiftKind& kind) {
  const Shift& shift = *kind.shift;
  const Profile& profile = problem.profiles[static_cast<std::size_t>(shift.profile)];
  int loads = 0;
  for (std::size_t j = 0; j < problem.jobs.size(); ++j) {
    const Job& job = problem.jobs[j];
    const Option& option = shift.options[j];
    const int number = static_cast<int>(j);
    // One that is not possible alone may be behind another at its place, which has done the setting up.
    if (!option.possible) continue;
    kind.stops.push_back({number, job.place, job.work, profile.set_ups[static_cast<std::size_t>(job.place)].minutes,
                          job.load, &option.spans, option.spans.size() == 1});
    loads += job.load;
  }
  const std::size_t count = kind.stops.size();
  kind.ways.resize((count + 1) * count);
  for (std::size_t from = 0; from <= count; ++from) {
    const int place = from == count ? shift.start : kind.stops[from].place;
    for (std::size_t to = 0; to < count; ++to) {
      const Stop& stop = kind.stops[to];
      const Leg& leg = profile.leg(place, stop.place);
      Way& way = kind.ways[from * count + to];
      const Job& job = problem.jobs[static_cast<std::size_t>(stop.job)];
      way = {leg.minutes, stop.work,
             leg.cost + shift.options[static_cast<std::size_t>(stop.job)].cost - weights.of_skipping(job)};
      if (place == stop.place) continue;
      const Leg& set_up = profile.set_ups[static_cast<std::size_t>(stop.place)];
      way.stay += set_up.minutes;
      way.cost += set_up.cost;
    }
  }
  for (const Stop& stop : kind.stops) {
    for (const Minute stay : {stop.work, stop.set_up + stop.work}) {
      for (Minute at = shift.opens; at <= shift.closes; ++at) {
        const auto start = earliest_start(*stop.spans, at, stay);
        kind.ends.push_back(start && *start + stay <= shift.closes ? *start + stay : never);
      }
    }
  }
  for (const Stop& stop : kind.stops) {
    const Leg& leg = profile.leg(stop.place, shift.end);
    kind.home_minutes.push_back(leg.minutes);
    kind.home_cost.push_back(leg.cost);
  }
  const std::vector<Minute> quickest = quickest_between(profile);
  for (const Stop& from : kind.stops) {
    kind.quickest_home.push_back(quickest[static_cast<std::size_t>(from.place * profile.places + shift.end)]);
    for (const Stop& to : kind.stops) {
      kind.quickest_ways.push_back(quickest[static_cast<std::size_t>(from.place * profile.places + to.place)]);
    }
  }
  kind.duty_counts = shift.duty < shift.closes - shift.opens;
  kind.meal_counts = shift.meal > 0;
  kind.load_counts = loads > shift.capacity;
  const bool one_span =
      std::all_of(kind.stops.begin(), kind.stops.end(), [](const Stop& stop) { return stop.one_span; });
  if (!kind.duty_counts || one_span) return;
  const Minute choice = shift.closes - shift.duty - shift.opens + 1;  // leaving later never helps
  const Minute apart = (choice + most_leavings - 1) / most_leavings;
  for (Minute from = 0; from < choice; from += apart) {
    kind.leavings.push_back({shift.opens + from, shift.opens + std::min(from + apart, choice) - 1});
  }
  kind.duty_exact = apart == 1;
}

}  // namespace

std::vector<ShiftKind> kinds_of(const Problem& problem, const Weights& weights) {
  std::vector<ShiftKind> kinds;
  for (std::size_t s = 0; s < problem.shifts.size(); ++s) {
    const Shift& shift = problem.shifts[s];
    const auto same =
        std::find_if(kinds.begin(), kinds.end(), [&](const ShiftKind& kind) { return alike(*kind.shift, shift); });
    if (same != kinds.end()) {
      same->shifts.push_back(static_cast<int>(s));
      continue;
    }
    ShiftKind& kind = kinds.emplace_back();
    kind.shifts = {static_cast<int>(s)};
    kind.shift = &shift;
    lay_out(problem, weights, kind);
  }
  return kinds;
}

}  // namespace service::routing
