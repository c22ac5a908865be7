// Sums that follow from the rest, and what is claimed of a bound.
#include <fmt/format.h>

#include "visits/exact.h"
#include "visits/judge_parts.h"
#include "visits/judge_words.h"

namespace service::visits {
namespace {

constexpr const char* of_plan = "plan";

std::string value_words(const PlanValue& value) {
  return value.safety_put_off == 0 ? money_words(value.total)
                                   : fmt::format("{} with {} for safety not made", money_words(value.total),
                                                 counted(value.safety_put_off, "visit", "visits"));
}

// Where both what is claimed to be proven and the gap are wrong, it is the bound that was changed.
void judge_gap(const GivenPlan& given, const PlanValue& value, const PlanValue& bound, Faults::Cause cause,
               Faults& faults) {
  const bool comparable = bound.safety_put_off == value.safety_put_off;
  if (given.proven && *given.proven != (bound == value)) {
    cause = faults.add_figure(cause, PlanRule::bound, of_plan,
                              *given.proven ? fmt::format("says it is proven, and only {} is", value_words(bound))
                                            : "says it is not proven, and the bound is what it costs");
  }
  if (!given.gap_millionths) return;
  if (!comparable) {
    faults.add_figure(cause, PlanRule::bound, of_plan,
                      "gives a gap, and the bound is of a plan that leaves out another number of visits for safety");
    return;
  }
  const std::int64_t gap =
      value.total <= Money{}
          ? 0
          : half_up(Wide{1'000'000} * (value.total.hundredths - bound.total.hundredths), value.total.hundredths);
  if (*given.gap_millionths == gap) return;
  faults.add_figure(cause, PlanRule::bound, of_plan,
                    fmt::format("the gap is given as {} millionths; from {} to {} it is {}", *given.gap_millionths,
                                money_words(bound.total), money_words(value.total), gap));
}

// A visit that was put off by its name alone, in a plan that gives figures.
Faults::Cause put_off_bare(const GivenPlan& given, Faults& faults) {
  for (const GivenPutOff& out : given.put_off) {
    if (out.safety || out.reason || out.until || out.cost) continue;
    return faults.add(PlanRule::figure, "put_off " + cleaned(out.visit),
                      "gives no figures, and those of the plan are not of what it puts off");
  }
  return std::nullopt;
}

}  // namespace

void judge_round_sums(const Week& week, JudgedRound& round, Faults& faults) {
  const GivenRound& given = *round.given;
  const auto fault = [&](std::string says) {
    return faults.add_figure(cause_of_sums(round, faults), PlanRule::figure, round.where, std::move(says));
  };
  const auto minutes = [&](std::string_view what, const std::optional<int>& said, int is) {
    if (said && *said != is) fault(fmt::format("{} is {} min in all; the sum is {} min", what, *said, is));
  };
  minutes("driving", given.drive_min, round.way.drive_minutes());
  minutes("set-up", given.set_up_min, round.way.set_up_minutes());
  minutes("work", given.work_min, round.way.work_minutes());
  if (given.tenths_of_km && *given.tenths_of_km != round.way.tenths_of_km()) {
    fault(fmt::format("drives {} in all; the sum is {}", km_words(*given.tenths_of_km),
                      km_words(round.way.tenths_of_km())));
  }
  const Money cost = travel_cost(week, *round.crew, round.way);
  if (given.cost && *given.cost != cost) {
    round.of_cost =
        faults.add_money(cause_of_sums(round, faults), round.where,
                         fmt::format("costs {}; legs and set-ups are {}", money_words(*given.cost), money_words(cost)));
  }
}

Faults::Cause judge_plan_sums(const GivenPlan& given, const PlanSums& sums, Faults::Cause cause, Faults& faults) {
  Faults::Cause first;
  const auto money = [&](std::string_view what, const std::optional<Money>& said, Money is) {
    if (!said || *said == is) return;
    if (!cause) cause = put_off_bare(given, faults);
    const auto fault = faults.add_money(
        cause, of_plan, fmt::format("{} is {}; the sum is {}", what, money_words(*said), money_words(is)));
    if (!first) first = fault;
  };
  money("travel", given.travel, sums.travel);
  money("waiting", given.waiting, sums.waiting);
  money("put off", given.put_off_cost, sums.put_off);
  // What is the sum of figures that are wrong themselves follows from them.
  if (!cause && given.total && given.travel && given.waiting && given.put_off_cost &&
      *given.total == *given.travel + *given.waiting + *given.put_off_cost) {
    cause = first;
  }
  money("total", given.total, sums.value().total);
  if (given.safety_put_off && *given.safety_put_off != sums.safety_put_off) {
    faults.add(
        PlanRule::safety, of_plan,
        fmt::format("says that {} for safety {} not made; it is {}", counted(*given.safety_put_off, "visit", "visits"),
                    *given.safety_put_off == 1 ? "is" : "are", sums.safety_put_off));
  }
  return cause ? cause : first;
}

void judge_bound(const GivenPlan& given, const PlanValue& value, const Faults::Cause& cause, Faults& faults) {
  if (!given.bound) {
    if (given.proven.value_or(false) && given.gap_millionths.value_or(0) != 0) {
      faults.add(PlanRule::bound, of_plan, "says it is proven, and gives a gap");
    }
    return;
  }
  const PlanValue bound{given.bound->first, given.bound->second};
  if (bound.safety_put_off < 0 || bound.total < Money{}) {
    faults.add(PlanRule::bound, of_plan, "the bound is less than nothing");
  } else if (bound > value) {
    faults.add(PlanRule::bound, of_plan,
               fmt::format("the bound is {}, and the plan itself costs {}", value_words(bound), value_words(value)));
  } else {
    judge_gap(given, value, bound, cause, faults);
  }
}

}  // namespace service::visits
