#include "usage/kind.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace service::usage {
namespace {

double total_use(const std::vector<Stretch>& stretches) {
  double sum = 0;
  for (const Stretch& stretch : stretches) sum += stretch.use;
  return sum;
}

double total_worth(const std::vector<Stretch>& stretches, const Profile& profile) {
  double sum = 0;
  for (const Stretch& stretch : stretches) sum += worth(profile, stretch.days);
  return sum;
}

double years_of(const std::vector<Stretch>& stretches) {
  return stretches.empty() ? 0 : days_between(stretches.front().from, stretches.back().to) / year_days;
}

void add(Scatter& sum, const Scatter& more) {
  sum.squares += more.squares;
  sum.means += more.means;
}

}  // namespace

Kind::Kind(std::vector<Trace> traces, Lateness lateness, bool services_are_recorded, const ForecastConstants& use)
    : lateness_(std::move(lateness)), services_are_recorded_(services_are_recorded) {
  std::sort(lateness_.begin(), lateness_.end());
  for (Trace& trace : traces) {
    index_.emplace(trace.machine, members_.size());
    Member member;
    member.use = total_use(trace.stretches);
    member.years = years_of(trace.stretches);
    member.trace = std::move(trace);
    members_.push_back(std::move(member));
  }

  // The shape of the kind's year, then of each machine's.
  std::vector<const std::vector<Stretch>*> used;
  for (const Member& member : members_) {
    if (member.use > 0) used.push_back(&member.trace.stretches);
  }
  used_machines_ = used.size();
  const bool alone = used.size() < 2;
  if (!alone) shape_ = learn_profile(used, flat_profile(), constants.years_behind_flat);
  double all_years = 0;
  for (Member& member : members_) {
    const bool says_seasons = member.trace.expected_shape.has_value();
    const Profile& prior = says_seasons ? *member.trace.expected_shape : shape_;
    const double behind = alone && !says_seasons ? constants.years_behind_flat : constants.years_behind_kind;
    const std::vector<Stretch>* const own[] = {&member.trace.stretches};
    member.learnt.profile = member.use > 0 ? learn_profile(own, prior, behind) : prior;
    all_years += std::min(member.years, constants.most_years);
  }

  // The level of the kind: a mean over its machines, without the one that asks.
  double weights = 0;
  double weighted = 0;
  std::vector<std::pair<double, double>> share(members_.size());  // weight, weight x level
  for (std::size_t i = 0; i < members_.size(); ++i) {
    const Member& member = members_[i];
    const double days = member.years * year_days;
    if (days <= constants.shortest_for_kind) continue;
    const double mean_days = total_worth(member.trace.stretches, member.learnt.profile);
    if (mean_days <= 0) continue;
    const double weight = std::min(days, constants.longest_for_kind);
    share[i] = {weight, weight * member.use / mean_days};
    weights += share[i].first;
    weighted += share[i].second;
  }

  // Clumps, then levels, then spread: each from the machine's own past, leaning on the kind's.
  std::vector<std::vector<Window>> windows(members_.size());
  std::vector<Scatter> clumps(members_.size());
  Scatter all_clumps;
  for (std::size_t i = 0; i < members_.size(); ++i) {
    windows[i] = windows_of(members_[i].trace.stretches, members_[i].learnt.profile);
    clumps[i] = clump_scatter(windows[i]);
    add(all_clumps, clumps[i]);
  }
  const double kind_clump = clump_of_kind(all_clumps);
  std::vector<Scatters> errors(members_.size());
  Scatters all_errors;
  for (std::size_t i = 0; i < members_.size(); ++i) {
    Member& member = members_[i];
    Learnt& learnt = member.learnt;
    const double others = weights - share[i].first;
    double level = constants.hours_a_year / year_days;
    if (member.trace.expected_level && *member.trace.expected_level > 0) {
      level = *member.trace.expected_level;
      learnt.expected = true;
    } else if (others > 1e-9 && weighted - share[i].second > 0) {
      level = (weighted - share[i].second) / others;
    }
    member.known = learnt.expected || others > 1e-9 || !member.trace.stretches.empty();
    learnt.clump = clump_of(clumps[i], kind_clump, use);
    learnt.levels = follow(windows[i], learnt.profile, level, learnt.clump, use);
    errors[i] = past_errors(windows[i], learnt.levels);
    for (std::size_t s = 0; s < errors[i].size(); ++s) add(all_errors[s], errors[i][s]);
  }
  const Spreads kind_spreads = spread_of_kind(all_errors);
  for (std::size_t i = 0; i < members_.size(); ++i) {
    Member& member = members_[i];
    Learnt& learnt = member.learnt;
    const double own_years = std::min(member.years, constants.most_years);
    learnt.own_years = member.years;
    learnt.known_years = own_years + (all_years - own_years) / 2;
    learnt.used = member.use;
    learnt.mean_days = total_worth(member.trace.stretches, learnt.profile);
    learnt.stretches = static_cast<int>(member.trace.stretches.size());
    learnt.others = static_cast<int>(used_machines_) - (member.use > 0 ? 1 : 0);
    learnt.expected_seasons = member.trace.expected_shape.has_value();
    learnt.predicted_use = errors[i][2].means;
    learnt.spreads = spread_of(errors[i], kind_spreads, {learnt.known_years, member.use, learnt.levels.mean()}, use);
  }
}

std::optional<Learnt> Kind::of(const std::string& machine) const {
  const auto found = index_.find(machine);
  if (found == index_.end() || !members_[found->second].known) return std::nullopt;
  return members_[found->second].learnt;
}

double Kind::unserviced_at(double share) const {
  if (!services_are_recorded_) return 1;
  const double prior = 0.5 * std::erfc((share - 1) / (constants.lateness_spread * std::numbers::sqrt2));
  const auto later = lateness_.end() - std::upper_bound(lateness_.begin(), lateness_.end(), share);
  const double n = constants.lateness_prior + static_cast<double>(lateness_.size());
  return std::max(constants.least_unserviced, (constants.lateness_prior * prior + static_cast<double>(later)) / n);
}

}  // namespace service::usage
