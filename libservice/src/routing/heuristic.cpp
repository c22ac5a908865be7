#include "routing/heuristic.h"

#include <algorithm>
#include <cmath>

#include "routing/dice.h"
#include "routing/nearness.h"
#include "routing/rounds.h"

namespace service::routing {
namespace {

constexpr std::size_t string_length = 6;  // the longest string that is taken out of a round
constexpr std::size_t most_strings = 5;   // rounds that are ruined at a time
constexpr std::size_t scatter_of = 10;    // once in so many steps jobs are taken out here and there instead
constexpr std::size_t passed_over = 100;  // one place in so many is passed over
constexpr double first_share = 0.3;       // of the middle gain is the first heat
constexpr double last_heat = 0.1;         // of the first

class Searcher {
 public:
  Searcher(const Problem& problem, const Weights& weights, const Plan& from, std::uint64_t seed)
      : problem_(problem), weights_(weights), now_(problem, weights), dice_(seed), near_(nearest_jobs(problem)) {
    now_.reset(from);
    best_ = now_.plan();
    best_weighed_ = now_.weighed();
    recreate(skipped());
    keep();
    heat_ = first_heat();
  }

  void run(std::size_t steps, bool cool, const std::function<bool()>& stop) {
    if (cool) heat_ *= last_heat;
    const double cooling = steps > 1 ? std::pow(last_heat, 1.0 / static_cast<double>(steps - 1)) : 1;
    double heat = heat_;
    for (std::size_t step = 0; step < steps; ++step, heat *= cooling) {
      if (step % 64 == 0 && stop && stop()) return;
      const Plan before = now_.plan();
      const Pence was = now_.weighed();
      ruin();
      recreate(skipped());
      if (!accepted(was, now_.weighed(), heat)) now_.reset(before);
      keep();
    }
  }

  const Plan& best() const { return best_; }

 private:
  std::vector<int> skipped() const {
    std::vector<int> jobs;
    for (std::size_t j = 0; j < problem_.jobs.size(); ++j) {
      if (now_.shift_of(static_cast<int>(j)) < 0) jobs.push_back(static_cast<int>(j));
    }
    return jobs;
  }

  // A share of the middle gain of a job that is done: what a step may lose in the beginning.
  double first_heat() const {
    std::vector<Pence> gains;
    for (const Route& route : now_.plan()) {
      for (const int job : route) gains.push_back(problem_.jobs[static_cast<std::size_t>(job)].skip);
    }
    if (gains.empty()) return 1;
    std::nth_element(gains.begin(), gains.begin() + static_cast<std::ptrdiff_t>(gains.size() / 2), gains.end());
    return std::max(1.0, first_share * static_cast<double>(gains[gains.size() / 2]));
  }

  // The weights of ranks stay out of the heat: a plan that skips more of a rank is never taken.
  bool accepted(Pence was, Pence is, double heat) {
    if (is <= was) return true;
    if (weights_.value_of(is).promises != weights_.value_of(was).promises ||
        weights_.value_of(is).safety != weights_.value_of(was).safety) {
      return false;
    }
    return static_cast<double>(is - was) < -heat * std::log(1 - dice_.share());
  }

  void keep() {
    if (now_.weighed() >= best_weighed_) return;
    best_ = now_.plan();
    best_weighed_ = now_.weighed();
  }

  void ruin() {
    const std::size_t jobs = problem_.jobs.size();
    if (jobs == 0) return;
    std::vector<int> out;
    if (dice_.below(scatter_of) == 0) {
      const std::size_t count = 1 + dice_.below(std::min<std::size_t>(10, jobs));
      for (std::size_t i = 0; i < count; ++i) out.push_back(static_cast<int>(dice_.below(jobs)));
    } else {
      const std::size_t strings = 1 + dice_.below(most_strings);
      std::vector<bool> ruined(problem_.shifts.size());
      std::size_t done = 0;
      for (const int job : near_[dice_.below(jobs)]) {
        const int shift = now_.shift_of(job);
        if (shift < 0 || ruined[static_cast<std::size_t>(shift)]) continue;
        ruined[static_cast<std::size_t>(shift)] = true;
        take_string(now_.route(static_cast<std::size_t>(shift)), job, out);
        if (++done == strings) break;
      }
    }
    now_.remove(out);
  }

  void take_string(const Route& route, int job, std::vector<int>& out) {
    const auto at = static_cast<std::size_t>(std::find(route.begin(), route.end(), job) - route.begin());
    const std::size_t longest = std::min(route.size(), string_length);
    const std::size_t length = 1 + dice_.below(longest);
    const std::size_t first = at + 1 >= length ? at + 1 - length : 0;
    const std::size_t last = std::min(at, route.size() - length);
    const std::size_t from = first + dice_.below(last - first + 1);
    for (std::size_t i = from; i < from + length; ++i) out.push_back(route[i]);
  }

  void put_in_order(std::vector<int>& jobs) {
    dice_.shuffle(jobs);
    const auto by = [&](auto&& key) {
      std::stable_sort(jobs.begin(), jobs.end(), [&](int a, int b) {
        return key(problem_.jobs[static_cast<std::size_t>(a)]) > key(problem_.jobs[static_cast<std::size_t>(b)]);
      });
    };
    switch (dice_.below(5)) {
      case 0:
        break;
      case 1:
        by([&](const Job& job) { return weights_.of_skipping(job); });
        break;
      case 2:
        by([&](const Job& job) { return weights_.of_skipping(job) / (job.work + 30); });
        break;
      case 3:
        if (problem_.shifts.empty()) break;
        by([&](const Job& job) {
          return problem_.profiles.front().leg(problem_.shifts.front().start, job.place).cost;
        });
        break;
      default:
        by([](const Job& job) { return job.work; });
    }
    // Whatever else: what weighs more than money comes first, or money takes its hours.
    std::stable_sort(jobs.begin(), jobs.end(), [&](int a, int b) {
      return problem_.jobs[static_cast<std::size_t>(a)].rank > problem_.jobs[static_cast<std::size_t>(b)].rank;
    });
  }

  void recreate(std::vector<int> jobs) {
    put_in_order(jobs);
    for (const int job : jobs) {
      // A promise that fits is never left out, however soon the search is stopped.
      const bool promised = problem_.jobs[static_cast<std::size_t>(job)].rank == Rank::promise;
      const auto passes_over = [&] { return !promised && dice_.below(passed_over) == 0; };
      Insertion best;
      for (std::size_t shift = 0; shift < problem_.shifts.size(); ++shift) now_.best_in(shift, job, best, passes_over);
      if (best.shift < 0 || best.dearer >= weights_.of_skipping(problem_.jobs[static_cast<std::size_t>(job)])) continue;
      now_.insert(job, best);
    }
  }

  const Problem& problem_;
  const Weights& weights_;
  Rounds now_;
  Dice dice_;
  Plan best_;
  Pence best_weighed_ = 0;
  double heat_ = 1;
  std::vector<std::vector<int>> near_;
};

}  // namespace

Plan search(const Problem& problem, const Weights& weights, const Plan& from, const Search& how) {
  Searcher searcher(problem, weights, from, how.seed);
  searcher.run(how.steps, how.cool, how.stop);
  return searcher.best();
}

}  // namespace service::routing
