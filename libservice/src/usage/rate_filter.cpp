#include "usage/rate_filter.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "usage/gamma.h"

namespace service::usage {
namespace {

struct Component {
  double shape;
  double rate;
  double log_weight;
};

// The negative binomial likelihood of one window: what all components share of it is worked out once.
class WindowLikelihood {
 public:
  WindowLikelihood(double use, double exposure, double dispersion)
      : count_(use / dispersion), exposure_(exposure / dispersion + 1e-12), log_factorial_(log_gamma(count_ + 1)) {}

  double log_under(double shape, double rate) const {
    const double together = rate + exposure_;
    return log_gamma(shape + count_) - log_gamma(shape) - log_factorial_ + shape * std::log(rate / together) +
           count_ * std::log(exposure_ / together);
  }

 private:
  double count_;
  double exposure_;
  double log_factorial_;
};

double heaviest_of(const std::vector<Component>& components) {
  double heaviest = -1e300;
  for (const Component& component : components) heaviest = std::max(heaviest, component.log_weight);
  return heaviest;
}

// The profile around a day, averaged over about a fortnight: how steep it is there is told without the bins' edges.
class SoftProfile {
 public:
  explicit SoftProfile(const Profile& profile) : profile_(profile) {}

  double around(Day day) const {
    static const Weights weights = weigh();
    double sum = 0;
    BinWalk walk(day - std::chrono::days{reach});
    for (const double weight : weights) {
      sum += weight * profile_[static_cast<std::size_t>(walk.bin())];
      walk.next();
    }
    return sum;
  }

 private:
  static constexpr double sd = constants.soft_profile_sd;
  static constexpr int reach = 15;  // three standard deviations
  using Weights = std::array<double, 2 * reach + 1>;

  static Weights weigh() {
    Weights weights;
    double sum = 0;
    for (int k = -reach; k <= reach; ++k) {
      const double w = std::exp(-0.5 * k * k / (sd * sd));
      const int index = k + reach;
      weights[static_cast<std::size_t>(index)] = w;
      sum += w;
    }
    for (double& weight : weights) weight /= sum;
    return weights;
  }

  const Profile& profile_;
};

bool heavier(const Component& a, const Component& b) { return a.log_weight > b.log_weight; }

void normalise(std::vector<Component>& components) {
  const double heaviest = heaviest_of(components);
  std::erase_if(components,
                [&](const Component& component) { return component.log_weight < heaviest - constants.lightest; });
  if (components.size() > static_cast<std::size_t>(constants.most_components)) {
    std::stable_sort(components.begin(), components.end(), heavier);
    components.resize(static_cast<std::size_t>(constants.most_components));
  }
  double sum = 0;
  for (const Component& component : components) sum += std::exp(component.log_weight - heaviest);
  const double whole = heaviest + std::log(sum);
  for (Component& component : components) component.log_weight -= whole;
}

class RateFilter {
 public:
  RateFilter(const Profile& profile, PriorRate prior, double dispersion)
      : soft_(profile),
        dispersion_(dispersion),
        past_use_(prior.shape * dispersion),
        past_exposure_(prior.shape * dispersion / prior.mean) {
    components_.push_back({prior.shape, prior.shape / prior.mean, 0});
  }

  double mean() const {
    double sum = 0;
    for (const Component& each : components_) sum += std::exp(each.log_weight) * each.shape / each.rate;
    return sum;
  }

  void add(const Window& window) {
    age(window.length());
    weigh(window);
    past_use_ += window.use;
    past_exposure_ += window.exposure;
  }

  // With a fresh component for a change to come, and the heaviest kept.
  RateMixture result() {
    RateMixture result;
    result.idle = idle_;
    result.stops = stops_;
    result.ran_days = ran_days_;
    for (Component& each : components_) each.log_weight += std::log(1 - constants.change_to_come);
    add_fresh(constants.change_to_come);
    std::stable_sort(components_.begin(), components_.end(), heavier);
    components_.resize(std::min(components_.size(), static_cast<std::size_t>(constants.kept_components)));
    double sum = 0;
    for (const Component& each : components_) sum += std::exp(each.log_weight);
    for (const Component& each : components_) {
      result.components.push_back({each.shape, each.rate, std::exp(each.log_weight) / sum});
    }
    return result;
  }

 private:
  // The mean rate of all windows so far, from which a change begins anew.
  double usual() const { return std::max(past_use_ / past_exposure_, 1e-9); }

  void add_fresh(double odds) {
    components_.push_back({constants.fresh_shape, constants.fresh_shape / usual(), std::log(odds)});
  }

  // What the days of a window do before its use is seen: the rate may have changed, and old windows are forgotten.
  void age(double days) {
    const double hazard = 1 - std::exp(-constants.changes_a_year * days / year_days);
    const double log_stays = std::log(1 - hazard);
    const double remembered = std::exp(-days / year_days / constants.memory_years);
    for (Component& each : components_) {
      each.log_weight += log_stays;
      const double kept = std::max(remembered, std::min(1.0, constants.least_kept / each.shape));
      each.shape *= kept;
      each.rate *= kept;
    }
    add_fresh(hazard);
  }

  // Variance of the window's use over its mean: the lumps', that of a season some days early or late where the profile
  // is steep, a share of the mean, and in the quiet part of a year what is used beside the season: a combine that is
  // driven to its shed in June says nothing of the harvest.
  double scale_of(const Window& window, double mean) {
    if (!slope_from_) slope_from_ = soft_.around(window.from);
    const double slope_to = soft_.around(window.to);  // where the next window begins
    const double slope = *slope_from_ - slope_to;
    slope_from_ = slope_to;
    const double shift = usual() * constants.season_shift_days * slope;
    const double quieter = std::max(0.0, window.length() / std::max(window.exposure, 1e-9) - 1);
    return dispersion_ + shift * shift / mean + constants.loose_share * mean +
           constants.beside_season * usual() * quieter;
  }

  // The odds that it stands in a window, before its use is seen.
  double idle_in(const Window& window) const {
    return idle_ * std::pow(constants.idle_lasts, window.length() / double{constants.window_days}) +
           (1 - idle_) * constants.idle_begins;
  }

  void weigh(const Window& window) {
    const double mean = std::max(usual() * window.exposure, 1e-9);
    const double scale = scale_of(window, mean);
    const bool little = window.use <= constants.idle_share * mean;
    const double idle_now = little ? idle_in(window) : 0;
    const WindowLikelihood likelihood(window.use, window.exposure, scale);
    stood_.clear();
    for (Component& each : components_) {
      double log_likely = likelihood.log_under(each.shape, each.rate);
      double still = 0;
      if (little) {
        const double ran = (1 - idle_now) * std::exp(log_likely);
        still = idle_now / (idle_now + ran);
        log_likely = std::log(ran + idle_now);
      }
      each.shape += (1 - still) * window.use / scale;
      each.rate += (1 - still) * window.exposure / scale;
      each.log_weight += log_likely;
      stood_.push_back(still);
    }
    const double was = idle_;
    idle_ = little ? mean_still() : 0;
    stops_ += std::max(0.0, idle_ - was);
    ran_days_ += (1 - idle_) * window.length();
    normalise(components_);
  }

  double mean_still() const {
    const double heaviest = heaviest_of(components_);
    double sum = 0;
    double still = 0;
    for (std::size_t i = 0; i < components_.size(); ++i) {
      const double w = std::exp(components_[i].log_weight - heaviest);
      sum += w;
      still += w * stood_[i];
    }
    return still / sum;
  }

  SoftProfile soft_;
  double dispersion_;
  std::vector<Component> components_;
  double past_use_;
  double past_exposure_;
  double idle_ = 0;
  double stops_ = 0;
  double ran_days_ = 0;
  std::optional<double> slope_from_;  // the profile where the window begins
  std::vector<double> stood_;         // odds by component that the machine stood in the window
};

}  // namespace

std::vector<Window> windows_of(const std::vector<ReadingGap>& gaps, const Profile& profile) {
  std::vector<Window> windows;
  bool open = false;
  for (const ReadingGap& gap : gaps) {
    if (!open) windows.push_back({gap.from, gap.from, 0, 0});
    Window& window = windows.back();
    window.to = gap.to;
    window.use += gap.use;
    window.exposure += exposure(profile, gap.days);
    open = window.length() < constants.window_days;
  }
  return windows;
}

Scatter window_errors(const std::vector<Window>& windows) {
  Scatter scatter;
  if (windows.size() < 2) return scatter;
  // A two-sided exponential mean, swept once each way.
  const std::size_t n = windows.size();
  std::vector<double> use(n, 0.0);
  std::vector<double> exposures(n, 0.0);
  std::vector<double> fades(n, 0.0);  // from the window before
  for (std::size_t j = 1; j < n; ++j) {
    fades[j] = std::exp(-days_between(windows[j - 1].to, windows[j].to) / constants.local_days);
  }
  double u = 0;
  double w = 0;
  for (std::size_t j = 0; j < n; ++j) {
    const double f = fades[j];
    u = u * f + windows[j].use;
    w = w * f + windows[j].exposure;
    use[j] = u;
    exposures[j] = w;
  }
  u = w = 0;
  for (std::size_t j = n; j-- > 0;) {
    const double f = j + 1 == n ? 0 : fades[j + 1];
    u *= f;
    w *= f;
    use[j] += u;
    exposures[j] += w;
    u += windows[j].use;
    w += windows[j].exposure;
  }
  for (std::size_t j = 0; j < n; ++j) {
    if (exposures[j] <= 0) continue;
    const double mean = windows[j].exposure * use[j] / exposures[j];
    scatter.squares += (windows[j].use - mean) * (windows[j].use - mean);
    scatter.means += mean;
    scatter.windows += 1;
  }
  scatter.squares *= static_cast<double>(n) / static_cast<double>(n - 1);
  return scatter;
}

double leaning(const Scatter& own, double towards, double windows) {
  const double means = own.windows > 0 ? own.means / own.windows : 0;
  if (means <= 0) return towards;
  return (own.squares + windows * means * towards) / (own.means + windows * means);
}

double pooled_dispersion(const Scatter& all) {
  return leaning(all, constants.dispersion_prior, constants.prior_windows);
}

double dispersion_of(const Scatter& own, double pooled) {
  return std::max(constants.least_dispersion, leaning(own, pooled, constants.kin_windows));
}

double log_likelihood(double use, double exposure, double dispersion, double shape, double rate) {
  return WindowLikelihood(use, exposure, dispersion).log_under(shape, rate);
}

double RateMixture::mean() const {
  double sum = 0;
  for (const RateComponent& component : components) sum += component.weight * component.mean();
  return sum;
}

RateMixture filter_rate(const std::vector<Window>& windows, const Profile& profile, PriorRate prior,
                        double dispersion) {
  RateFilter filter(profile, prior, dispersion);
  std::vector<double> predicted;
  predicted.reserve(windows.size());
  for (const Window& window : windows) {
    predicted.push_back(filter.mean());
    filter.add(window);
  }
  RateMixture result = filter.result();
  result.predicted = std::move(predicted);
  return result;
}

}  // namespace service::usage
