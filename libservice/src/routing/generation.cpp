#include "routing/generation.h"

#include <algorithm>
#include <numeric>

#include "routing/choosing.h"
#include "routing/heuristic.h"
#include "routing/labels.h"
#include "routing/nearness.h"
#include "routing/timing.h"
#include "routing/triples.h"

namespace service::routing {
namespace {

constexpr std::size_t remembered = 8;     // near jobs, to begin with
constexpr std::size_t coarse_slots = 60;  // of the day, while rounds are easily found
constexpr std::size_t fine_slots = 240;
constexpr std::size_t careful = 2;          // the stage from which it takes longer
constexpr std::size_t glanced_at = 10'000;  // labels of a shift
constexpr std::size_t dives = 3;
constexpr std::size_t polishing = 2'000;  // steps of the search after a dive
constexpr std::size_t tries = 10;         // that share of the steps to choose, while more can be cut off
constexpr std::size_t triples_at_once = 30;
constexpr std::size_t stages[] = {12, 60, 240, 0};  // labels a stop; the last looks at all

Memory near_jobs(const Problem& problem) {
  Memory memory = nearest_jobs(problem);
  for (auto& near : memory) near.resize(std::min(near.size(), remembered + 1));  // itself among them
  return memory;
}

// Listing all rounds pays below that: a fiftieth of what the plan costs.
Mills near_enough(Pence money) { return money * (mills / 50); }

// Whether a round that does a job again has forgotten by then that it did.
bool may_forget(const Memory& memory, const Route& route) {
  Route done;
  for (const int job : route) {
    if (std::find(done.begin(), done.end(), job) != done.end()) return false;
    const auto& near = memory[static_cast<std::size_t>(job)];
    std::erase_if(done, [&](int other) { return std::find(near.begin(), near.end(), other) == near.end(); });
    done.push_back(job);
  }
  return true;
}

}  // namespace

Generation::Generation(const Problem& problem, const Weights& weights, const std::vector<ShiftKind>& kinds,
                       const Budget& budget, const std::function<bool()>& stop,
                       const std::function<void(const Standing&)>& tell)
    : problem_(problem),
      weights_(weights),
      kinds_(kinds),
      budget_(budget),
      stop_(stop),
      tell_(tell),
      master_(problem.jobs.size(), kinds),
      memory_(near_jobs(problem)) {}

bool Generation::stopped() {
  if (!is_stopped_ && stop_ && stop_()) is_stopped_ = true;
  return is_stopped_;
}

Standing Generation::run(Standing from) {
  standing_ = std::move(from);
  add_rounds(standing_.plan);
  for (std::size_t k = 0; k < kinds_.size(); ++k) {
    for (const Stop& stop : kinds_[k].stops) add_round(k, {stop.job});
  }
  Mills tried = INT64_MAX;  // to close: a gap of that
  while (!standing_.done) {
    const bool whole = generate();
    if (standing_.done || stopped()) break;
    if (whole && widen_memory()) continue;
    improve();
    if (standing_.done || stopped() || !whole) break;
    const Mills gap = mills * standing_.value - standing_.proven_mills;
    if (gap < near_enough(value_of(problem_, standing_.plan).money) && gap < tried / 2) {
      if (close(budget_.choosing_steps / tries)) break;
      tried = gap;
    }
    if (cut()) continue;
    close(budget_.choosing_steps);
    break;
  }
  return standing_;
}

void Generation::add_round(std::size_t number, const Route& route) {
  const ShiftKind& kind = kinds_[number];
  if (route.empty() || !times_of(problem_, *kind.shift, route)) return;
  Pence cost = travel_of(problem_, *kind.shift, route);
  for (const int job : route) {
    cost += kind.shift->options[static_cast<std::size_t>(job)].cost -
            weights_.of_skipping(problem_.jobs[static_cast<std::size_t>(job)]);
  }
  master_.add({number, {route, cost, 0}});
}

void Generation::add_rounds(const Plan& plan) {
  for (std::size_t k = 0; k < kinds_.size(); ++k) {
    for (const int shift : kinds_[k].shifts) add_round(k, plan[static_cast<std::size_t>(shift)]);
  }
}

bool Generation::generate() {
  std::size_t stage = 0;
  while (passes_ < budget_.passes && !stopped()) {
    ++passes_;
    const Prices prices = master_.solve();
    // Before it takes longer it glances at all labels: whoever stops it then has a bound that says something.
    const bool glance = stage == careful && !glanced_;
    glanced_ = glanced_ || glance;
    const bool thorough = glance || stages[stage] == 0;
    const std::size_t labels = glance ? std::min(budget_.most_labels, glanced_at) : budget_.most_labels;
    bool found = false;
    bool proven = true;
    std::vector<Mills> least;
    for (std::size_t k = 0; k < kinds_.size() && !stopped(); ++k) {
      const WayHome home(kinds_[k], prices, thorough ? fine_slots : coarse_slots);
      const Priced priced = price(problem_, kinds_[k], k, prices, home, memory_,
                                  {thorough ? 0 : stages[stage], labels, thorough ? 30U : 12U, stop_});
      least.push_back(priced.least);
      proven = proven && priced.proven;
      for (const Found& round : priced.found) found = master_.add({k, round}) || found;
    }
    if (is_stopped_) return false;
    if (thorough) {
      // The newest prices are those at which all is reckoned on; an older bound may be the better one all the same.
      prices_ = prices;
      least_ = least;
    }
    raise(proven_by(prices, least));
    if (standing_.done) return true;
    if (found) {
      stage = 0;
    } else if (thorough && (proven || !glance)) {
      return proven;
    } else if (!glance) {
      ++stage;
      if (stage == careful && !improved_) improve();  // likewise a good plan
    }
  }
  return false;
}

Mills Generation::proven_by(const Prices& prices, const std::vector<Mills>& least) const {
  Mills sum = std::accumulate(prices.jobs.begin(), prices.jobs.end(), Mills{0});
  sum = std::accumulate(prices.of_triples.begin(), prices.of_triples.end(), sum);
  for (std::size_t k = 0; k < kinds_.size(); ++k) sum += kinds_[k].multiplicity() * (prices.kinds[k] + least[k]);
  return sum;
}

void Generation::raise(Mills proven) {
  if (proven <= standing_.proven_mills) return;
  standing_.proven_mills = proven;
  if (whole_up(proven) >= standing_.value) standing_.done = true;
  if (tell_) tell_(standing_);
}

Plan Generation::plan_of(const std::vector<Column>& columns) const {
  std::vector<std::size_t> used(kinds_.size());
  Plan plan(problem_.shifts.size());
  for (const Column& column : columns) {
    plan[static_cast<std::size_t>(kinds_[column.kind].shifts[used[column.kind]++])] = column.round.route;
  }
  return plan;
}

bool Generation::take(Plan plan) {
  Pence skipped = 0;
  for (const Job& job : problem_.jobs) skipped += weights_.of_skipping(job);
  const Pence value = weights_.of(value_of(problem_, plan)) - skipped;
  if (value >= standing_.value) return false;
  standing_.plan = std::move(plan);
  standing_.value = value;
  if (whole_up(standing_.proven_mills) >= standing_.value) standing_.done = true;
  if (tell_) tell_(standing_);
  return true;
}

void Generation::improve() {
  improved_ = true;
  for (std::size_t dive = 0; dive < dives && !standing_.done && !stopped(); ++dive) {
    const Plan plan = plan_of(master_.dive(dive));
    Search how{std::min(budget_.search_steps, polishing), ++searches_, true, stop_};
    if (take(search(problem_, weights_, plan, how))) add_rounds(standing_.plan);
  }
}

bool Generation::close(std::size_t most_steps) {
  if (least_.empty()) return false;
  const Mills gap = mills * (standing_.value - 1) - proven_by(prices_, least_);
  std::vector<Listed> listed;
  for (std::size_t k = 0; k < kinds_.size(); ++k) {
    if (stopped()) return false;
    const WayHome home(kinds_[k], prices_, fine_slots);
    listed.push_back(list_rounds(problem_, kinds_[k], k, prices_, home, gap + least_[k], budget_.listed_labels, stop_));
    if (!listed.back().all) return false;
  }
  Chosen chosen = choose(problem_.jobs.size(), kinds_, listed, prices_.triples, standing_.value, most_steps, stop_);
  if (chosen.rounds && take(plan_of(*chosen.rounds))) add_rounds(standing_.plan);
  if (chosen.all) standing_.done = true;
  return standing_.done;
}

bool Generation::widen_memory() {
  bool widened = false;
  for (std::size_t c = 0; c < master_.columns().size(); ++c) {
    const Route& route = master_.columns()[c].round.route;
    if (!does_twice(route)) continue;
    if (master_.chosen()[c] > 1e-6) {
      for (std::size_t i = 0; i < route.size(); ++i) {
        const auto again = std::find(route.begin() + static_cast<std::ptrdiff_t>(i) + 1, route.end(), route[i]);
        if (again == route.end()) continue;
        for (auto between = route.begin() + static_cast<std::ptrdiff_t>(i) + 1; between != again; ++between) {
          auto& near = memory_[static_cast<std::size_t>(*between)];
          if (std::find(near.begin(), near.end(), route[i]) == near.end()) near.push_back(route[i]);
        }
      }
      widened = true;
    }
  }
  if (!widened) return false;
  for (std::size_t c = 0; c < master_.columns().size(); ++c) {
    const Route& route = master_.columns()[c].round.route;
    if (does_twice(route) && !may_forget(memory_, route)) master_.ban(c);
  }
  return true;
}

bool Generation::cut() {
  if (triples_ >= most_triples) return false;
  const auto broken = broken_triples(master_, problem_.jobs.size(), std::min(triples_at_once, most_triples - triples_));
  for (const Triple& triple : broken) master_.add(triple);
  triples_ += broken.size();
  return !broken.empty();
}

}  // namespace service::routing
