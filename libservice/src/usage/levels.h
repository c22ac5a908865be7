// The level of a machine's use: how much a mean day of the year holds, and how far that can be believed.
//
// A gamma-Poisson filter in clumps of use with Bayesian online change points (Adams & MacKay 2007, arXiv 0710.3742) and
// discounting (West & Harrison, Bayesian Forecasting and Dynamic Models, 2nd ed. 1997); both from memory. Beside the
// level each window asks whether the machine simply stood.
// A machine of which nothing is known is taken to run 300 h a year, as cost tables do (University of Illinois farmdoc,
// Machinery Cost Estimates: Tractors, May 2008), with little weight.
#pragma once

#include <vector>

#include "usage/constants.h"
#include "usage/profile.h"

namespace service::usage {

// Some readings together, two weeks or more.
struct Window {
  Day from;
  Day to;
  double use = 0;
  double worth = 0;  // mean days
  int length() const { return days_between(from, to); }
};

std::vector<Window> windows_of(const std::vector<Stretch>& stretches, const Profile& profile);

// Squared errors against means of predicted use; their ratio is the size of a clump.
struct Scatter {
  double squares = 0;
  double means = 0;
};

Scatter clump_scatter(const std::vector<Window>& windows);
double clump_of_kind(const Scatter& all);
double clump_of(const Scatter& own, double kind, const ForecastConstants& use = constants);

// One idea of the level: mean shape/rate hours a mean day.
struct Level {
  double shape = 1;
  double rate = 1;
  double weight = 1;
  double mean() const { return shape / rate; }
};

struct Levels {
  std::vector<Level> now;      // the heaviest, weights adding up to 1
  double idle = 0;             // odds that the machine stands
  std::vector<double> before;  // the mean level before each window: what could be predicted then
  double mean() const;
};

Levels follow(const std::vector<Window>& windows, const Profile& profile, double prior_level, double clump,
              const ForecastConstants& use = constants);

// log of the odds of a window under one idea: use and mean days in clumps (published as the negative binomial).
double log_odds(double use, double worth, double clump, double shape, double rate);

}  // namespace service::usage
