// A bound from below, and rounds of which good plans are made: column generation over a linear program, with triples
// cut off, until nothing is left to gain or the effort is spent.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "routing/choosing.h"
#include "routing/kinds.h"
#include "routing/master.h"
#include "routing/pricing.h"
#include "routing/solve.h"

namespace service::routing {

inline constexpr Mills nothing_proven = INT64_MIN / 4;

// Numbers here are of `Weights::of`, less what skipping all jobs comes to.
struct Standing {
  Plan plan;                            // the best so far
  Pence value = 0;                      // of it
  Mills proven_mills = nothing_proven;  // no plan has less, in thousandths
  bool done = false;                    // the plan is proven to be the best
};

class Generation {
 public:
  Generation(const Problem& problem, const Weights& weights, const std::vector<ShiftKind>& kinds, const Budget& budget,
             const std::function<bool()>& stop, const std::function<void(const Standing&)>& tell);

  // From a plan to start with; ends early where `stop` says so.
  Standing run(Standing from);

 private:
  bool generate();                     // to the end of the program as it is; false where it was stopped or gave up
  void improve();                      // the plan, by the rounds in hand and a search from there
  bool close(std::size_t most_steps);  // by listing all rounds that a better plan can have
  bool widen_memory();                 // where rounds in use do a job twice
  bool cut();                          // with triples
  Mills proven_by(const Prices& prices, const std::vector<Mills>& least) const;
  void raise(Mills proven);
  void add_round(std::size_t number, const Route& route);
  void add_rounds(const Plan& plan);
  bool take(Plan plan);  // where it is better
  Plan plan_of(const std::vector<Column>& columns) const;
  bool stopped();

  const Problem& problem_;
  const Weights& weights_;
  const std::vector<ShiftKind>& kinds_;
  Budget budget_;
  const std::function<bool()>& stop_;
  const std::function<void(const Standing&)>& tell_;
  Master master_;
  Memory memory_;
  Prices prices_;             // of the last proven pass
  std::vector<Mills> least_;  // of the same, by kind
  Standing standing_;
  std::size_t passes_ = 0;
  std::size_t triples_ = 0;
  std::uint64_t searches_ = 0;
  bool improved_ = false;
  bool glanced_ = false;
  bool is_stopped_ = false;
};

}  // namespace service::routing
