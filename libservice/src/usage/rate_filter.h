// The rate of use of a machine, a mean day, as a mixture of gamma distributions, filtered from its readings.
//
// In each window of readings use k (in units of the dispersion) is Poisson with mean rate x exposure, so that a
// component Gamma(shape, rate) is updated by adding k to the shape and the exposure to the rate, and the likelihood of
// the window is negative binomial. Change points by Bayesian online detection: a fresh component joins at each window
// with the odds of a change (Adams & MacKay 2007, arXiv 0710.3742). Old components forget by discounting (West &
// Harrison, Bayesian Forecasting and Dynamic Models, 2nd ed. 1997). Both from memory. Beside the rate each window asks
// whether the machine simply stood.
#pragma once

#include <vector>

#include "usage/constants.h"
#include "usage/profile.h"

namespace service::usage {

// Some reading gaps together, two weeks or more.
struct Window {
  Day from;
  Day to;
  double use = 0;
  double exposure = 0;  // mean days
  int length() const { return days_between(from, to); }
};

std::vector<Window> windows_of(const std::vector<ReadingGap>& gaps, const Profile& profile);

// Squared errors against means of predicted use; their ratio is a dispersion: the variance of use over its mean,
// about the size of the lumps in which it comes.
struct Scatter {
  double squares = 0;
  double means = 0;
  double windows = 0;

  void add(const Scatter& more) {
    squares += more.squares;
    means += more.means;
    windows += more.windows;
  }
};

// Of windows against the mean of those around them.
Scatter window_errors(const std::vector<Window>& windows);

// A dispersion that leans on another as if that had been seen in so many windows.
double leaning(const Scatter& own, double towards, double windows);

double pooled_dispersion(const Scatter& all);
double dispersion_of(const Scatter& own, double pooled);

// One component of the mixture: a gamma distribution of the rate.
struct RateComponent {
  double shape = 1;
  double rate = 1;  // of the gamma distribution; its mean is shape / rate, use a mean day
  double weight = 1;
  double mean() const { return shape / rate; }
};

struct RateMixture {
  std::vector<RateComponent> components;  // the heaviest, weights adding up to 1
  double idle = 0;                        // odds that the machine stands
  std::vector<double> predicted;          // the mean rate before each window: what could be predicted then
  double stops = 0;                       // how often it stopped, and the days it ran: each counted by its odds
  double ran_days = 0;
  double mean() const;
};

// What is known of a rate before its readings.
struct PriorRate {
  double mean = 0;
  double shape = 1;  // of the gamma distribution: 1 / (coefficient of variation)^2
};

RateMixture filter_rate(const std::vector<Window>& windows, const Profile& profile, PriorRate prior, double dispersion);

// log of the likelihood of a window under one component: negative binomial in units of the dispersion, extended to
// counts that are not whole.
double log_likelihood(double use, double exposure, double dispersion, double shape, double rate);

}  // namespace service::usage
