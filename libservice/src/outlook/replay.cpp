#include <algorithm>
#include <array>
#include <map>

#include "service/due_list.h"
#include "service/outlook.h"

namespace service {
namespace {

constexpr int far_days = 548;
constexpr int between = 61;  // days from one asked day to the next
constexpr std::size_t most = 24;

double pinball(double said, double truth, double share) {
  return truth >= said ? share * (truth - said) : (1 - share) * (said - truth);
}

double days_to(const std::optional<Day>& day, Day from) {
  return day ? std::clamp(days_between(from, *day), 0, far_days) : far_days;
}

struct Sum {
  int answered = 0;
  int open = 0;
  int inside = 0;
  double loss = 0;
  double straight = 0;
  double same_days = 0;

  void add(const Sum& more) {
    answered += more.answered;
    open += more.open;
    inside += more.inside;
    loss += more.loss;
    straight += more.straight;
    same_days += more.same_days;
  }
  ReplayScore score() const {
    const double n = std::max(answered, 1);
    return {answered, open, inside, loss / n, straight / n, same_days / n};
  }
};

// From a year after the first reading on, every two months, newest last.
std::vector<Day> days_to_ask(const Snapshot& now) {
  std::optional<Day> first;
  std::optional<Day> last;
  for (const Machine& machine : now.fleet().machines) {
    if (!now.scope().holds(machine.key)) continue;
    for (const auto& [name, history] : meter_histories(now, machine)) {
      if (!history.read() || history.knots().size() < 2) continue;
      const Day begin = history.knots()[1].day;  // the first is the day it came
      const Day end = history.knots().back().day;
      first = first ? std::min(*first, begin) : begin;
      last = last ? std::max(*last, end) : end;
    }
  }
  std::vector<Day> days;
  if (!first) return days;
  for (Day day = *last - std::chrono::days{between}; day >= *first + std::chrono::days{365} && days.size() < most;
       day -= std::chrono::days{between}) {
    days.push_back(day);
  }
  std::reverse(days.begin(), days.end());
  return days;
}

// The day on which a level was reached, as the whole book has it; that after its last reading where it was not reached.
double truth_of(const MeterHistory& history, Amount level, Day asked) {
  const auto reached = history.first_day_at(level);
  return days_to(reached ? *reached : history.knots().back().day + std::chrono::days{1}, asked);
}

Sum ask(const Snapshot& then, const Snapshot& now, const Machine& machine, const DueList& list,
        const Forecaster& learnt) {
  Sum sum;
  const auto known = meter_histories(then, machine);
  const auto truths = meter_histories(now, machine);
  const Aheads ours = aheads_of(then, machine, known, learnt);
  const Aheads straight = aheads_of(then, machine, known, straight_line());
  const Aheads again = aheads_of(then, machine, known, same_days_again());
  const Day horizon = add_months(then.as_of(), horizon_months);
  for (const Point& point : list.points) {
    if (point.machine != &machine) continue;
    for (const LimbStanding& limb : point.limbs) {
      if (limb.kind != LimbKind::usage || limb.state != LimbState::not_reached || !limb.due_at) continue;
      const auto odds = ours.find(limb.name)->second->odds(*limb.due_at, limb.every);
      if (!odds) continue;
      // What is scored may not hang on what came, or the slow ones are left out and the spans flattered.
      const MeterHistory& whole = truths.find(limb.name)->second;
      const auto latest = first_day_with(*odds, Probability{0.9}, then.as_of(), horizon);
      if (!latest || *latest > whole.knots().back().day) {
        ++sum.open;
        continue;
      }
      const double truth = truth_of(whole, *limb.due_at, then.as_of());
      const double plain =
          days_to(straight.find(limb.name)->second->reaches(*limb.due_at, Quantile::p50), then.as_of());
      const double same = days_to(again.find(limb.name)->second->reaches(*limb.due_at, Quantile::p50), then.as_of());
      ++sum.answered;
      const std::array<std::optional<Day>, 3> days{first_day_with(*odds, Probability{0.1}, then.as_of(), horizon),
                                                   first_day_with(*odds, Probability{0.5}, then.as_of(), horizon),
                                                   latest};
      const std::array<double, 3> shares{0.1, 0.5, 0.9};
      std::array<double, 3> said{};
      for (std::size_t i = 0; i < shares.size(); ++i) {
        said[i] = days_to(days[i], then.as_of());
        sum.loss += pinball(said[i], truth, shares[i]) / 3;
        sum.straight += pinball(plain, truth, shares[i]) / 3;
        sum.same_days += pinball(same, truth, shares[i]) / 3;
      }
      sum.inside += said[0] <= truth && truth <= said[2] ? 1 : 0;
    }
  }
  return sum;
}

}  // namespace

ReplayScore::Better ReplayScore::better() const {
  if (straight < loss && straight <= same_days) return Better::straight;
  return same_days < loss ? Better::same_days : Better::forecast;
}

Replay replay(const std::shared_ptr<const Fleet>& fleet, const std::vector<Fact>& facts, Day as_of, const Scope& scope,
              const Progress& progress) {
  Replay result;
  result.fleet = fleet;
  // All days are given, so the newest one does not matter.
  const Extract past{facts, kin_of(*fleet, scope), std::nullopt};
  const Snapshot now(fleet, past, as_of, true, scope);
  result.days = days_to_ask(now);
  std::map<const Machine*, Sum> sums;
  for (std::size_t i = 0; i < result.days.size(); ++i) {
    if (progress) progress(i, result.days.size());
    const Day day = result.days[i];
    const Snapshot then(fleet, past, day, true, scope);
    const Forecaster learnt = learnt_from(then);
    const DueList list = due_list(then, {day, {}, Detail::standings}, straight_line());
    for (const Machine& machine : fleet->machines) {
      if (!scope.holds(machine.key) || !kept_on(machine, day)) continue;
      sums[&machine].add(ask(then, now, machine, list, learnt));
    }
  }
  std::map<std::string, Sum> kinds;
  Sum all;
  for (const Machine& machine : fleet->machines) {
    const auto found = sums.find(&machine);
    if (found == sums.end() || found->second.answered + found->second.open == 0) continue;
    result.machines.push_back({&machine, machine.schedule, found->second.score()});
    kinds[machine.schedule].add(found->second);
    all.add(found->second);
  }
  for (const auto& [kind, sum] : kinds) result.kinds.push_back({nullptr, kind, sum.score()});
  result.all = all.score();
  return result;
}

}  // namespace service
