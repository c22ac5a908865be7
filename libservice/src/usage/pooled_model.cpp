#include "usage/pooled_model.h"

#include <algorithm>
#include <cmath>

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

// The variance that a shape has by chance: of use in one of the pieces of a year that smoothing leaves independent.
double chance_of(double lump, double use) { return use > 0 ? constants.free_pieces * lump / use : 0; }

// A shape on the way from another one: as much of the difference as is not chance.
Profile towards(const Profile& from, const Profile& to, double chance) {
  double variance = 0;
  for (std::size_t b = 0; b < bin_count; ++b) variance += (to[b] - from[b]) * (to[b] - from[b]) / bin_count;
  const double kept = variance > 0 ? std::max(0.0, 1 - chance / variance) : 0;
  Profile shape;
  for (std::size_t b = 0; b < bin_count; ++b) shape[b] = from[b] + kept * (to[b] - from[b]);
  return shape;
}

// A season comes and goes by and by: what is known of one part of it is known a little less of the next.
void tell_neighbours(Profile& known) {
  const double k = std::exp(-bin_days / constants.season_days);
  for (int round = 0; round < 2; ++round) {
    for (std::size_t b = 0; b < bin_count; ++b) {
      known[(b + 1) % bin_count] = std::max(known[(b + 1) % bin_count], k * known[b]);
    }
    for (std::size_t b = bin_count; b-- > 0;) {
      known[b] = std::max(known[b], k * known[(b + 1) % bin_count]);
    }
  }
}

}  // namespace

PooledModel::PooledModel(std::vector<Trace> traces) {
  for (Trace& trace : traces) {
    Member member;
    member.use = total_use(trace.gaps);
    member.years = years_of(trace.gaps);
    member.trace = std::move(trace);
    members_.push_back(std::move(member));
  }
  learn_profiles();
  learn_prior_rates();
  learn_rates();
  learn_what_was_seen();
  learn_spreads();
}

// The shape of the kind's year, then of each machine's. What a shape owes to chance is taken off it: its variance
// beyond that of the lumps in which use comes is what the season explains (a positive-part shrinkage: James & Stein
// 1961, from memory).
void PooledModel::learn_profiles() {
  std::vector<const std::vector<ReadingGap>*> used;
  for (const Member& member : members_) {
    if (member.use > 0) used.push_back(&member.trace.gaps);
  }
  used_machines_ = used.size();
  const bool alone = used.size() < 2;
  const Profile flat = flat_profile();
  Profile pooled = flat;
  double lump = constants.dispersion_prior;
  if (!alone) {
    const Profile raw = learn_profile(used, flat, constants.years_behind_flat);
    Scatter all;
    double use = 0;
    for (const auto* gaps : used) {
      all.add(window_errors(windows_of(*gaps, raw)));
      use += total_use(*gaps);
    }
    lump = pooled_dispersion(all);
    pooled = towards(flat, raw, chance_of(lump, use));
  }
  for (Member& member : members_) {
    const bool says_seasons = member.trace.expected_shape.has_value();
    const Profile& prior = says_seasons ? *member.trace.expected_shape : pooled;
    const double behind = alone && !says_seasons ? constants.years_behind_flat : constants.years_behind_kind;
    const std::vector<ReadingGap>* const own[] = {&member.trace.gaps};
    Profile& profile = member.learnt.profile;
    profile = prior;
    if (member.use > 0) {
      const Profile raw = learn_profile(own, prior, behind);
      // A shape of so many free pieces explains as many windows, whatever they hold.
      const double own_lump = leaning(window_errors(windows_of(member.trace.gaps, raw)), lump, constants.free_pieces);
      const double weight = member.years / (member.years + behind);
      profile = towards(prior, raw, weight * weight * chance_of(own_lump, member.use));
    }
    member.learnt.mean_days = total_exposure(member.trace.gaps, profile);
  }
}

// The rate before a machine's own readings: what its owner says, else the mean of the kind's others, who differ by so
// much; else nothing but its own mean.
void PooledModel::learn_prior_rates() {
  double weights = 0;
  double weighted = 0;
  std::vector<std::pair<double, double>> share(members_.size());  // weight, rate
  for (std::size_t i = 0; i < members_.size(); ++i) {
    const Member& member = members_[i];
    if (member.learnt.mean_days <= 0 || member.use <= 0) continue;
    share[i] = {std::min(member.years * year_days, constants.longest_for_kind), member.use / member.learnt.mean_days};
    weights += share[i].first;
    weighted += share[i].first * share[i].second;
  }
  // How much the kind's machines differ: the variance of their rates over the squared mean.
  double differ = 0;
  double counted = 0;
  if (weights > 0 && weighted > 0) {
    const double mean = weighted / weights;
    for (const auto& [weight, rate] : share) {
      if (weight <= 0) continue;
      const double of_full = weight / (weight + constants.kin_half_days);
      differ += of_full * (rate / mean - 1) * (rate / mean - 1);
      counted += of_full;
    }
  }
  const double variance = (differ + constants.kin_machines * constants.kin_variance) /
                          (std::max(0.0, counted - 1) + constants.kin_machines);
  for (std::size_t i = 0; i < members_.size(); ++i) {
    Member& member = members_[i];
    const double others = weights - share[i].first;
    const double of_others = weighted - share[i].first * share[i].second;
    if (member.trace.expected_rate && *member.trace.expected_rate > 0) {
      member.prior_rate = {*member.trace.expected_rate, constants.owner_shape};
      member.learnt.expected = true;
    } else if (others > 1e-9 && of_others > 0) {
      member.prior_rate = {of_others / others, std::max(1 / variance, 1.0)};
    } else {
      member.prior_rate = {share[i].second > 0 ? share[i].second : 1, constants.own_shape};
    }
    member.known = member.learnt.expected || others > 1e-9 || !member.trace.gaps.empty();
  }
}

// Dispersions, then rates: each from the machine's own past, leaning on the kind's.
void PooledModel::learn_rates() {
  std::vector<std::vector<Window>> windows(members_.size());
  std::vector<Scatter> errors(members_.size());
  Scatter all;
  for (std::size_t i = 0; i < members_.size(); ++i) {
    windows[i] = windows_of(members_[i].trace.gaps, members_[i].learnt.profile);
    errors[i] = window_errors(windows[i]);
    all.add(errors[i]);
  }
  dispersion_ = pooled_dispersion(all);
  double stops = 0;
  double ran = 0;
  for (std::size_t i = 0; i < members_.size(); ++i) {
    Member& member = members_[i];
    Learnt& learnt = member.learnt;
    learnt.dispersion = dispersion_of(errors[i], dispersion_);
    learnt.rate = filter_rate(windows[i], learnt.profile, member.prior_rate, learnt.dispersion);
    member.errors = past_errors(windows[i], learnt.rate);
    learnt.rate.predicted = {};  // for these errors alone
    stops += learnt.rate.stops;
    ran += learnt.rate.ran_days;
  }
  const double prior_days = constants.days_behind_stops;
  const double usual = (stops + constants.stops_a_year) / (ran + year_days);
  for (Member& member : members_) {
    const RateMixture& rate = member.learnt.rate;
    member.learnt.stop_rate = (rate.stops + prior_days * usual) / (rate.ran_days + prior_days);
  }
}

// In how many years each part of the season was seen: own, and half of those of the kind's others.
void PooledModel::learn_what_was_seen() {
  Profile seen{};
  std::vector<Profile> own(members_.size());
  for (std::size_t i = 0; i < members_.size(); ++i) {
    for (const ReadingGap& gap : members_[i].trace.gaps) {
      // Of a long time between two readings nobody knows in which part of it the use fell.
      const double told = std::min(1.0, constants.told_days / std::max(1, days_between(gap.from, gap.to)));
      for (const auto& [bin, days] : gap.days) own[i][static_cast<std::size_t>(bin)] += told * days / bin_days;
    }
    for (std::size_t b = 0; b < bin_count; ++b) {
      own[i][b] = std::min(own[i][b], constants.most_years);
      seen[b] += own[i][b];
    }
  }
  for (std::size_t i = 0; i < members_.size(); ++i) {
    Learnt& learnt = members_[i].learnt;
    learnt.expected_seasons = members_[i].trace.expected_shape.has_value();
    Profile known{};
    for (std::size_t b = 0; b < bin_count; ++b) {
      known[b] = own[i][b] + (seen[b] - own[i][b]) / 2 + (learnt.expected_seasons ? 1 : 0);
    }
    tell_neighbours(known);
    for (std::size_t b = 0; b < bin_count; ++b) learnt.unseen[b] = std::exp(-known[b]);
  }
}

// The lumps and the doubts about the rate: own, leaning on the kind's, and those on what is usual.
void PooledModel::learn_spreads() {
  Scatter all;
  for (const Member& member : members_) all.add(member.errors[0].scatter);
  const double lump_of_kind = leaning(all, dispersion_, constants.prior_windows);
  std::array<double, 2> sums{};
  std::array<double, 2> spans{};
  std::vector<std::array<Excess, 2>> own(members_.size());
  for (std::size_t i = 0; i < members_.size(); ++i) {
    Member& member = members_[i];
    const Scatter& scatter = member.errors[0].scatter;
    const double lump = leaning(scatter, lump_of_kind, constants.kin_windows);
    member.learnt.spread.lump =
        std::max(constants.least_dispersion, lump * (1 + constants.few_windows / (1 + scatter.windows)));
    for (std::size_t s = 0; s < own[i].size(); ++s) {
      own[i][s] = excess(member.errors[s + 1], constants.taken_as_lumps * member.learnt.spread.lump);
      sums[s] += own[i][s].share * own[i][s].spans;
      spans[s] += own[i][s].spans;
    }
  }
  constexpr double weight = constants.doubt_spans;
  std::array<double, 2> of_kind{};
  for (std::size_t s = 0; s < of_kind.size(); ++s) {
    of_kind[s] = std::max(0.0, (sums[s] + weight * constants.doubts[s]) / (spans[s] + weight));
  }
  for (std::size_t i = 0; i < members_.size(); ++i) {
    Learnt& learnt = members_[i].learnt;
    learnt.used = members_[i].use;
    learnt.gaps = static_cast<int>(members_[i].trace.gaps.size());
    learnt.others = static_cast<int>(used_machines_) - (members_[i].use > 0 ? 1 : 0);
    learnt.predicted_use = members_[i].errors[2].scatter.means;
    // Use as even as a clock's is not expected to change as other use does, nor with the season.
    const double a_year = year_days * std::max(learnt.rate.mean(), 1e-9);
    const double uneven = std::min(1.0, constants.even_use * std::sqrt(learnt.spread.lump / a_year));
    const double of_doubt = std::sqrt(uneven);
    for (double& each : learnt.unseen) each *= of_doubt;
    for (std::size_t s = 0; s < own[i].size(); ++s) {
      // One span is spent on what is predicted from.
      learnt.spread.doubts[s] = std::max(
          0.0, (own[i][s].share * own[i][s].spans + weight * of_kind[s] * uneven) / (own[i][s].spans + weight - 1));
    }
  }
}

std::map<std::string, Learnt, std::less<>> PooledModel::take_learnt() && {
  std::map<std::string, Learnt, std::less<>> learnt;
  for (Member& member : members_) {
    if (member.known) learnt.emplace(std::move(member.trace.machine), std::move(member.learnt));
  }
  return learnt;
}

}  // namespace service::usage
