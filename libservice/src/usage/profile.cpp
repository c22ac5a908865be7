#include "usage/profile.h"

#include <algorithm>

#include "usage/constants.h"

namespace service::usage {
namespace {

Profile smoothed(const Profile& profile) {
  const double w = constants.smoothing;
  Profile out;
  for (std::size_t b = 0; b < bin_count; ++b) {
    const double before = profile[(b + bin_count - 1) % bin_count];
    const double after = profile[(b + 1) % bin_count];
    out[b] = (1 - 2 * w) * profile[b] + w * (before + after);
  }
  return out;
}

}  // namespace

Profile learn_profile(std::span<const std::vector<ReadingGap>* const> machines, const Profile& prior,
                      double prior_years) {
  const double prior_days = prior_years * year_days / bin_count;
  Profile behind;  // what no share of the readings changes
  for (std::size_t b = 0; b < bin_count; ++b) behind[b] = prior_days;
  for (const auto* gaps : machines) {
    for (const ReadingGap& gap : *gaps) {
      for (const auto& [bin, days] : gap.days) behind[static_cast<std::size_t>(bin)] += days;
    }
  }
  Profile shape = prior;
  std::vector<double> expected;
  for (int round = 0; round < constants.profile_rounds; ++round) {
    Profile share;
    for (std::size_t b = 0; b < bin_count; ++b) share[b] = prior_days * prior[b];
    for (const auto* gaps : machines) {
      double used = 0;
      double whole = 0;
      expected.clear();
      for (const ReadingGap& gap : *gaps) {
        expected.push_back(exposure(shape, gap.days));
        used += gap.use;
        whole += expected.back();
      }
      // A machine without use says nothing of when it is used, but its days are among those without use.
      if (used <= 0 || whole <= 0) continue;
      const double rate = used / whole;
      for (std::size_t i = 0; i < gaps->size(); ++i) {
        const ReadingGap& gap = (*gaps)[i];
        if (gap.use <= 0 || expected[i] <= 0) continue;
        const double factor = gap.use / (expected[i] * rate);
        for (const auto& [bin, days] : gap.days) {
          const auto b = static_cast<std::size_t>(bin);
          share[b] += shape[b] * days * factor;
        }
      }
    }
    for (std::size_t b = 0; b < bin_count; ++b) shape[b] = share[b] / behind[b];
    shape = smoothed(shape);
    make_mean_one(shape);
  }
  return shape;
}

std::optional<Profile> expected_profile(const Expect& expect, const Fleet& fleet) {
  if (expect.by_season.empty()) return std::nullopt;
  constexpr int any_year = 2023;  // no leap year: 365 days in 73 bins
  Profile hours{};
  Profile taken{};  // days of the bin that lie in a season
  double named = 0;
  for (const auto& [name, amount] : expect.by_season) {
    const Season* season = fleet.season(name);
    if (season == nullptr) continue;
    const auto [from, to] = days_of(*season, any_year);
    const double use = static_cast<double>(amount.hundredths) / 100;
    const int days = days_between(from, to) + 1;
    for (Day day = from; day <= to; day += std::chrono::days{1}) {
      const auto bin = static_cast<std::size_t>(bin_of(day));
      hours[bin] += use / days;
      taken[bin] += 1;
    }
    named += use;
  }
  double free_days = 0;
  for (double& days : taken) {
    days = std::min(days, double{bin_days});
    free_days += bin_days - days;
  }
  const double year = expect.per_year ? static_cast<double>(expect.per_year->hundredths) / 100 : named;
  const double rest = free_days > 0 ? std::max(0.0, year - named) / free_days : 0;
  double whole = 0;
  for (std::size_t b = 0; b < bin_count; ++b) {
    hours[b] += rest * (bin_days - taken[b]);
    whole += hours[b];
  }
  if (whole <= 0) return std::nullopt;
  constexpr double least = 0.01;  // a bin without any use could never gain a share of it
  for (double& bin : hours) bin = std::max(bin / whole * bin_count, least);
  make_mean_one(hours);
  return hours;
}

}  // namespace service::usage
