// A plan that somebody made, beside what the week says of it. The judge shares with the planner the question (`Week`),
// the legs and the list of rules, and nothing that decides: neither may inherit the other's mistakes.
#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "service/rounds.h"
#include "visits/judge_possible.h"

namespace service::visits {

class Faults {
 public:
  using Number = std::size_t;  // of a fault
  using Cause = std::optional<Number>;

  Number add(PlanRule rule, const std::string& where, std::string says) {
    all_.push_back({rule, where, std::move(says)});
    money_.push_back(false);
    return all_.size() - 1;
  }
  // One after which the plan has no value.
  Number add_grave(PlanRule rule, const std::string& where, std::string says) {
    grave_ = true;
    return add(rule, where, std::move(says));
  }
  // A figure, or what else follows: said behind its cause, and without one by itself. Where it is said.
  Number add_figure(const Cause& cause, PlanRule rule, const std::string& where, std::string says) {
    if (!cause) return add(rule, where, std::move(says));
    all_[*cause].follow_on.push_back({rule, where, std::move(says)});
    return *cause;
  }
  // The same of a figure of money.
  Number add_money(const Cause& cause, const std::string& where, std::string says) {
    const Number at = add_figure(cause, PlanRule::figure, where, std::move(says));
    if (!cause) money_[at] = true;
    return at;
  }
  Number add_grave_figure(const Cause& cause, PlanRule rule, const std::string& where, std::string says) {
    grave_ = true;
    return add_figure(cause, rule, where, std::move(says));
  }
  // From here on all are of what the plan holds; those before are of what it says of itself, and are behind nothing.
  void end_head() { head_ = all_.size(); }
  // One more of what it says of itself, which only the rest shows. No number that was given before is used from here
  // on.
  Number add_to_head(PlanRule rule, const std::string& where, std::string says) {
    all_.insert(all_.begin() + static_cast<std::ptrdiff_t>(head_), {rule, where, std::move(says)});
    money_.insert(money_.begin() + static_cast<std::ptrdiff_t>(head_), false);
    return head_++;
  }
  // Says those that follow from it behind it, and what is behind them. `follows`: of a fault, and whether it is one of
  // money.
  void put_behind(Number cause, const std::function<bool(const PlanFault&, bool)>& follows);
  bool grave() const { return grave_; }
  const std::vector<PlanFault>& all() const { return all_; }

 private:
  std::vector<PlanFault> all_;
  std::vector<bool> money_;  // of each
  Number head_ = 0;
  bool grave_ = false;
};

// --- Ways --------------------------------------------------------------------------------------------------

struct WayStop {
  std::optional<std::size_t> visit;  // of the week; none: there is no such visit
  const Site* from = nullptr;        // the place before; null: nobody knows
  std::optional<Leg> leg;            // that leads to it
  int set_up_minutes = 0;
  int work_minutes = 0;
  int stay() const { return set_up_minutes + work_minutes; }
};

// What of a round follows from its order alone.
struct Way {
  std::vector<WayStop> stops;
  const Site* last = nullptr;
  std::optional<Leg> home;
  bool whole = false;  // every visit and leg is known, so that times and sums follow
  int drive_minutes() const;
  int set_up_minutes() const;
  int work_minutes() const;
  int tenths_of_km() const;
};

// `crew`: null where nobody knows it, so that no leg is known either.
Way way_of(const Week& week, const Crew* crew, const std::vector<std::optional<std::size_t>>& visits);
Money travel_cost(const Week& week, const Crew& crew, const Way& way);

// The question of its times, with none of them given.
TimedRound timed(const Week& week, std::size_t crew_day, const Way& way);

// Whether there are times for these visits in that order.
bool fits(const Week& week, std::size_t crew_day, const std::vector<std::size_t>& visits);

// --- What is judged ----------------------------------------------------------------------------------------

struct JudgedRound {
  const GivenRound* given = nullptr;
  const Crew* crew = nullptr;           // null: the fleet has none of that name
  std::optional<std::size_t> crew_day;  // of the week; none: it does not work that day
  Way way;                              // its stops are those of `given`
  std::string where;
  std::string where_of(std::size_t stop) const { return where + ' ' + cleaned(given->stops[stop].visit); }

  // Faults by which its figures are wrong that were right before: of its crew or day, of each stop, of its end.
  Faults::Cause of_day;
  std::vector<Faults::Cause> of_stops;
  Faults::Cause of_end;
  Faults::Cause of_cost;  // likewise, of sums of the plan
  // The last of these before a stop has ended; the first of all.
  Faults::Cause cause_until(std::size_t stop) const;
  Faults::Cause first_cause() const;
};

// Says of a stop that was put in without figures into a round that has them, if there is one until there, that it was;
// for figures of the round that are wrong for no other cause.
Faults::Cause put_in(JudgedRound& round, std::size_t until, Faults& faults);

// Why sums of a round are wrong that were right before.
Faults::Cause cause_of_sums(JudgedRound& round, Faults& faults);

// What a crew lacks for a visit: skills, and people. Empty: nothing.
std::string lacks(const Crew& crew, const Visit& visit);

// The crew and day to which it was promised in the plan that is kept.
std::optional<std::pair<std::string, Day>> promise_of(const Week& week, std::size_t visit);
std::optional<std::size_t> crew_day_of(const Week& week, const std::string& crew, Day on);

// Whether a visit that is promised can be made there, alone.
bool can_keep(const Week& week, std::size_t visit, const std::pair<std::string, Day>& promise);

void judge_stop(const Week& week, JudgedRound& round, std::size_t stop, Faults& faults);

// Of a way that is whole.
void judge_clock(const Week& week, JudgedRound& round, Faults& faults);
// Whether the times that are given can be completed, where `asked` holds them and no rule that is broken already.
void judge_gaps(const Week& week, const JudgedRound& round, TimedRound asked, Faults& faults);
void judge_round_sums(const Week& week, JudgedRound& round, Faults& faults);

// What the crew's round before took, of which it fills up what it always carries; the plan's, else the last one that is
// taken as made. `cause`: of what that was changed by.
struct RoundBefore {
  std::map<std::string, PartAmount> pieces;
  Faults::Cause cause;
};
RoundBefore round_before(const Week& week, const std::vector<JudgedRound>& rounds, const JudgedRound& round);

void judge_load(const Week& week, JudgedRound& round, const RoundBefore& before, Faults& faults);

// Why it is not possible to do it at any time of that day, in words.
std::string closed_words(const Week& week, std::size_t visit, Day on);
// `holm is open 08:00-12:00`.
std::string open_words(const Week& week, std::size_t visit, std::size_t crew_day);

// The first reason that holds, as all rules say that are named here.
PutOffReason reason_but_for_promise(const Week& week, std::size_t visit);
// And that before all: it was promised.
PutOffReason reason_by_rules(const Week& week, std::size_t visit);

// The fault of its cost, if that is one.
Faults::Cause judge_put_off(const Week& week, const GivenPutOff& given, std::size_t visit, const std::string& where,
                            Faults& faults);
// Whether a promise was broken that could be kept beside all others that the plan keeps.
// Marks by which people keep away from a machine, where they deny what is so.
void judge_marks(const Week& week, JudgedRound& round, std::size_t stop, Faults& faults);
void judge_marks(const Week& week, const GivenPutOff& given, std::size_t visit, const std::string& where,
                 Faults& faults);

void judge_broken(const Week& week, const std::vector<JudgedRound>& rounds, std::size_t visit, const std::string& where,
                  Faults& faults);

// Whether work for safety was left out that goes in where it pushes out at most what is neither for safety nor
// promised: of all that counts, safety comes first.
void judge_safety(const Week& week, const std::vector<JudgedRound>& rounds, std::size_t visit, const std::string& where,
                  Faults& faults);

// What a plan is worth, as it follows from what it makes and what it leaves out.
struct PlanSums {
  int safety_put_off = 0;
  Money travel;
  Money waiting;
  Money put_off;
  PlanValue value() const { return {safety_put_off, travel + waiting + put_off}; }
};

// By `cause` figures of the plan are wrong that were right before. Of the bound's, why.
Faults::Cause judge_plan_sums(const GivenPlan& given, const PlanSums& sums, Faults::Cause cause, Faults& faults);
void judge_bound(const GivenPlan& given, const PlanValue& value, const Faults::Cause& cause, Faults& faults);

}  // namespace service::visits
