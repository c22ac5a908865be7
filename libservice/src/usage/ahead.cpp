#include "usage/ahead.h"

#include <algorithm>
#include <boost/random/gamma_distribution.hpp>
#include <boost/random/uniform_real_distribution.hpp>
#include <cmath>

#include "usage/constants.h"
#include "usage/gamma.h"
#include "usage/halving.h"

namespace service::usage {
namespace {

constexpr int longest_slip = 10;
constexpr double hundredths = 100;

double share_of(Quantile quantile) { return quantile == Quantile::p10 ? 0.1 : quantile == Quantile::p50 ? 0.5 : 0.9; }

class LearntAhead : public UsageAhead {
 public:
  explicit LearntAhead(AheadFrom from);

  std::optional<Amount> on(Day day, Quantile quantile) const override;
  std::optional<Day> reaches(Amount level, Quantile quantile) const override;
  std::unique_ptr<const ReachOdds> odds(Amount level, std::optional<Amount> every) const override;
  std::unique_ptr<const UsagePath> draw(std::mt19937_64& random, double season, int days) const override;
  const Grounds* grounds() const override { return &grounds_; }

  // Odds that use since the last reading has come to `left` by a day, with a spread of `spread`.
  double passed(double left, Day day, double spread) const;
  double expected(Day day) const { return level_ * mean_days(day, 0, 0); }
  // The day after `from` by which the mean comes to it, or the end.
  Day expected_day(double left, Day from) const;
  double spread_over(Day day) const { return spread_at(learnt_.spreads, days_between(last_.day, day)); }
  double unserviced_at(double share) const { return kind_->unserviced_at(share); }
  double left_to(Amount level) const {
    return static_cast<double>((level - last_.usage).hundredths) / hundredths / unit_;
  }
  Day first() const { return last_.day; }
  Day as_of() const { return as_of_; }
  Day end() const { return end_; }

 private:
  // Mean days of use from the last reading to the end of a day, in a season `slip` days late, beginning again after
  // `pause`.
  double mean_days(Day day, int slip, int pause) const;
  void merge_alike();
  void learn_slip(const MeterHistory& history);
  void tell_grounds();
  Amount amount(double hours) const {
    return last_.usage + Amount{static_cast<std::int64_t>(std::llround(hours * unit_ * hundredths))};
  }
  Amount usage_at(Day day, double share) const;
  double level_variance(const Level& level) const;

  Learnt learnt_;
  std::shared_ptr<const Kind> kind_;
  Knot last_;
  Day as_of_;
  Day end_;
  double unit_;
  double level_ = 0;
  std::optional<Day> idle_from_;
  Day idle_to_{};
  RunningWorth worth_;
  Slips slips_ = usual_slips();
  std::vector<Pause> pauses_;
  Grounds grounds_{};
  Amount today_;  // at even odds
};

LearntAhead::LearntAhead(AheadFrom from)
    : learnt_(std::move(from.learnt)),
      kind_(std::move(from.kind)),
      last_(from.history.knots().back()),
      as_of_(from.as_of),
      end_(add_months(from.as_of, horizon_months)),
      unit_(from.unit),
      level_(learnt_.levels.mean()),
      worth_(learnt_.profile, last_.day - std::chrono::days{366 + longest_slip},
             end_ + std::chrono::days{longest_slip}) {
  if (from.state.kind != UseKind::in_use) {
    idle_from_ = std::max(last_.day, from.state.since.value_or(last_.day));
    idle_to_ = from.state.until ? std::max(*idle_from_, *from.state.until) : end_ + std::chrono::days{1};
  }
  merge_alike();
  pauses_.push_back({0, 1});
  // How long it stands is known of a machine that was laid up, and is not to be guessed.
  if (learnt_.levels.idle > constants.idle_shown && !idle_from_) {
    pauses_.front().weight = 1 - learnt_.levels.idle;
    for (const int days : {18, 69, 179}) pauses_.push_back({days, learnt_.levels.idle / 3});  // set by hand
  }
  learn_slip(from.history);
  tell_grounds();
  today_ = as_of_ > last_.day ? usage_at(as_of_, 0.5) : last_.usage;
}

double LearntAhead::mean_days(Day day, int slip, int pause) const {
  const Day begin = last_.day + std::chrono::days{pause};
  if (day <= begin) return 0;
  const auto worth = [&](Day a, Day b) {
    return a < b ? worth_.to_end(a - std::chrono::days{slip}, b - std::chrono::days{slip}) : 0.0;
  };
  if (!idle_from_) return worth(begin, day);
  return worth(begin, std::min(day, *idle_from_)) + worth(std::max(begin, idle_to_), day);
}

// Two ideas of the level that say the same cost twice the time.
void LearntAhead::merge_alike() {
  auto& ideas = learnt_.levels.now;
  if (ideas.size() != 2) return;
  const Level& a = ideas[0];
  const Level& b = ideas[1];
  if (std::abs(a.mean() / b.mean() - 1) > 0.01 || std::abs(a.shape / b.shape - 1) > 0.25) return;
  const double mean = a.weight * a.mean() + b.weight * b.mean();
  const double shape = a.weight * a.shape + b.weight * b.shape;
  ideas = {{shape, shape / mean, 1}};
}

// A season under way tells by its use so far whether it began early or late.
void LearntAhead::learn_slip(const MeterHistory& history) {
  const Profile& profile = learnt_.profile;
  constexpr int bins = constants.quiet_days / 5;
  double quietest = 1e300;
  int at = 0;
  for (int b = 0; b < bin_count; ++b) {
    double sum = 0;
    for (int k = 0; k < bins; ++k) sum += profile[static_cast<std::size_t>((b + k) % bin_count)];
    if (sum / bins < quietest) {
      quietest = sum / bins;
      at = (b + bins / 2) % bin_count;
    }
  }
  if (quietest >= constants.quiet_level) return;
  Day middle = last_.day;
  for (int back = 0; back <= 366 && bin_of(middle) != at; ++back) middle -= std::chrono::days{1};
  const auto then = history.on(middle);
  if (days_between(middle, last_.day) <= constants.least_season_days || !then || middle < history.knots().front().day) {
    return;
  }
  const double use = std::max(static_cast<double>((last_.usage - *then).hundredths) / hundredths / unit_, 0.1);
  double sum = 0;
  std::array<double, 5> logs{};
  for (std::size_t i = 0; i < slips_.size(); ++i) {
    const auto slip = std::chrono::days{slips_[i].days};
    const double mean = std::max(level_ * worth_.between(middle - slip, last_.day - slip), 1e-6);
    const double scale = learnt_.spreads[0] + 0.0225 * mean;
    const double shape = mean / scale;
    logs[i] = (shape - 1) * std::log(use / scale) - use / scale - log_gamma(shape) - std::log(scale) +
              std::log(slips_[i].weight);
  }
  const double most = *std::max_element(logs.begin(), logs.end());
  for (const double each : logs) sum += std::exp(each - most);
  for (std::size_t i = 0; i < slips_.size(); ++i) slips_[i].weight = std::exp(logs[i] - most) / sum;
}

void LearntAhead::tell_grounds() {
  grounds_.stretches = learnt_.stretches;
  grounds_.years = learnt_.own_years;
  grounds_.others = learnt_.others;
  grounds_.expected = learnt_.expected;
  grounds_.expected_seasons = learnt_.expected_seasons;
  grounds_.per_year = level_ * year_days * unit_;
  if (learnt_.mean_days > 0) grounds_.so_far = learnt_.used / learnt_.mean_days * year_days * unit_;
  grounds_.lump = learnt_.spreads[0] * unit_;
  grounds_.idle = learnt_.levels.idle;
  for (unsigned month = 1; month <= 12; ++month) {
    const auto first = std::chrono::year{2023} / std::chrono::month{month} / 1;
    const Day from = std::chrono::sys_days{first};
    const Day to = std::chrono::sys_days{first + std::chrono::months{1}};
    double sum = 0;
    for (Day day = from; day < to; day += std::chrono::days{1})
      sum += learnt_.profile[static_cast<std::size_t>(bin_of(day))];
    grounds_.months[month - 1] = sum / 365;
  }
}

double LearntAhead::passed(double left, Day day, double spread) const {
  if (left <= 0) return day >= last_.day ? 1 : 0;
  if (day <= last_.day) return 0;
  double sum = 0;
  for (const Pause& pause : pauses_) {
    for (const Slip& slip : slips_) {
      const double days = mean_days(day, slip.days, pause.days);
      if (days <= 0) continue;
      double of_levels = 0;
      for (const Level& level : learnt_.levels.now) {
        const double mean = level.mean() * days;
        const double variance = spread + mean * level_variance(level);
        of_levels += level.weight * upper_gamma(mean / variance, left / variance);
      }
      sum += pause.weight * slip.weight * of_levels;
    }
  }
  return sum;
}

// What is not known of the level and of the profile, as a share squared. With a long history the level's own error is
// in the measured spread already.
double LearntAhead::level_variance(const Level& level) const {
  const double counted = level.shape <= constants.certain_shape
                             ? 1.0
                             : constants.long_history / (constants.long_history + learnt_.predicted_use);
  return counted / level.shape + constants.profile_doubt * std::exp(-learnt_.known_years);
}

Day LearntAhead::expected_day(double left, Day from) const {
  if (expected(end_) < left) return end_;
  return first_day(from, end_, [&](Day day) { return expected(day) >= left; });
}

Amount LearntAhead::usage_at(Day day, double share) const {
  const double spread = spread_over(day);
  double low = 0;
  double high = std::max(1.0, 2 * expected(day));
  while (passed(high, day, spread) > 1 - share && high < 1e9) high *= 2;
  for (int i = 0; i < 40 && high - low > 0.004; ++i) {
    const double middle = (low + high) / 2;
    (passed(middle, day, spread) >= 1 - share ? low : high) = middle;
  }
  return amount(low);
}

std::optional<Amount> LearntAhead::on(Day day, Quantile quantile) const {
  if (day <= last_.day) return last_.usage;
  if (day == as_of_ && quantile == Quantile::p50) return today_;
  return usage_at(day, share_of(quantile));
}

// As read off the record, without regard to services that nobody wrote down.
class PlainOdds : public ReachOdds {
 public:
  PlainOdds(const LearntAhead& ahead, double left)
      : ahead_(ahead),
        left_(left),
        likely_(ahead.expected_day(left, ahead.first())),
        spread_(ahead.spread_over(likely_)) {}
  double by(Day day) const override { return ahead_.passed(left_, day, spread_); }
  std::optional<Day> likely() const override { return likely_; }

 private:
  const LearntAhead& ahead_;
  double left_;
  Day likely_;
  double spread_;
};

std::optional<Day> LearntAhead::reaches(Amount level, Quantile quantile) const {
  const double left = left_to(level);
  if (left <= 0) return last_.day;
  return first_day_with(PlainOdds(*this, left), share_of(quantile), last_.day, end_);
}

// The same, held against the silence of the record: had it come long ago, somebody would have written down a service.
// Each day's odds of coming are weighted by the odds that an element is still in at the use that would have followed.
class UnservicedOdds : public ReachOdds {
 public:
  UnservicedOdds(const LearntAhead& ahead, double left, double every) : plain_(ahead, left) {
    constexpr double fresh = 0.55;  // of its interval; below that nobody changes it, so the weight is that of 0
    const double now = ahead.expected(ahead.as_of());
    to_ = ahead.expected_day(now + (1 - fresh) * every, ahead.as_of());
    if (plain_.by(to_) < negligible) {
      from_ = to_;  // it comes so much later that nothing is to be weighed
    } else {
      // Mostly next to nothing could have come before as-of.
      const bool late = plain_.by(ahead.as_of()) < negligible;
      from_ = late ? ahead.as_of() : first_day_with(plain_, negligible, ahead.first(), to_).value_or(to_);
    }
    const int days = days_between(from_, to_);
    step_ = std::max(1, (days + most_steps - 1) / most_steps);
    double mass = 0;
    double odds = plain_.by(from_);
    for (Day day = from_; day < to_;) {
      const Day next = std::min(day + std::chrono::days{step_}, to_);
      const double later = plain_.by(next);
      const Day middle = day + std::chrono::days{days_between(day, next) / 2};
      const double weight = ahead.unserviced_at(1 - (ahead.expected(middle) - now) / every);
      steps_.push_back({mass, odds, weight});
      mass += (later - odds) * weight;
      odds = later;
      day = next;
    }
    steps_.push_back({mass, odds, ahead.unserviced_at(1 - (ahead.expected(to_) - now) / every)});
    whole_ = mass + (1 - odds) * steps_.back().weight;
  }

  std::optional<Day> likely() const override { return plain_.likely(); }

  double by(Day day) const override {
    if (whole_ <= 0) return plain_.by(day);
    if (day < from_) return 0;
    const auto i = std::min(steps_.size() - 1, static_cast<std::size_t>(days_between(from_, day) / step_));
    return (steps_[i].mass + (plain_.by(day) - steps_[i].odds) * steps_[i].weight) / whole_;
  }

 private:
  static constexpr int most_steps = 16;
  static constexpr double negligible = 1e-4;

  // From a day on: what was weighed before it, the plain odds by then, and the weight of the days up to the next.
  struct Step {
    double mass;
    double odds;
    double weight;
  };

  PlainOdds plain_;
  Day from_{};
  Day to_{};
  int step_ = 1;
  std::vector<Step> steps_;
  double whole_ = 1;
};

std::unique_ptr<const ReachOdds> LearntAhead::odds(Amount level, std::optional<Amount> every) const {
  const double left = left_to(level);
  const bool tells = every && every->hundredths > 0 && kind_->services_are_recorded();
  if (!tells || as_of_ <= last_.day || left <= 0) {
    return std::make_unique<PlainOdds>(*this, left);
  }
  return std::make_unique<UnservicedOdds>(*this, left, static_cast<double>(every->hundredths) / hundredths / unit_);
}

std::unique_ptr<const UsagePath> LearntAhead::draw(std::mt19937_64& random, double season, int days) const {
  constexpr int step = 7;
  boost::random::uniform_real_distribution<double> even(0, 1);
  const auto pick = [](const auto& choices, double where) -> const auto& {
    for (const auto& choice : choices) {
      if (where < choice.weight) return choice;
      where -= choice.weight;
    }
    return choices[0];
  };
  const int slip = pick(slips_, season).days;
  const int pause = pick(pauses_, even(random)).days;
  const Level& level = pick(learnt_.levels.now, even(random));
  // What a year's error has beyond a month's is the level's, not the lumps'.
  const double doubt = level_variance(level) + std::max(0.0, learnt_.spreads[2] - learnt_.spreads[0]) /
                                                   (year_days * std::max(level.mean(), 1e-9));
  const double times = boost::random::gamma_distribution<double>(1 / doubt, doubt)(random);
  // Where long stretches stray less than short ones, lumps make up for each other; the middle serves both.
  const double scale = std::min(learnt_.spreads[0], std::sqrt(learnt_.spreads[0] * learnt_.spreads[2]));
  double use = 0;
  double before = 0;
  std::vector<Amount> usage;
  for (int day = 0;; day += step) {
    const double reached = mean_days(as_of_ + std::chrono::days{day}, slip, pause);
    const double shape = level.mean() * times * (reached - before) / scale;
    if (shape > 1e-9) use += boost::random::gamma_distribution<double>(shape, scale)(random);
    usage.push_back(amount(use));
    before = reached;
    if (day >= days) break;
  }
  return std::make_unique<UsagePath>(as_of_, step, std::move(usage));
}

}  // namespace

Slips usual_slips() {
  Slips slips{};
  double sum = 0;
  for (std::size_t i = 0; i < slips.size(); ++i) {
    const double days = (static_cast<double>(i) - 2) * constants.slip_step;
    slips[i] = {static_cast<int>(days), std::exp(-0.5 * days * days / (constants.slip_sd * constants.slip_sd))};
    sum += slips[i].weight;
  }
  for (Slip& slip : slips) slip.weight /= sum;
  return slips;
}

std::unique_ptr<const UsageAhead> ahead_of(AheadFrom from) { return std::make_unique<LearntAhead>(std::move(from)); }

}  // namespace service::usage
