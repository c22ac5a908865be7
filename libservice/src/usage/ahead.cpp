#include "usage/ahead.h"

#include <algorithm>
#include <cmath>

#include "usage/constants.h"
#include "usage/halving.h"
#include "usage/learnt_ahead.h"
#include "usage/unserviced.h"

namespace service::usage {
namespace {

double share_of(Quantile quantile) { return quantile == Quantile::p10 ? 0.1 : quantile == Quantile::p50 ? 0.5 : 0.9; }

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

// In growing steps: mostly it is near, and days that are not asked about need not be summed up.
Day LearntAhead::expected_day(double left, Day from) const {
  Day below = from;
  for (int step = constants.first_search_days;; step *= 2) {
    const Day at = std::min(below + std::chrono::days{step}, end_);
    if (expected(at) >= left) {
      return first_day(below, at, [&](Day day) { return expected(day) >= left; });
    }
    if (at == end_) return end_;
    below = at;
  }
}

std::optional<Amount> LearntAhead::on(Day day, Quantile quantile) const {
  if (day <= last_.day) return last_.usage;
  if (day != as_of_ || quantile != Quantile::p50) return usage_at(day, share_of(quantile));
  if (!today_) today_ = usage_at(day, share_of(quantile));
  return today_;
}

std::optional<Day> LearntAhead::reaches(Amount level, Quantile quantile) const {
  const double left = left_to(level);
  if (left <= 0) return last_.day;
  return first_day_with(PlainOdds(*this, left), Probability{share_of(quantile)}, last_.day, end_);
}

std::unique_ptr<const ReachOdds> LearntAhead::odds(Amount level, std::optional<Amount> every) const {
  const double left = left_to(level);
  const bool tells = every && every->hundredths > 0 && late_->recorded();
  if (!tells || as_of_ <= last_.day || left <= 0) {
    return std::make_unique<PlainOdds>(*this, left);
  }
  return std::make_unique<UnservicedOdds>(*this, left, static_cast<double>(every->hundredths) / 100 / unit_);
}

std::optional<Amount> LearntAhead::mean(Day day) const {
  return day <= last_.day ? last_.usage : amount(expected(day));
}

std::unique_ptr<const ReachOdds> LearntAhead::odds_since(Day from, Amount use) const {
  const double so_much = static_cast<double>(use.hundredths) / 100 / unit_;
  return std::make_unique<SinceOdds>(*this, std::max(from, last_.day), so_much);
}

std::unique_ptr<const UsageAhead> ahead_of(const AheadFrom& from) { return std::make_unique<LearntAhead>(from); }

}  // namespace service::usage
