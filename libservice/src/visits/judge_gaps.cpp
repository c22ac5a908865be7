// Which rule leaves no times for a round, where some or all of its times are left out.
#include <fmt/format.h>

#include <algorithm>

#include "visits/judge_parts.h"
#include "visits/judge_words.h"

namespace service::visits {
namespace {

TimedRound without_meal(TimedRound round) {
  round.meal = 0;
  return round;
}

TimedRound without_length(TimedRound round) {
  round.duty.reset();
  return without_meal(std::move(round));
}

TimedRound without_end(TimedRound round) {
  round.to.reset();
  return without_length(std::move(round));
}

// One fault after the other: of a rule that is named no more is asked.
class GapJudge {
 public:
  GapJudge(const Week& week, const JudgedRound& round, TimedRound asked, Faults& faults)
      : week_(week), round_(round), asked_(std::move(asked)), faults_(faults) {}

  void judge() {
    while (!is_possible(asked_)) {
      if (const auto stuck = stuck_at(asked_, asked_.leaves.value_or(asked_.from))) {
        if (!name_stop(*stuck)) return;
      } else if (!is_possible(without_length(asked_))) {
        name_hours();
      } else if (!is_possible(without_meal(asked_))) {
        name_duty();
      } else {
        name_meal();
      }
    }
  }

 private:
  // Whether there is more to ask.
  bool name_stop(const Stuck& stuck) {
    TimedStop& stop = asked_.stops[stuck.stop];
    const std::string where = round_.where_of(stuck.stop);
    if (!stuck.too_late) {
      faults_.add(PlanRule::closed, where,
                  fmt::format("is there at {} at the earliest and stays for {}; {}", clock_words(stuck.there),
                              duration_words(stop.stay),
                              open_words(week_, *round_.way.stops[stuck.stop].visit, *round_.crew_day)));
      stop.spans = nullptr;
      return true;
    }
    const int given = stop.arrives ? *stop.arrives : *stop.starts;
    const std::string does = stop.arrives ? "arrives" : "starts";
    if (const auto leaves = leaving_in_time(stuck.stop)) {
      faults_.add(PlanRule::hours, round_.where,
                  fmt::format("to be at {} by {} it has to leave at {}, its hours begin at {}",
                              week_.visits[*round_.way.stops[stuck.stop].visit].site->key, clock_words(given),
                              clock_words(*leaves), clock_words(asked_.from)));
      asked_.leaves = leaves;
      return true;
    }
    faults_.add(
        PlanRule::drive, where,
        fmt::format("{} at {}; it is there at {} at the earliest", does, clock_words(given), clock_words(stuck.there)));
    return false;
  }

  // The latest leaving before the hours begin with which it gets past that stop.
  std::optional<int> leaving_in_time(std::size_t stop) const {
    if (asked_.leaves) return std::nullopt;
    for (int leaves = asked_.from - 1; leaves >= 0; --leaves) {
      const auto stuck = stuck_at(asked_, leaves);
      if (!stuck || stuck->stop > stop) return leaves;
    }
    return std::nullopt;
  }

  void name_hours() {
    const auto runs = possible_runs(without_end(asked_));
    const auto soonest = std::min_element(runs.begin(), runs.end(),
                                          [](const TimedRun& a, const TimedRun& b) { return a.back < b.back; });
    faults_.add(PlanRule::hours, round_.where,
                fmt::format("back at {} at the earliest, its hours end at {}", clock_words(soonest->back),
                            clock_words(*asked_.to)));
    asked_.to.reset();
  }

  void name_duty() {
    const auto runs = possible_runs(without_length(asked_));
    const auto shortest = std::min_element(runs.begin(), runs.end(), [](const TimedRun& a, const TimedRun& b) {
      return a.back - a.leaves < b.back - b.leaves;
    });
    faults_.add(PlanRule::duty, round_.where,
                fmt::format("away for {} at least, its duty is {}", duration_words(shortest->back - shortest->leaves),
                            duration_words(*asked_.duty)));
    asked_.duty.reset();
  }

  // How much of the meal there is time for.
  int meal_possible() const {
    TimedRound shorter = asked_;
    while (shorter.meal > 0 && !is_possible(shorter)) --shorter.meal;
    return shorter.meal;
  }

  void name_meal() {
    const int busy = asked_.busy();
    faults_.add(PlanRule::meal, round_.where,
                fmt::format("driving {}, set-up {}, work {} and a meal of {} are {}; its hours, its duty and when the "
                            "sites are open leave {}",
                            duration_words(round_.way.drive_minutes()), duration_words(round_.way.set_up_minutes()),
                            duration_words(round_.way.work_minutes()), duration_words(asked_.meal),
                            duration_words(busy + asked_.meal), duration_words(busy + meal_possible())));
    asked_.meal = 0;
  }

  const Week& week_;
  const JudgedRound& round_;
  TimedRound asked_;
  Faults& faults_;
};

}  // namespace

void judge_gaps(const Week& week, const JudgedRound& round, TimedRound asked, Faults& faults) {
  GapJudge(week, round, std::move(asked), faults).judge();
}

}  // namespace service::visits
