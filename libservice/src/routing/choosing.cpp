#include "routing/choosing.h"

#include <algorithm>
#include <numeric>

namespace service::routing {
namespace {

using Words = std::vector<std::uint64_t>;

class Chooser {
 public:
  Chooser(std::size_t jobs, const std::vector<Choice>& choices, const Prices& prices, Pence better_than,
          std::size_t most_steps, const std::function<bool()>& stop)
      : jobs_(jobs), prices_(prices), best_(better_than), steps_left_(most_steps), stop_(stop) {
    for (std::size_t c = 0; c < choices.size(); ++c)
      shifts_.push_back({c, choices[c].kind, choices[c].rounds, {}, {}, 0});
    // Few rounds first: they say most. Those that are alike stand side by side.
    std::stable_sort(shifts_.begin(), shifts_.end(), [](const Shift& a, const Shift& b) {
      return a.rounds->size() != b.rounds->size() ? a.rounds->size() < b.rounds->size() : a.kind < b.kind;
    });
    for (Shift& shift : shifts_) {
      for (const Found& found : *shift.rounds) shift.sets.push_back(set_of(found.route));
    }
    Words later(words());
    for (std::size_t s = shifts_.size(); s-- > 0;) {
      for (const Words& set : shifts_[s].sets) unite(later, set);
      shifts_[s].reached = later;
    }
    // What cannot be undercut any more from a shift on: each takes its least reduced cost, or is left unused.
    Mills least = 0;
    for (std::size_t s = shifts_.size(); s-- > 0;) {
      const Mills unused = -prices_.kinds[shifts_[s].kind];
      Mills own = unused;
      for (const Found& found : *shifts_[s].rounds) own = std::min(own, found.reduced);
      least += own;
      shifts_[s].least_from_here = least;
    }
    chosen_.resize(shifts_.size(), nullptr);
  }

  Chosen run() {
    Mills base = 0;  // what all rows are worth
    for (const Mills price : prices_.jobs) base += price;
    for (const Shift& shift : shifts_) base += prices_.kinds[shift.kind];
    for (const Mills price : prices_.of_triples) base += price;
    Words done(words());
    Mills left = 0;
    if (!shifts_.empty()) {
      left = unreachable(done, shifts_.front().reached);
    }
    all_ = true;
    descend(0, base, done, left, 0);
    Chosen chosen;
    chosen.all = all_;
    if (found_) {
      chosen.rounds.emplace(shifts_.size(), nullptr);
      for (std::size_t s = 0; s < shifts_.size(); ++s) (*chosen.rounds)[shifts_[s].choice] = best_rounds_[s];
    }
    return chosen;
  }

 private:
  struct Shift {
    std::size_t choice = 0;
    std::size_t kind = 0;
    const std::vector<Found>* rounds = nullptr;
    std::vector<Words> sets;
    Words reached;  // jobs that some round of this or a later shift does
    Mills least_from_here = 0;
  };

  std::size_t words() const { return (jobs_ + 63) / 64; }

  Words set_of(const Route& route) const {
    Words set(words());
    for (const int job : route)
      set[static_cast<std::size_t>(job) / 64] |= std::uint64_t{1} << (static_cast<unsigned>(job) % 64U);
    return set;
  }

  static void unite(Words& set, const Words& other) {
    for (std::size_t w = 0; w < set.size(); ++w) set[w] |= other[w];
  }

  static bool meet(const Words& a, const Words& b) {
    for (std::size_t w = 0; w < a.size(); ++w) {
      if ((a[w] & b[w]) != 0) return true;
    }
    return false;
  }

  // The prices, given back, of jobs that are not done and that nothing from there on does.
  Mills unreachable(const Words& done, const Words& reached) const {
    Mills given_back = 0;
    for (std::size_t job = 0; job < jobs_; ++job) {
      const std::uint64_t bit = std::uint64_t{1} << (job % 64);
      if (((done[job / 64] | reached[job / 64]) & bit) == 0) given_back -= prices_.jobs[job];
    }
    return given_back;
  }

  // `so_far`: rows and the reduced costs of what is chosen; `cost`: of the same in money.
  void descend(std::size_t s, Mills so_far, const Words& done, Mills left, Pence cost) {
    if (cost < best_) {
      best_ = cost;
      best_rounds_ = chosen_;
      found_ = true;
    }
    if (s == shifts_.size()) return;
    if (steps_left_ == 0 || (steps_left_ % 1024 == 0 && stop_ && stop_())) {
      steps_left_ = 0;
      all_ = false;
      return;
    }
    --steps_left_;
    const Shift& shift = shifts_[s];
    const Mills rest = s + 1 < shifts_.size() ? shifts_[s + 1].least_from_here : 0;
    const auto may_be_better = [&](Mills with) { return with <= mills * (best_ - 1); };
    const Words nothing(words());
    const Words& later = s + 1 < shifts_.size() ? shifts_[s + 1].reached : nothing;
    const auto go_on = [&](Mills reduced, const Words& now, Pence more) {
      const Mills lost = unreachable(now, later);
      if (may_be_better(so_far + reduced + rest + lost)) descend(s + 1, so_far + reduced, now, lost, cost + more);
    };
    // Of shifts that are alike, rounds are taken in their order, so that no choice comes twice.
    std::size_t from = 0;
    bool may_use = true;
    if (s > 0 && shifts_[s - 1].kind == shift.kind && shifts_[s - 1].rounds == shift.rounds) {
      may_use = chosen_[s - 1] != nullptr;
      if (may_use) from = static_cast<std::size_t>(chosen_[s - 1] - shift.rounds->data()) + 1;
    }
    for (std::size_t r = from; may_use && r < shift.rounds->size(); ++r) {
      const Found& found = (*shift.rounds)[r];
      if (!may_be_better(so_far + found.reduced + rest + left)) break;  // by reduced cost: nor is any behind it
      if (meet(done, shift.sets[r])) continue;
      Words now = done;
      unite(now, shift.sets[r]);
      chosen_[s] = &found;
      go_on(found.reduced, now, found.cost);
      chosen_[s] = nullptr;
      if (steps_left_ == 0) {
        all_ = false;
        return;
      }
    }
    go_on(-prices_.kinds[shift.kind], done, 0);
  }

  std::size_t jobs_;
  const Prices& prices_;
  Pence best_;
  std::size_t steps_left_;
  const std::function<bool()>& stop_;
  std::vector<Shift> shifts_;
  std::vector<const Found*> chosen_;
  std::vector<const Found*> best_rounds_;
  bool found_ = false;
  bool all_ = false;
};

}  // namespace

Chosen choose(std::size_t jobs, const std::vector<Choice>& choices, const Prices& prices, Pence better_than,
              std::size_t most_steps, const std::function<bool()>& stop) {
  return Chooser(jobs, choices, prices, better_than, most_steps, stop).run();
}

}  // namespace service::routing
