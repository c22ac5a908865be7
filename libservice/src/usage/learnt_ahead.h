// One meter's future, inside: what its parts (first passage, silence of the record, sample paths) share.
#pragma once

#include <cmath>
#include <map>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include "usage/ahead.h"
#include "usage/halving.h"
#include "usage/passage.h"

namespace service::usage {

// How use strays over a span of days: it comes in lumps, the rate is in doubt (by component), and the machine stands,
// now or before the span is over (odds).
struct Straying {
  double lump = 0;
  std::vector<RateDoubt> doubts;
  double stands = 0;
};

// The quietest weeks of the year.
struct Quiet {
  int middle = 0;      // the bin
  bool rests = false;  // so quiet that there is a season, and that says when the machine stands
};

class PlainOdds;
class UnservicedOdds;

// What was learnt of a meter, asked about its future. Many are asked one thing: each part is worked out when it is
// first needed. One thread at a time.
class LearntAhead : public UsageAhead {
 public:
  explicit LearntAhead(const AheadFrom& from);
  LearntAhead(const LearntAhead&) = delete;
  LearntAhead& operator=(const LearntAhead&) = delete;
  ~LearntAhead() override;

  std::optional<Amount> on(Day day, Quantile quantile) const override;
  bool may_have_come_to(Amount level, Day day) const override;
  std::optional<Day> reaches(Amount level, Quantile quantile) const override;
  std::unique_ptr<const ReachOdds> odds(Amount level, std::optional<Amount> every) const override;
  std::optional<Amount> mean(Day day) const override;
  std::unique_ptr<const ReachOdds> odds_since(Day from, Amount use) const override;
  std::unique_ptr<const UsagePath> draw(Draws& random, Probability season, int days) const override;
  const Grounds* grounds() const override;

  // The odds of one level are the same whoever asks: points that are due together share what was worked out.
  const PlainOdds& plain_odds(double left) const;
  // False where bounds tell that odds since the last reading are below even ones.
  bool may_be_even(double left, Day day) const;
  double expected(Day day) const { return rate_ * mean_days(day, 0, 0); }
  // Mean days of use from the last reading to the end of a day, in a season `shift` days late, beginning again after
  // `pause`.
  double mean_days(Day day, int shift, int pause) const;
  const std::vector<RateComponent>& components() const { return components_; }
  const PhaseShifts& shifts() const;
  // The day after `from` by which the mean comes to it, or the end.
  Day expected_day(double left, Day from) const { return expected_day(left, expected_on(from)); }
  Day expected_day(double left, ValueOn below) const;
  // The same where a day is known by which it has come.
  Day expected_day(double left, ValueOn below, ValueOn at) const {
    return first_day_at(below, at, left, [this](Day day) { return expected(day); });
  }
  ValueOn expected_on(Day day) const { return {day, expected(day)}; }
  Straying straying_between(Day from, Day to) const;
  double unserviced_at(double share) const { return late_->unserviced_at(share); }
  double left_to(Amount level) const { return static_cast<double>((level - last_.usage).hundredths) / 100 / unit_; }
  Day first() const { return last_.day; }
  Day as_of() const { return as_of_; }
  Day end() const { return end_; }

 private:
  void merge_alike();
  const Quiet& quiet() const;
  PhaseShifts learn_phase_shift() const;
  Grounds tell_grounds() const;
  Amount amount(double use) const {
    return last_.usage + Amount{static_cast<std::int64_t>(std::llround(use * unit_ * 100))};
  }
  Amount usage_at(Day day, double share) const;
  double rate_variance(const RateComponent& component) const;
  const std::vector<double>& days_by_step(int shift, int days) const;
  double season_doubt(Day from, Day to) const;

  const MeterHistory& history_;
  std::shared_ptr<const Learnt> holds_learnt_;
  const Learnt& learnt_;
  std::shared_ptr<const LateServices> late_;
  Knot last_;
  Day as_of_;
  Day end_;
  double unit_;
  double rate_ = 0;
  std::vector<RateComponent> components_;
  std::optional<Day> idle_from_;
  Day idle_to_{};
  RunningExposure exposure_;
  mutable std::optional<Quiet> quiet_;
  mutable PhaseShifts shifts_;  // empty: not worked out yet
  mutable std::optional<Grounds> grounds_;
  mutable std::optional<Amount> today_;                                    // at even odds
  mutable std::map<int, std::vector<double>> days_by_step_;                // by phase shift
  mutable std::map<int, std::optional<double>> season_doubts_;             // of sample paths, by their days
  mutable std::map<double, std::unique_ptr<const PlainOdds>> plain_odds_;  // by what is left
  mutable std::map<std::pair<double, double>, std::unique_ptr<const UnservicedOdds>> unserviced_;  // and the interval
};

}  // namespace service::usage
