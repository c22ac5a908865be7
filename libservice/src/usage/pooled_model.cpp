#include "usage/pooled_model.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace service::usage {
namespace {

double total_use(const std::vector<ReadingGap>& gaps) {
  double sum = 0;
  for (const ReadingGap& gap : gaps) sum += gap.use;
  return sum;
}

double total_exposure(const std::vector<ReadingGap>& gaps, const Profile& profile) {
  double sum = 0;
  for (const ReadingGap& gap : gaps) sum += exposure(profile, gap.days);
  return sum;
}

double years_of(const std::vector<ReadingGap>& gaps) {
  return gaps.empty() ? 0 : days_between(gaps.front().from, gaps.back().to) / year_days;
}

}  // namespace

PooledModel::PooledModel(std::vector<Trace> traces, Lateness lateness, bool services_are_recorded,
                         const ForecastConstants& use)
    : lateness_(std::move(lateness)), services_are_recorded_(services_are_recorded) {
  std::sort(lateness_.begin(), lateness_.end());
  for (Trace& trace : traces) {
    index_.emplace(trace.machine, members_.size());
    Member member;
    member.use = total_use(trace.gaps);
    member.years = years_of(trace.gaps);
    member.trace = std::move(trace);
    members_.push_back(std::move(member));
  }
  learn_profiles();
  learn_prior_rates();
  learn_rates(use);
  learn_spreads(use);
}

// The shape of the kind's year, then of each machine's.
void PooledModel::learn_profiles() {
  std::vector<const std::vector<ReadingGap>*> used;
  for (const Member& member : members_) {
    if (member.use > 0) used.push_back(&member.trace.gaps);
  }
  used_machines_ = used.size();
  const bool alone = used.size() < 2;
  const Profile pooled = alone ? flat_profile() : learn_profile(used, flat_profile(), constants.years_behind_flat);
  for (Member& member : members_) {
    const bool says_seasons = member.trace.expected_shape.has_value();
    const Profile& prior = says_seasons ? *member.trace.expected_shape : pooled;
    const double behind = alone && !says_seasons ? constants.years_behind_flat : constants.years_behind_kind;
    const std::vector<ReadingGap>* const own[] = {&member.trace.gaps};
    member.learnt.profile = member.use > 0 ? learn_profile(own, prior, behind) : prior;
    member.learnt.mean_days = total_exposure(member.trace.gaps, member.learnt.profile);
  }
}

// The rate before a machine's own readings: what its owner says, else the mean of the kind's others.
void PooledModel::learn_prior_rates() {
  double weights = 0;
  double weighted = 0;
  std::vector<std::pair<double, double>> share(members_.size());  // weight, weight x rate
  for (std::size_t i = 0; i < members_.size(); ++i) {
    const Member& member = members_[i];
    const double days = member.years * year_days;
    if (days <= constants.shortest_for_kind || member.learnt.mean_days <= 0) continue;
    const double weight = std::min(days, constants.longest_for_kind);
    share[i] = {weight, weight * member.use / member.learnt.mean_days};
    weights += share[i].first;
    weighted += share[i].second;
  }
  for (std::size_t i = 0; i < members_.size(); ++i) {
    Member& member = members_[i];
    const double others = weights - share[i].first;
    member.prior_rate = constants.hours_a_year / year_days;
    if (member.trace.expected_rate && *member.trace.expected_rate > 0) {
      member.prior_rate = *member.trace.expected_rate;
      member.learnt.expected = true;
    } else if (others > 1e-9 && weighted - share[i].second > 0) {
      member.prior_rate = (weighted - share[i].second) / others;
    }
    member.known = member.learnt.expected || others > 1e-9 || !member.trace.gaps.empty();
  }
}

// Dispersions, then rates: each from the machine's own past, leaning on the kind's.
void PooledModel::learn_rates(const ForecastConstants& use) {
  std::vector<std::vector<Window>> windows(members_.size());
  std::vector<Scatter> errors(members_.size());
  Scatter all;
  for (std::size_t i = 0; i < members_.size(); ++i) {
    windows[i] = windows_of(members_[i].trace.gaps, members_[i].learnt.profile);
    errors[i] = window_errors(windows[i]);
    all.add(errors[i]);
  }
  const double pooled = pooled_dispersion(all);
  for (std::size_t i = 0; i < members_.size(); ++i) {
    Member& member = members_[i];
    Learnt& learnt = member.learnt;
    learnt.dispersion = dispersion_of(errors[i], pooled, use);
    learnt.rate = filter_rate(windows[i], learnt.profile, member.prior_rate, learnt.dispersion, use);
    member.errors = past_errors(windows[i], learnt.rate);
  }
}

void PooledModel::learn_spreads(const ForecastConstants& use) {
  Scatters all;
  double all_years = 0;
  for (const Member& member : members_) {
    for (std::size_t s = 0; s < all.size(); ++s) all[s].add(member.errors[s]);
    all_years += std::min(member.years, constants.most_years);
  }
  const Spreads pooled = pooled_spread(all);
  for (Member& member : members_) {
    Learnt& learnt = member.learnt;
    const double own_years = std::min(member.years, constants.most_years);
    learnt.own_years = member.years;
    learnt.known_years = own_years + (all_years - own_years) / 2;
    learnt.used = member.use;
    learnt.gaps = static_cast<int>(member.trace.gaps.size());
    learnt.others = static_cast<int>(used_machines_) - (member.use > 0 ? 1 : 0);
    learnt.expected_seasons = member.trace.expected_shape.has_value();
    learnt.predicted_use = member.errors[2].means;
    learnt.spreads = spread_of(member.errors, pooled, {learnt.known_years, member.use, learnt.rate.mean()}, use);
  }
}

std::optional<Learnt> PooledModel::of(const std::string& machine) const {
  const auto found = index_.find(machine);
  if (found == index_.end() || !members_[found->second].known) return std::nullopt;
  return members_[found->second].learnt;
}

double PooledModel::unserviced_at(double share) const {
  if (!services_are_recorded_) return 1;
  const double prior = 0.5 * std::erfc((share - 1) / (constants.lateness_spread * std::numbers::sqrt2));
  const auto later = lateness_.end() - std::upper_bound(lateness_.begin(), lateness_.end(), share);
  const double n = constants.lateness_prior + static_cast<double>(lateness_.size());
  return std::max(constants.least_unserviced, (constants.lateness_prior * prior + static_cast<double>(later)) / n);
}

}  // namespace service::usage
