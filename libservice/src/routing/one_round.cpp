#include "routing/one_round.h"

#include <algorithm>

#include "routing/stays.h"
#include "routing/timing.h"

namespace service::routing {
namespace {

constexpr std::size_t most_stops = 16;
constexpr std::size_t most_states = 4'000'000;

// A way to have done a set of stops, ending with one of them.
struct State {
  Minute end = 0;
  Minute busy = 0;
  Minute stay = 0;  // the last one
  Pence cost = 0;
  int before = -1;          // the stop before; -1: none
  std::uint32_t which = 0;  // of its states
};

bool no_worse(const State& a, const State& b, bool meal) {
  return a.end <= b.end && a.cost <= b.cost && (!meal || (a.busy <= b.busy && a.stay <= b.stay));
}

class Sets {
 public:
  Sets(const Problem& problem, const ShiftKind& kind)
      : problem_(problem), kind_(kind), count_(kind.stops.size()), states_((std::size_t{1} << count_) * count_) {}

  std::optional<Route> best() {
    const Shift& shift = *kind_.shift;
    const State start{shift.opens, 0, 0, 0, -1, 0};
    for (std::size_t to = 0; to < count_; ++to) extend(start, -1, 0, 0, to);
    Pence least = 0;
    Route best;
    for (std::size_t set = 1; set < std::size_t{1} << count_; ++set) {
      for (std::size_t last = 0; last < count_; ++last) {
        if ((set >> last & 1U) == 0) continue;
        const auto& states = at(set, last);
        for (std::size_t i = 0; i < states.size(); ++i) {
          const State state = states[i];
          const Pence whole = state.cost + kind_.home_cost[last];
          if (whole < least) {
            Route route = route_of(set, last, i);
            if (times_of(problem_, shift, route)) {
              least = whole;
              best = std::move(route);
            }
          }
          for (std::size_t to = 0; to < count_; ++to) {
            if ((set >> to & 1U) == 0) extend(state, static_cast<int>(last), i, set, to);
          }
        }
        if (made_ > most_states) return std::nullopt;
      }
    }
    return best;
  }

 private:
  std::vector<State>& at(std::size_t set, std::size_t last) { return states_[set * count_ + last]; }

  void extend(const State& from, int before, std::size_t which, std::size_t set, std::size_t to) {
    const Way& way = kind_.way(before < 0 ? kind_.start() : before, static_cast<int>(to));
    const auto start = earliest_start(*kind_.stops[to].spans, from.end + way.drive, way.stay);
    if (!start || *start + way.stay + kind_.quickest_home[to] > kind_.shift->closes) return;
    const State state{*start + way.stay,
                      from.busy + way.drive + way.stay,
                      way.stay,
                      from.cost + way.cost,
                      before,
                      static_cast<std::uint32_t>(which)};
    // Those of smaller sets keep their places: later ones refer to them.
    auto& states = at(set | std::size_t{1} << to, to);
    const bool meal = kind_.meal_counts;
    if (std::any_of(states.begin(), states.end(), [&](const State& other) { return no_worse(other, state, meal); }))
      return;
    made_ += 1;
    std::erase_if(states, [&](const State& other) { return no_worse(state, other, meal); });
    states.push_back(state);
  }

  Route route_of(std::size_t set, std::size_t last, std::size_t which) {
    Route route;
    while (true) {
      route.push_back(kind_.stops[last].job);
      const State& state = at(set, last)[which];
      if (state.before < 0) break;
      set &= ~(std::size_t{1} << last);
      last = static_cast<std::size_t>(state.before);
      which = state.which;
    }
    std::reverse(route.begin(), route.end());
    return route;
  }

  const Problem& problem_;
  const ShiftKind& kind_;
  std::size_t count_;
  std::size_t made_ = 0;
  std::vector<std::vector<State>> states_;  // [set * stops + last]; a set is finished before a larger one is begun
};

}  // namespace

std::optional<Route> best_round(const Problem& problem, const ShiftKind& kind) {
  if (kind.stops.size() > most_stops || kind.duty_counts || kind.load_counts) return std::nullopt;
  return Sets(problem, kind).best();
}

}  // namespace service::routing
