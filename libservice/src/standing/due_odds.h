// The race of limbs as odds: when a point that no fact has brought to its due point will come due.
#pragma once

#include <memory>
#include <vector>

#include "service/standing.h"
#include "standing/view.h"

namespace service {

class DueOdds : public ReachOdds {
 public:
  // `point` with its limbs, none of them reached.
  DueOdds(const Point& point, const MachineView& view);

  bool known() const { return cap_ || !usage_.empty() || !changes_.empty(); }

  // Limbs race: the odds that none has come are multiplied.
  Probability by(Day day) const override;
  std::optional<Day> likely(Probability level) const override;
  bool may_be_even(Day day) const override;

  // p10, p50 and p90 from as-of to the end of the horizon.
  DueSpan span() const;

 private:
  Day from_;
  Day to_;
  std::optional<Day> cap_;  // the earliest day that is certain
  std::vector<std::unique_ptr<const ReachOdds>> usage_;
  std::vector<DueSpan> changes_;
};

}  // namespace service
