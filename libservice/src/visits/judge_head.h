// What a plan says of itself: of which fleet it is, as of which day, of which week, in which money.
#pragma once

#include "visits/judge_parts.h"

namespace service::visits {

// One fault each of these is wrong; the first of all.
class JudgedHead {
 public:
  JudgedHead(const Week& week, const GivenPlan& given, Faults& faults);

  // Says behind each of them what is wrong because of it, once all else is judged. What breaks a rule is behind none.
  void put_behind();

 private:
  void judge_week();
  void judge_replanned();
  void put_work_behind(Faults::Number cause, const std::function<bool(const PlanFault&)>& is_of_it);
  bool is_outside(const PlanFault& fault) const;  // of a round on a day that is not in the week
  bool wants_other_work() const;
  bool is_of_other_week(const PlanFault& fault) const;

  const Week& week_;
  const GivenPlan& given_;
  Faults& faults_;
  Faults::Cause of_fleet_;
  Faults::Cause of_week_;
  Faults::Cause of_kept_;
  Faults::Cause of_money_;  // the day as of which it is, or the currency
};

}  // namespace service::visits
