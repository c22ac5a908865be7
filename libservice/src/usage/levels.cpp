#include "usage/levels.h"

#include <algorithm>
#include <cmath>

#include "usage/gamma.h"

namespace service::usage {
namespace {

struct Idea {
  double shape;
  double rate;
  double log_weight;
};

// The profile around a day, averaged over about a fortnight: how steep it is there is told without the bins' edges.
class SoftProfile {
 public:
  explicit SoftProfile(const Profile& profile) : profile_(profile) {
    double sum = 0;
    for (int k = -reach; k <= reach; ++k) {
      const double w = std::exp(-0.5 * k * k / (sd * sd));
      weights_[static_cast<std::size_t>(k + reach)] = w;
      sum += w;
    }
    for (double& weight : weights_) weight /= sum;
  }

  double around(Day day) const {
    double sum = 0;
    for (int k = -reach; k <= reach; ++k) {
      sum += weights_[static_cast<std::size_t>(k + reach)] *
             profile_[static_cast<std::size_t>(bin_of(day + std::chrono::days{k}))];
    }
    return sum;
  }

 private:
  static constexpr double sd = 5;
  static constexpr int reach = 15;
  const Profile& profile_;
  std::array<double, 2 * reach + 1> weights_{};
};

void normalise(std::vector<Idea>& ideas) {
  double heaviest = -1e300;
  for (const Idea& idea : ideas) heaviest = std::max(heaviest, idea.log_weight);
  std::erase_if(ideas, [&](const Idea& idea) { return idea.log_weight < heaviest - constants.lightest; });
  if (ideas.size() > static_cast<std::size_t>(constants.most_components)) {
    std::stable_sort(ideas.begin(), ideas.end(),
                     [](const Idea& a, const Idea& b) { return a.log_weight > b.log_weight; });
    ideas.resize(static_cast<std::size_t>(constants.most_components));
  }
  double sum = 0;
  for (const Idea& idea : ideas) sum += std::exp(idea.log_weight - heaviest);
  for (Idea& idea : ideas) idea.log_weight -= heaviest + std::log(sum);
}

double mean_of(const std::vector<Idea>& ideas) {
  double sum = 0;
  for (const Idea& idea : ideas) sum += std::exp(idea.log_weight) * idea.shape / idea.rate;
  return sum;
}

}  // namespace

std::vector<Window> windows_of(const std::vector<Stretch>& stretches, const Profile& profile) {
  std::vector<Window> windows;
  bool open = false;
  for (const Stretch& stretch : stretches) {
    if (!open) windows.push_back({stretch.from, stretch.from, 0, 0});
    Window& window = windows.back();
    window.to = stretch.to;
    window.use += stretch.use;
    window.worth += worth(profile, stretch.days);
    open = window.length() < constants.window_days;
  }
  return windows;
}

Scatter clump_scatter(const std::vector<Window>& windows) {
  Scatter scatter;
  if (windows.size() < 4) return scatter;
  // A two-sided exponential mean, swept once each way.
  const std::size_t n = windows.size();
  std::vector<double> use(n, 0.0);
  std::vector<double> worths(n, 0.0);
  const auto fade = [&](std::size_t a, std::size_t b) {
    return std::exp(-days_between(windows[a].to, windows[b].to) / constants.local_days);
  };
  double u = 0;
  double w = 0;
  for (std::size_t j = 0; j < n; ++j) {
    const double f = j == 0 ? 0 : fade(j - 1, j);
    u = u * f + windows[j].use;
    w = w * f + windows[j].worth;
    use[j] = u;
    worths[j] = w;
  }
  u = w = 0;
  for (std::size_t j = n; j-- > 0;) {
    const double f = j + 1 == n ? 0 : fade(j, j + 1);
    u *= f;
    w *= f;
    use[j] += u;
    worths[j] += w;
    u += windows[j].use;
    w += windows[j].worth;
  }
  for (std::size_t j = 0; j < n; ++j) {
    if (worths[j] <= 0) continue;
    const double mean = windows[j].worth * use[j] / worths[j];
    scatter.squares += (windows[j].use - mean) * (windows[j].use - mean);
    scatter.means += mean;
  }
  return scatter;
}

double clump_of_kind(const Scatter& all) {
  return (all.squares + constants.clump_prior * constants.clump_weight) / (all.means + constants.clump_weight);
}

double clump_of(const Scatter& own, double kind, const ForecastConstants& use) {
  return std::max(use.least_clump,
                  (own.squares + constants.clump_weight * kind) / (own.means + constants.clump_weight));
}

double log_odds(double use, double worth, double clump, double shape, double rate) {
  const double k = use / clump;
  const double e = worth / clump + 1e-12;
  const double together = rate + e;
  return log_gamma(shape + k) - log_gamma(shape) - log_gamma(k + 1) + shape * std::log(rate / together) +
         k * std::log(e / together);
}

double Levels::mean() const {
  double sum = 0;
  for (const Level& level : now) sum += level.weight * level.mean();
  return sum;
}

Levels follow(const std::vector<Window>& windows, const Profile& profile, double prior_level, double clump,
              const ForecastConstants& use) {
  Levels result;
  const SoftProfile soft(profile);
  double slope_from = windows.empty() ? 0 : soft.around(windows.front().from);
  const double first_shape = std::max(0.25 * year_days * prior_level / clump, 1.0);
  std::vector<Idea> ideas{{first_shape, first_shape / prior_level, 0}};
  double past_use = constants.fresh_days * prior_level;
  double past_worth = constants.fresh_days;
  std::vector<double> stood;
  result.before.reserve(windows.size());
  for (const Window& window : windows) {
    result.before.push_back(mean_of(ideas));
    const double days = window.length();
    const double usual = std::max(past_use / past_worth, 1e-9);
    const double hazard = 1 - std::exp(-constants.changes_a_year * days / year_days);
    for (Idea& idea : ideas) {
      idea.log_weight += std::log(1 - hazard);
      const double kept = std::max(std::exp(-days / year_days / constants.memory_years),
                                   std::min(1.0, constants.least_kept / idea.shape));
      idea.shape *= kept;
      idea.rate *= kept;
    }
    ideas.push_back({constants.fresh_shape, constants.fresh_shape / usual, std::log(hazard)});

    const double mean = std::max(usual * window.worth, 1e-9);
    const double slope_to = soft.around(window.to);  // where the next window begins
    const double slope = slope_from - slope_to;
    slope_from = slope_to;
    const double slip = usual * constants.season_slip_days * slope;
    const double scale = clump + slip * slip / mean + use.loose_share * mean;
    const bool little = window.use <= constants.idle_share * mean;
    const double idle_now =
        result.idle * std::pow(constants.idle_lasts, days / 14) + (1 - result.idle) * constants.idle_begins;
    stood.clear();
    for (Idea& idea : ideas) {
      double log_likely = log_odds(window.use, window.worth, scale, idea.shape, idea.rate);
      double still = 0;
      if (little) {
        const double ran = (1 - idle_now) * std::exp(log_likely);
        still = idle_now / (idle_now + ran);
        log_likely = std::log(ran + idle_now);
      }
      idea.shape += (1 - still) * window.use / scale;
      idea.rate += (1 - still) * window.worth / scale;
      idea.log_weight += log_likely;
      stood.push_back(still);
    }
    double heaviest = -1e300;
    for (const Idea& idea : ideas) heaviest = std::max(heaviest, idea.log_weight);
    double sum = 0;
    double idle = 0;
    for (std::size_t i = 0; i < ideas.size(); ++i) {
      const double w = std::exp(ideas[i].log_weight - heaviest);
      sum += w;
      idle += w * stood[i];
    }
    result.idle = little ? idle / sum : 0;
    normalise(ideas);
    past_use += window.use;
    past_worth += window.worth;
  }
  for (Idea& idea : ideas) idea.log_weight += std::log(1 - constants.change_to_come);
  const double usual = std::max(past_use / past_worth, 1e-9);
  ideas.push_back({constants.fresh_shape, constants.fresh_shape / usual, std::log(constants.change_to_come)});
  std::stable_sort(ideas.begin(), ideas.end(),
                   [](const Idea& a, const Idea& b) { return a.log_weight > b.log_weight; });
  ideas.resize(std::min(ideas.size(), static_cast<std::size_t>(constants.kept_components)));
  double sum = 0;
  for (const Idea& idea : ideas) sum += std::exp(idea.log_weight);
  for (const Idea& idea : ideas) result.now.push_back({idea.shape, idea.rate, std::exp(idea.log_weight) / sum});
  return result;
}

}  // namespace service::usage
