// One meter's future, inside: what its parts (first passage, silence of the record, sample paths) share.
#pragma once

#include <cmath>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include "usage/ahead.h"
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

// What was learnt of a meter, asked about its future. Many are asked one thing: each part is worked out when it is
// first needed. One thread at a time.
class LearntAhead : public UsageAhead {
 public:
  explicit LearntAhead(const AheadFrom& from);
  LearntAhead(const LearntAhead&) = delete;
  LearntAhead& operator=(const LearntAhead&) = delete;

  std::optional<Amount> on(Day day, Quantile quantile) const override;
  std::optional<Day> reaches(Amount level, Quantile quantile) const override;
  std::unique_ptr<const ReachOdds> odds(Amount level, std::optional<Amount> every) const override;
  std::optional<Amount> mean(Day day) const override;
  std::unique_ptr<const ReachOdds> odds_since(Day from, Amount use) const override;
  std::unique_ptr<const UsagePath> draw(Draws& random, Probability season, int days) const override;
  const Grounds* grounds() const override;

  // Odds that use since the last reading has come to `left` by a day.
  double passed(double left, Day day, const Straying& straying) const {
    return passed_since(last_.day, left, day, straying);
  }
  // The same since a later day, whatever was used until then.
  double passed_since(Day from, double left, Day day, const Straying& straying) const;
  // False where bounds tell that odds since the last reading are below even ones.
  bool may_be_even(double left, Day day) const;
  double expected(Day day) const { return rate_ * mean_days(day, 0, 0); }
  // The day after `from` by which the mean comes to it, or the end.
  Day expected_day(double left, Day from) const;
  Straying straying_to(Day day) const { return straying_between(last_.day, day); }
  Straying straying_between(Day from, Day to) const;
  double unserviced_at(double share) const { return late_->unserviced_at(share); }
  double left_to(Amount level) const { return static_cast<double>((level - last_.usage).hundredths) / 100 / unit_; }
  Day first() const { return last_.day; }
  Day as_of() const { return as_of_; }
  Day end() const { return end_; }

 private:
  // Mean days of use from the last reading to the end of a day, in a season `shift` days late, beginning again after
  // `pause`.
  double mean_days(Day day, int shift, int pause) const;
  void merge_alike();
  const Quiet& quiet() const;
  const PhaseShifts& shifts() const;
  PhaseShifts learn_phase_shift() const;
  Grounds tell_grounds() const;
  Passage passage_to(Day day, const Straying& straying) const;
  Amount amount(double use) const {
    return last_.usage + Amount{static_cast<std::int64_t>(std::llround(use * unit_ * 100))};
  }
  Amount usage_at(Day day, double share) const;
  double rate_variance(const RateComponent& component) const;
  double season_doubt(Day from, Day to) const;
  double passed_after(int pause, double weight, Day from, double left, Day day, const Straying& straying) const;

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
  mutable std::optional<Amount> today_;  // at even odds
};

// The odds of a level as read off the record, without regard to services that nobody wrote down. They remember the days
// they were asked about, for the three quantiles of a span are searched on much the same days. One thread at a time.
class PlainOdds : public ReachOdds {
 public:
  PlainOdds(const LearntAhead& ahead, double left) : ahead_(ahead), left_(left) {}
  Probability by(Day day) const override {
    for (const auto& [asked, odds] : answers_) {
      if (asked == day) return odds;
    }
    if (!straying_) straying_ = ahead_.straying_to(*likely());
    return answers_.emplace_back(day, Probability{ahead_.passed(left_, day, *straying_)}).second;
  }
  std::optional<Day> likely() const override {
    if (!likely_) likely_ = ahead_.expected_day(left_, ahead_.first());
    return likely_;
  }
  bool may_be_even(Day day) const override { return ahead_.may_be_even(left_, day); }

 private:
  const LearntAhead& ahead_;
  double left_;
  mutable std::optional<Day> likely_;
  mutable std::optional<Straying> straying_;
  mutable std::vector<std::pair<Day, Probability>> answers_;
};

// The odds that so much has been used since a day ahead, known by nothing but the forecast. One thread at a time.
class SinceOdds : public ReachOdds {
 public:
  SinceOdds(const LearntAhead& ahead, Day from, double use)
      : ahead_(ahead),
        from_(from),
        use_(use),
        likely_(ahead.expected_day(ahead.expected(from) + use, from)),
        straying_(ahead.straying_between(from, likely_)) {}
  Probability by(Day day) const override { return Probability{ahead_.passed_since(from_, use_, day, straying_)}; }
  std::optional<Day> likely() const override { return likely_; }

 private:
  const LearntAhead& ahead_;
  Day from_;
  double use_;
  Day likely_;
  Straying straying_;
};

}  // namespace service::usage
