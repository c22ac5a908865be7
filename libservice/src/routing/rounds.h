// Plans under change: rounds to which a job is put, or from which some are taken, with what that costs.
#pragma once

#include <vector>

#include "routing/problem.h"
#include "routing/weights.h"

namespace service::routing {

// A place in a round into which a job would go.
struct Insertion {
  int shift = -1;  // none: it goes in nowhere
  int position = 0;
  Pence dearer = 0;  // travel and the job's cost there; what skipping it would cost is not in it
};

// One shift's round, with how early each stop ends and how late it may end for the rest to be in time.
class Rounds {
 public:
  Rounds(const Problem& problem, const Weights& weights);

  const Plan& plan() const { return plan_; }
  const Route& route(std::size_t shift) const { return plan_[shift]; }
  int shift_of(int job) const { return shift_of_[static_cast<std::size_t>(job)]; }  // -1: it is skipped
  Pence weighed() const { return weighed_; }                                        // the value as one number

  // The cheapest place in one shift for a job that is skipped, where it is cheaper than the best so far. `skips` says
  // which places to pass over.
  template <class Skips>
  void best_in(std::size_t shift, int job, Insertion& best, Skips&& skips) const {
    if (!problem_->shifts[shift].options[static_cast<std::size_t>(job)].possible) return;
    for (std::size_t at = 0; at <= plan_[shift].size(); ++at) {
      if (!skips()) consider(shift, job, static_cast<int>(at), best);
    }
  }

  void insert(int job, const Insertion& place);
  void remove(const std::vector<int>& jobs);  // and all of a round that is not possible without them
  void reset(const Plan& plan);

 private:
  struct Slack {
    std::vector<Minute> ends;     // earliest
    std::vector<Minute> may_end;  // latest, for the rest to be in time
  };

  void consider(std::size_t shift, int job, int at, Insertion& best) const;
  bool in_time(std::size_t shift, int job, std::size_t at) const;
  Pence dearer(std::size_t shift, int job, std::size_t at) const;
  void reckon(std::size_t shift);
  Pence cost_of(std::size_t shift) const;

  const Problem* problem_;
  const Weights* weights_;
  Plan plan_;
  std::vector<Slack> slacks_;
  std::vector<int> loads_;
  std::vector<bool> needs_all_;  // shifts of which the quick look at a stop's slack does not tell all
  std::vector<Pence> costs_;     // of travel and options, by shift
  std::vector<int> shift_of_;
  Pence weighed_ = 0;
};

}  // namespace service::routing
