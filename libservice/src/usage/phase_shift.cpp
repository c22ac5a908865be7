// How early or late the season is: the prior, and what its use so far tells.
#include <algorithm>
#include <array>
#include <cmath>

#include "usage/constants.h"
#include "usage/gamma.h"
#include "usage/learnt_ahead.h"

namespace service::usage {

PhaseShifts prior_phase_shifts() {
  // A normal shift as three values with their weights (Gauss-Hermite, as in first_passage).
  const int days = static_cast<int>(std::lround(constants.shift_sd * std::sqrt(3.0)));
  return {{-days, 1.0 / 6}, {0, 2.0 / 3}, {days, 1.0 / 6}};
}

const Quiet& LearntAhead::quiet() const {
  if (quiet_) return *quiet_;
  const Profile& profile = learnt_.profile;
  constexpr int bins = constants.quiet_days / bin_days;
  double quietest = 1e300;
  quiet_.emplace();
  std::array<double, bin_count + bins> round_the_year;  // and on into the next
  std::copy(profile.begin(), profile.end(), round_the_year.begin());
  std::copy_n(profile.begin(), bins, round_the_year.begin() + bin_count);
  for (int b = 0; b < bin_count; ++b) {
    double sum = 0;
    for (int k = 0; k < bins; ++k) sum += round_the_year[static_cast<std::size_t>(b + k)];
    if (sum / bins < quietest) {
      quietest = sum / bins;
      quiet_->middle = (b + bins / 2) % bin_count;
    }
  }
  quiet_->rests = quietest < constants.quiet_share;
  return *quiet_;
}

const PhaseShifts& LearntAhead::shifts() const {
  if (shifts_.empty()) shifts_ = learn_phase_shift();
  return shifts_;
}

// A season under way tells by its use so far whether it began early or late.
PhaseShifts LearntAhead::learn_phase_shift() const {
  if (!quiet().rests) return {PhaseShift{0, 1}};  // nothing to be early or late
  PhaseShifts shifts = prior_phase_shifts();
  // Back to that bin, most of the way at once: none is shorter than five days.
  const int bins_back = (bin_of(last_.day) - quiet().middle + bin_count) % bin_count;
  Day middle = last_.day - std::chrono::days{bin_days * std::max(0, bins_back - 1)};
  for (int back = 0; back <= 366 && bin_of(middle) != quiet().middle; ++back) middle -= std::chrono::days{1};
  const auto then = history_.on(middle);
  if (days_between(middle, last_.day) <= constants.least_season_days || !then ||
      middle < history_.knots().front().day) {
    return shifts;
  }
  const double use =
      std::max(static_cast<double>((last_.usage - *then).hundredths) / 100 / unit_, constants.least_season_use);
  double sum = 0;
  std::vector<double> logs(shifts.size());
  for (std::size_t i = 0; i < shifts.size(); ++i) {
    const auto shift = std::chrono::days{shifts[i].days};
    const double mean = std::max(rate_ * exposure_.between(middle - shift, last_.day - shift), 1e-6);
    const double scale = learnt_.spread.lump + constants.shift_error * mean;
    const double shape = mean / scale;
    logs[i] = (shape - 1) * std::log(use / scale) - use / scale - log_gamma(shape) - std::log(scale) +
              std::log(shifts[i].weight);
  }
  const double most = *std::max_element(logs.begin(), logs.end());
  for (const double each : logs) sum += std::exp(each - most);
  for (std::size_t i = 0; i < shifts.size(); ++i) shifts[i].weight = std::exp(logs[i] - most) / sum;
  return shifts;
}

}  // namespace service::usage
