// One meter's future as a distribution, from what was learnt of it.
//
// The model, in the words of statistics. Usage is a gamma process whose rate is random: by day t it has mean
// L = rate x exposure(t) and variance L v, so that the odds of having passed a level `left` above the last reading are
// Q(L / v, left / v) (first passage of a gamma process: van Noortwijk, Reliability Engineering & System Safety 94
// (2009) 2-21, from memory). The whole is a finite mixture of such processes: over the components of the rate, over a
// phase shift of the season, and over how long a machine that stands goes on standing.
//
//   what is learnt             how                                                              where
//   season profile s_b         EM for Poisson totals of irregular gaps, pooled and then own     profile
//   dispersion phi             squared error over mean of windows against those around them     rate_filter
//   rate                       gamma-Poisson filter, Bayesian online change points, discounting  rate_filter
//   spread phi_W               past-only prediction errors at W = 30, 120, 365 days             spread
//   phase shift                discrete prior, weighted by the likelihood of the season so far  phase_shift
//   when a level is passed     the mixture's first passage                                      first_passage
//   lateness of services       empirical survival function over a normal prior                  pooled_model,
//   unserviced
//
//   notation   b        bin of five days, 1 to 73; the mean of s_b over the year is 1
//              exposure sum of s_b over days: how many mean days they count for
//              rate     hours a mean day: a mixture of Gamma(shape, rate)
//              L        mean use from the last reading to a day
//              v        phi_W + L (lambda / shape + p): the spread, the error of the rate, that of the profile
//              left     use from the last reading to the level
#pragma once

#include <array>
#include <memory>

#include "service/usage.h"
#include "usage/pooled_model.h"

namespace service::usage {

// The season so many days earlier (negative) or later than usual, and the odds of it.
struct PhaseShift {
  int days = 0;
  double weight = 0;
};

using PhaseShifts = std::array<PhaseShift, 5>;

PhaseShifts prior_phase_shifts();

// A machine that stands begins again after so many days.
struct Pause {
  int days = 0;
  double weight = 1;
};

struct AheadFrom {
  Learnt learnt;
  std::shared_ptr<const PooledModel> pooled;
  const MeterHistory& history;
  UseState state;
  Day as_of;
  double unit = 1;  // of the meter, in hours of an hour meter
};

std::unique_ptr<const UsageAhead> ahead_of(AheadFrom from);

}  // namespace service::usage
