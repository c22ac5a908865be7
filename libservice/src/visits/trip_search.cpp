#include "visits/trip_search.h"

#include <algorithm>
#include <optional>

namespace service::visits::trip {
namespace {

// With more services than these, it is not tried to push one out by another.
constexpr std::size_t most_to_push_out = 120;

// With more services times crew-days than these, what is tried is not followed up by moves of what may go along.
constexpr std::size_t most_to_follow_up = 20'000;

// Looks at a crew-day for a service, and what takes about as long. Moves are tried to their end; all else stops then.
constexpr std::size_t most_steps = 5'000'000;
constexpr std::size_t time_steps = 30;  // that reckoning a trip's time takes

// So many crew-days before and behind are near.
constexpr int near = 12;

class Search {
 public:
  Search(const SiteModel& model, Places places, std::size_t& steps)
      : model_(model),
        places_(std::move(places)),
        trips_(trips_of(model, places_)),
        rank_(rank_of(model, places_)),
        steps_(steps) {}

  Places run() {
    do {
      settle();
    } while (steps_ > 0 && (give_up_trips() || push_out() || make_trips() || shift_trips()));
    return std::move(places_);
  }

 private:
  // These points go to that slot, or nowhere.
  struct Move {
    std::vector<int> points;
    int to = nowhere;
  };

  void settle() {
    while (move_some()) {
    }
  }

  // Small sites are searched more thoroughly: what is tried there is followed up.
  bool is_small() const { return places_.size() * model_.slots.size() <= most_to_follow_up; }

  bool taken_if_better(Search& other) {
    if (is_small()) other.settle();
    if (other.rank_ >= rank_) return false;
    take(other);
    return true;
  }

  void take(Search& other) {
    places_ = std::move(other.places_);
    trips_ = std::move(other.trips_);
    rank_ = other.rank_;
  }

  const std::vector<int>& trip(int at) const { return trips_[slot(at)]; }

  void apply(const Move& move) {
    for (const int point : move.points) {
      int& at = places_[slot(point)];
      if (at != nowhere) std::erase(trips_[slot(at)], point);
      at = move.to;
      if (at == nowhere) continue;
      auto& there = trips_[slot(at)];
      there.insert(std::lower_bound(there.begin(), there.end(), point), point);
    }
    rank_ = rank_of(model_, places_);
  }

  Rank after(const Move& move) {
    count(places_.size());
    before_.clear();
    for (const int point : move.points) {
      before_.push_back(places_[slot(point)]);
      places_[slot(point)] = move.to;
    }
    const Rank rank = rank_of(model_, places_);
    for (std::size_t i = 0; i < move.points.size(); ++i) places_[slot(move.points[i])] = before_[i];
    return rank;
  }

  bool may(const std::vector<int>& points, int to) const {
    return std::all_of(points.begin(), points.end(), [&](int point) { return model_.may[slot(point)][slot(to)]; });
  }

  bool may(const Move& move) const { return may(move.points, move.to); }

  void count(std::size_t steps) { steps_ -= std::min(steps_, steps); }

  // Once these are gone from where it goes.
  bool has_time_for(const Move& move, const std::vector<int>& gone = {}) {
    count(time_steps);
    std::vector<int> all = trip(move.to);
    std::erase_if(all, [&](int point) { return std::find(gone.begin(), gone.end(), point) != gone.end(); });
    for (const int point : move.points) {
      if (places_[slot(point)] != move.to) all.push_back(point);
    }
    return has_time(model_, move.to, all) && std::all_of(move.points.begin(), move.points.end(), [&](int point) {
             return places_[slot(point)] == nowhere || stays_in_time(places_[slot(point)], point, move);
           });
  }

  // What was included there takes its own time where the one that includes it goes without it.
  bool stays_in_time(int at, int goes, const Move& move) const {
    const auto moves = [&](int point) {
      return std::find(move.points.begin(), move.points.end(), point) != move.points.end();
    };
    bool longer = false;
    std::vector<int> left;
    for (const int point : trip(at)) {
      if (moves(point)) continue;
      left.push_back(point);
      const auto& outer = model_.included_in[slot(point)];
      longer = longer || std::find(outer.begin(), outer.end(), goes) != outer.end();
    }
    return !longer || has_time(model_, at, left);
  }

  // Whether more than money may become better by moves.
  bool only_money() const { return rank_.unsafe == 0 && rank_.late_days == 0 && rank_.left == 0 && rank_.twice == 0; }

  // What is moved together: a service, with what it includes, all that is done at its machine, the whole trip.
  std::vector<std::vector<int>> chunks_of(int point) const {
    if (places_[slot(point)] == nowhere) return {{point}};
    const auto& points = trip(places_[slot(point)]);
    std::vector<int> of_machine;
    for (const int other : points) {
      if (machine(other) == machine(point)) of_machine.push_back(other);
    }
    std::vector<std::vector<int>> chunks{{point}, with_included(model_, point, points), of_machine, points};
    chunks.erase(std::unique(chunks.begin(), chunks.end()), chunks.end());
    return chunks;
  }

  const Machine* machine(int point) const { return model_.points[slot(point)].point->machine; }

  bool move_some() {
    bool moved = false;
    for (int point = 0; point < static_cast<int>(places_.size()); ++point) {
      for (const auto& chunk : chunks_of(point)) {
        const auto move = best_move(chunk);
        if (!move) continue;
        apply(*move);
        moved = true;
        break;
      }
    }
    return moved;
  }

  // Of points that are all on one trip, or of one that is nowhere.
  std::optional<Move> best_move(const std::vector<int>& chunk) {
    std::optional<Move> best;
    Rank best_rank = rank_;
    const int at = places_[slot(chunk.front())];
    const Cost here = cost_at(chunk, at);
    count(model_.slots.size());
    for (int to = 0; to < static_cast<int>(model_.slots.size()); ++to) {
      if (to == at || !may(chunk, to)) continue;
      if (only_money() && here - cost_at(chunk, to) <= rank_.cost - best_rank.cost) continue;
      const Move move{chunk, to};
      const Rank rank = after(move);
      if (rank >= best_rank || !has_time_for(move)) continue;
      best = move;
      best_rank = rank;
    }
    return best;
  }

  // Of these points there, with the trip where it is made for them alone.
  Cost cost_at(const std::vector<int>& points, int at) const {
    Cost cost = 0;
    if (at == nowhere) {
      for (const int point : points) cost += model_.left[slot(point)];
      return cost;
    }
    for (const int point : points) cost += model_.costs[slot(point)][slot(at)];
    const bool there = places_[slot(points.front())] == at;
    return trip(at).size() == (there ? points.size() : 0) ? cost + model_.slots[slot(at)].cost : cost;
  }

  // Something takes the place of something else, which goes where it costs least then.
  bool push_out() {
    if (places_.size() > most_to_push_out) return false;
    bool better = false;
    for (int point = 0; point < static_cast<int>(places_.size()); ++point) {
      for (int to = 0; to < static_cast<int>(trips_.size()) && steps_ > 0; ++to) {
        if (trip(to).empty()) continue;
        for (const auto& chunk : chunks_of(point)) {
          if (to == places_[slot(point)] || !may(chunk, to) || !pushed_out({chunk, to})) continue;
          settle();
          better = true;
          break;
        }
      }
    }
    return better;
  }

  bool pushed_out(const Move& move) {
    const Cost gain = cost_at(move.points, places_[slot(move.points.front())]) - cost_at(move.points, move.to);
    for (const int out : std::vector<int>(trip(move.to))) {
      for (const auto& chunk : chunks_of(out)) {
        if (only_money() && !may_help(gain, chunk, move.to)) continue;
        count(model_.slots.size());
        if (!has_time_for(move, chunk)) continue;
        Search other = *this;
        other.apply({chunk, nowhere});
        other.apply(move);
        other.put_back(chunk);
        if (other.rank_ >= rank_) continue;
        take(other);
        return true;
      }
    }
    return false;
  }

  // Where it goes it costs at least what it costs on the cheapest of all days.
  bool may_help(Cost gain, const std::vector<int>& out, int from) const {
    for (const int point : out) {
      const auto& costs = model_.costs[slot(point)];
      gain += costs[slot(from)] - *std::min_element(costs.begin(), costs.end());
    }
    return gain + model_.slots[slot(from)].cost > 0;
  }

  // A trip on a day near to it, though that alone is dearer: for what else may go along then.
  bool shift_trips() {
    bool better = false;
    const auto count = static_cast<int>(trips_.size());
    for (int at = 0; at < count && is_small(); ++at) {
      for (int to = std::max(0, at - near); to <= std::min(count - 1, at + near) && steps_ > 0; ++to) {
        if (trip(at).empty() || !trip(to).empty()) continue;
        Search other = *this;
        other.shift(at, to);
        better = taken_if_better(other) || better;
      }
    }
    return better;
  }

  void shift(int at, int to) {
    for (const int point : longest_first(trip(at))) {
      const Move move{{point}, to};
      if (may(move) && has_time_for(move)) apply(move);
    }
  }

  std::vector<int> longest_first(std::vector<int> points) const {
    std::stable_sort(points.begin(), points.end(),
                     [&](int a, int b) { return model_.points[slot(a)].minutes > model_.points[slot(b)].minutes; });
    return points;
  }

  // The work of one trip, the longest first, each where it costs least then.
  bool give_up_trips() {
    bool better = false;
    for (int at = 0; at < static_cast<int>(trips_.size()) && steps_ > 0; ++at) {
      if (trip(at).empty()) continue;
      Search other = *this;
      other.empty(at);
      better = taken_if_better(other) || better;
    }
    return better;
  }

  void empty(int at) {
    const std::vector<int> points = longest_first(trip(at));
    apply({points, nowhere});
    for (const int point : points) put_back({point}, at);
  }

  // What goes nowhere goes where it costs least, but there; as long as there is such a place.
  void put_back(const std::vector<int>& points, int but = nowhere) {
    const bool pairs = std::any_of(points.begin(), points.end(), [&](int point) {
      return !model_.includes[slot(point)].empty() || !model_.included_in[slot(point)].empty();
    });
    std::optional<Move> best;
    std::optional<Rank> best_rank;
    count(model_.slots.size());
    for (int to = 0; to < static_cast<int>(model_.slots.size()); ++to) {
      if (to == but || !may(points, to)) continue;
      // But for pairs, nothing else comes of it than its own waiting and its own money.
      Rank rank{0, 0, 0, 0, cost_at(points, to)};
      for (const int point : points) rank.late_days += model_.late_days(point, to);
      const Move move{points, to};
      if (pairs) rank = after(move);
      if ((best_rank && rank >= *best_rank) || !has_time_for(move)) continue;
      best = move;
      best_rank = rank;
    }
    if (best) apply(*best);
  }

  bool make_trips() {
    bool better = false;
    for (int to = 0; to < static_cast<int>(trips_.size()) && steps_ > 0; ++to) {
      if (!trip(to).empty()) continue;
      count(places_.size());
      Search other = *this;
      other.fill(to);
      better = taken_if_better(other) || better;
    }
    return better;
  }

  // With what gains most by it, as far as there is time.
  void fill(int to) {
    std::vector<std::pair<Cost, int>> gains;
    for (int point = 0; point < static_cast<int>(places_.size()); ++point) {
      const int at = places_[slot(point)];
      if (at == nowhere || !model_.may[slot(point)][slot(to)]) continue;
      const Cost gain = model_.costs[slot(point)][slot(at)] - model_.costs[slot(point)][slot(to)];
      if (gain > 0) gains.emplace_back(-gain, point);
    }
    std::sort(gains.begin(), gains.end());
    for (const auto& [gain, point] : gains) {
      const Move move{with_included(model_, point, trip(places_[slot(point)])), to};
      if (places_[slot(point)] != to && may(move) && has_time_for(move)) apply(move);
    }
  }

  const SiteModel& model_;
  Places places_;
  std::vector<std::vector<int>> trips_;
  Rank rank_;
  Places before_;       // of a move that is looked at
  std::size_t& steps_;  // that are left, of all that is tried beside moves
};

}  // namespace

Improved improved(const SiteModel& model, Places places) {
  std::size_t steps = most_steps;
  Places better = Search(model, std::move(places), steps).run();
  return {std::move(better), steps > 0};
}

}  // namespace service::visits::trip
