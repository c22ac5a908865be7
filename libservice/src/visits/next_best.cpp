#include "visits/next_best.h"

#include <algorithm>

#include "routing/timing.h"

namespace service::visits {
namespace {

class Search {
 public:
  Search(const WeekProblem& of, const routing::Plan& plan, int job) : of_(of), plan_(plan), job_(job) {}

  std::optional<NextBest> find() {
    std::size_t longest = 0;
    for (const routing::Route& route : plan_) longest = std::max(longest, route.size());
    for (std::size_t pushed = 0; pushed <= longest && !best_; ++pushed) {
      for (std::size_t shift = 0; shift < plan_.size(); ++shift) try_shift(shift, pushed);
    }
    return best_;
  }

 private:
  const routing::Problem& problem() const { return of_.problem; }
  const routing::Job& job(int number) const { return problem().jobs[static_cast<std::size_t>(number)]; }
  routing::Pence option_cost(std::size_t shift, int number) const {
    return problem().shifts[shift].options[static_cast<std::size_t>(number)].cost;
  }

  // Instead of so many that follow each other, from each of them on.
  void try_shift(std::size_t shift, std::size_t pushed) {
    const routing::Route& route = plan_[shift];
    if (!problem().shifts[shift].options[static_cast<std::size_t>(job_)].possible || pushed > route.size()) return;
    const std::size_t last = pushed == 0 ? 0 : route.size() - pushed;
    for (std::size_t from = 0; from <= last; ++from) {
      const auto begin = route.begin() + static_cast<std::ptrdiff_t>(from);
      const routing::Route out(begin, begin + static_cast<std::ptrdiff_t>(pushed));
      const bool may_go = std::all_of(out.begin(), out.end(), [&](int number) {
        return job(number).rank == routing::Rank::money || job(number).rank < job(job_).rank;
      });
      if (may_go) try_places(shift, from, out);
    }
  }

  void try_places(std::size_t shift, std::size_t from, const routing::Route& out) {
    const routing::Shift& of_shift = problem().shifts[shift];
    routing::Route rest = plan_[shift];
    const auto begin = rest.begin() + static_cast<std::ptrdiff_t>(from);
    rest.erase(begin, begin + static_cast<std::ptrdiff_t>(out.size()));
    routing::Pence beside =
        option_cost(shift, job_) - job(job_).skip - routing::travel_of(problem(), of_shift, plan_[shift]);
    for (const int number : out) beside += job(number).skip - option_cost(shift, number);
    for (std::size_t at = 0; at <= rest.size(); ++at) {
      routing::Route with = rest;
      with.insert(with.begin() + static_cast<std::ptrdiff_t>(at), job_);
      const Money dearer{beside + routing::travel_of(problem(), of_shift, with)};
      if (best_ && dearer >= best_->dearer) continue;
      if (!routing::times_of(problem(), of_shift, with)) continue;
      best_ = NextBest{shift, dearer, {}};
      for (const int number : out) best_->instead_of.push_back(of_.visits[static_cast<std::size_t>(number)]);
    }
  }

  const WeekProblem& of_;
  const routing::Plan& plan_;
  int job_;
  std::optional<NextBest> best_;
};

}  // namespace

std::optional<NextBest> next_best_of(const WeekProblem& of, const routing::Plan& plan, int job) {
  return Search(of, plan, job).find();
}

}  // namespace service::visits
