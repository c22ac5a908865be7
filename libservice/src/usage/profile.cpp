#include "usage/profile.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <numeric>

#include "usage/constants.h"

namespace service::usage {
namespace {

// Filled up to whole vectors of any width; what is beyond the bins stays as it is made.
constexpr std::size_t padded_count = 76;
using Padded = std::array<double, padded_count>;

// The gaps of some machines, laid out to be gone over again and again.
class Rounds {
 public:
  Rounds(std::span<const std::vector<ReadingGap>* const> machines, double prior_days) {
    behind_.fill(prior_days);
    for (const auto* gaps : machines) {
      double used = 0;
      for (const ReadingGap& gap : *gaps) {
        used += gap.use;
        for (const auto& [bin, days] : gap.days) {
          behind_[static_cast<std::size_t>(bin)] += days;
          bins_.push_back(static_cast<std::uint8_t>(bin));
          days_.push_back(days);
        }
        gaps_.push_back({gap.use, days_.size()});
      }
      machines_.push_back({used, gaps_.size()});
    }
    parts_.resize(days_.size());
    expected_.resize(gaps_.size());
  }

  // The use in the gaps, shared out by a shape, is added to `share`.
  void add_shares(const Padded& shape, Padded& share) {
    std::size_t gap = 0;
    std::size_t from = 0;
    for (const Used& machine : machines_) {
      const std::size_t first_gap = gap;
      const std::size_t first = from;
      double whole = 0;
      for (std::size_t at = first; gap < machine.end; ++gap) {
        double sum = 0;
        for (; at < gaps_[gap].end; ++at) sum += parts_[at] = shape[bins_[at]] * days_[at];
        expected_[gap] = sum;
        whole += sum;
        from = at;
      }
      // A machine without use says nothing of when it is used, but its days are among those without use.
      if (machine.use <= 0 || whole <= 0) continue;
      const double rate = machine.use / whole;
      std::size_t at = first;
      for (std::size_t i = first_gap; i < machine.end; ++i) {
        const std::size_t end = gaps_[i].end;
        if (gaps_[i].use > 0 && expected_[i] > 0) {
          const double factor = gaps_[i].use / (expected_[i] * rate);
          for (; at < end; ++at) share[bins_[at]] += parts_[at] * factor;
        }
        at = end;
      }
    }
  }

  const Padded& behind() const { return behind_; }  // what no share of the readings changes

 private:
  struct Used {
    double use;
    std::size_t end;  // of its parts; of a machine: of its gaps
  };

  std::vector<std::uint8_t> bins_;
  std::vector<double> days_;
  std::vector<double> parts_;  // of the days, by the shape
  std::vector<Used> gaps_;
  std::vector<double> expected_;
  std::vector<Used> machines_;
  Padded behind_{};
};

void smooth(Padded& shape) {
  const double w = constants.smoothing;
  std::array<double, padded_count + 2> around{};
  std::copy(shape.begin(), shape.end(), around.begin() + 1);
  around[0] = shape[bin_count - 1];
  around[bin_count + 1] = shape[0];
  for (std::size_t b = 0; b < padded_count; ++b) {
    shape[b] = (1 - 2 * w) * around[b + 1] + w * (around[b] + around[b + 2]);
  }
}

void make_padded_mean_one(Padded& shape) {
  const double mean = std::accumulate(shape.begin(), shape.begin() + bin_count, 0.0) / bin_count;
  for (double& each : shape) each /= mean;
}

}  // namespace

Profile learn_profile(std::span<const std::vector<ReadingGap>* const> machines, const Profile& prior,
                      double prior_years) {
  const double prior_days = prior_years * year_days / bin_count;
  Rounds rounds(machines, prior_days);
  Padded before{};
  Padded shape{};
  for (std::size_t b = 0; b < bin_count; ++b) {
    before[b] = prior_days * prior[b];
    shape[b] = prior[b];
  }
  for (int round = 0; round < constants.profile_rounds; ++round) {
    Padded share = before;
    rounds.add_shares(shape, share);
    const Padded& behind = rounds.behind();
    for (std::size_t b = 0; b < padded_count; ++b) shape[b] = share[b] / behind[b];
    smooth(shape);
    make_padded_mean_one(shape);
  }
  Profile learnt;
  std::copy(shape.begin(), shape.begin() + bin_count, learnt.begin());
  return learnt;
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
