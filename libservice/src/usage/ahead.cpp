#include "usage/ahead.h"

#include <algorithm>
#include <cmath>

#include "usage/constants.h"
#include "usage/learnt_ahead.h"
#include "usage/plain_odds.h"
#include "usage/unserviced.h"

namespace service::usage {
namespace {

double share_of(Quantile quantile) { return quantile == Quantile::p10 ? 0.1 : quantile == Quantile::p50 ? 0.5 : 0.9; }

// What the expectation holds, lent to whoever asks.
class SharedOdds : public ReachOdds {
 public:
  explicit SharedOdds(const ReachOdds& odds) : odds_(odds) {}
  Probability by(Day day) const override { return odds_.by(day); }
  std::optional<Day> likely(Probability level) const override { return odds_.likely(level); }
  bool may_be_even(Day day) const override { return odds_.may_be_even(day); }

 private:
  const ReachOdds& odds_;
};

}  // namespace

LearntAhead::LearntAhead(const AheadFrom& from)
    : history_(from.history),
      holds_learnt_(from.learnt),
      learnt_(*holds_learnt_),
      late_(from.late),
      last_(from.history.knots().back()),
      as_of_(from.as_of),
      end_(add_months(from.as_of, horizon_months)),
      unit_(from.unit),
      rate_(learnt_.rate.mean()),
      components_(learnt_.rate.components),
      exposure_(learnt_.profile, last_.day - std::chrono::days{366 + prior_phase_shifts().back().days},
                end_ + std::chrono::days{prior_phase_shifts().back().days}) {
  if (from.state.kind != UseKind::in_use) {
    idle_from_ = std::max(last_.day, from.state.since.value_or(last_.day));
    idle_to_ = from.state.until ? std::max(*idle_from_, *from.state.until) : end_ + std::chrono::days{1};
  }
  merge_alike();
}

LearntAhead::~LearntAhead() = default;

double LearntAhead::mean_days(Day day, int shift, int pause) const {
  const Day begin = last_.day + std::chrono::days{pause};
  if (day <= begin) return 0;
  const auto exposure = [&](Day a, Day b) {
    return a < b ? exposure_.to_end(a - std::chrono::days{shift}, b - std::chrono::days{shift}) : 0.0;
  };
  if (!idle_from_) return exposure(begin, day);
  return exposure(begin, std::min(day, *idle_from_)) + exposure(std::max(begin, idle_to_), day);
}

// Two components that say the same cost twice the time.
void LearntAhead::merge_alike() {
  if (components_.size() != 2) return;
  const RateComponent& a = components_[0];
  const RateComponent& b = components_[1];
  if (std::abs(a.mean() / b.mean() - 1) > constants.alike_mean ||
      std::abs(a.shape / b.shape - 1) > constants.alike_shape)
    return;
  const double mean = a.weight * a.mean() + b.weight * b.mean();
  const double shape = a.weight * a.shape + b.weight * b.shape;
  components_ = {{shape, shape / mean, 1}};
}

const Grounds* LearntAhead::grounds() const {
  if (!grounds_) grounds_ = tell_grounds();
  return &*grounds_;
}

Grounds LearntAhead::tell_grounds() const {
  Grounds grounds;
  grounds.gaps = learnt_.gaps;
  const auto& knots = history_.knots();
  const std::size_t first = history_.from_start() ? 1 : 0;
  grounds.readings = static_cast<int>(knots.size() - first);
  if (grounds.readings > 1) grounds.years = days_between(knots[first].day, knots.back().day) / year_days;
  grounds.start = history_.from_start();
  grounds.others = learnt_.others;
  grounds.expected = learnt_.expected;
  grounds.expected_seasons = learnt_.expected_seasons;
  grounds.per_year = rate_ * year_days * unit_;
  if (learnt_.mean_days > 0) grounds.so_far = learnt_.used / learnt_.mean_days * year_days * unit_;
  grounds.dispersion = learnt_.spread.lump * unit_;
  grounds.idle = Probability{learnt_.rate.idle};
  BinWalk walk(std::chrono::sys_days{std::chrono::year{2023} / 1 / 1});
  for (unsigned month = 1; month <= 12; ++month) {
    const auto first = std::chrono::year{2023} / std::chrono::month{month} / 1;
    const Day from = std::chrono::sys_days{first};
    const Day to = std::chrono::sys_days{first + std::chrono::months{1}};
    double sum = 0;
    for (Day day = from; day < to; day += std::chrono::days{1}, walk.next())
      sum += learnt_.profile[static_cast<std::size_t>(walk.bin())];
    grounds.months[month - 1] = sum / 365;
  }
  return grounds;
}

// So far on as a mean year's rate tells, and a little more: days that are not asked about need not be summed up.
Day LearntAhead::expected_day(double left, ValueOn below) const {
  constexpr double more = 1.1;
  for (;;) {
    const double days = std::clamp(more * (left - below.value) / rate_, 1.0, year_days);
    const ValueOn at = expected_on(std::min(below.day + std::chrono::days{static_cast<int>(std::ceil(days))}, end_));
    if (at.value >= left) return expected_day(left, below, at);
    if (at.day == end_) return end_;
    below = at;
  }
}

std::optional<Amount> LearntAhead::on(Day day, Quantile quantile) const {
  if (day <= last_.day) return last_.usage;
  if (day != as_of_ || quantile != Quantile::p50) return usage_at(day, share_of(quantile));
  if (!today_) today_ = usage_at(day, share_of(quantile));
  return today_;
}

// A hundredth less, for usage is rounded.
bool LearntAhead::may_have_come_to(Amount level, Day day) const {
  return day <= last_.day ? last_.usage >= level : may_be_even(left_to(level - Amount{1}), day);
}

std::optional<Day> LearntAhead::reaches(Amount level, Quantile quantile) const {
  const double left = left_to(level);
  if (left <= 0) return last_.day;
  return first_day_with(plain_odds(left), Probability{share_of(quantile)}, last_.day, end_);
}

const PlainOdds& LearntAhead::plain_odds(double left) const {
  auto& odds = plain_odds_[left];
  if (!odds) odds = std::make_unique<PlainOdds>(*this, last_.day, left);
  return *odds;
}

std::unique_ptr<const ReachOdds> LearntAhead::odds(Amount level, std::optional<Amount> every) const {
  const double left = left_to(level);
  const bool tells = every && every->hundredths > 0 && late_->recorded();
  if (!tells || as_of_ <= last_.day || left <= 0) return std::make_unique<SharedOdds>(plain_odds(left));
  const double interval = static_cast<double>(every->hundredths) / 100 / unit_;
  auto& odds = unserviced_[{left, interval}];
  if (!odds) odds = std::make_unique<UnservicedOdds>(*this, plain_odds(left), interval);
  return std::make_unique<SharedOdds>(*odds);
}

std::optional<Amount> LearntAhead::mean(Day day) const {
  return day <= last_.day ? last_.usage : amount(expected(day));
}

std::unique_ptr<const ReachOdds> LearntAhead::odds_since(Day from, Amount use) const {
  const double so_much = static_cast<double>(use.hundredths) / 100 / unit_;
  return std::make_unique<PlainOdds>(*this, std::max(from, last_.day), so_much);
}

std::unique_ptr<const UsageAhead> ahead_of(const AheadFrom& from) { return std::make_unique<LearntAhead>(from); }

}  // namespace service::usage
