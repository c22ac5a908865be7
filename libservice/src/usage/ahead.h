// One meter's future as a distribution, from what was learnt of it.
//
// The model, in the words of statistics. Usage is a gamma process whose rate is random: with the rate known, use by day
// t has mean L = rate x exposure(t) and comes in lumps of size phi, so that the odds of having passed a level `left`
// above the last reading are Q(L / phi, left / phi) (first passage of a gamma process: van Noortwijk, Reliability
// Engineering & System Safety 94 (2009) 2-21, from memory). The whole is a finite mixture of such processes: over the
// components of the rate, over a log-normal doubt about each (three nodes), over a phase shift of the season, and over
// standstills.
//
//   what is learnt             how                                                              where
//   season profile s_b         EM for Poisson totals of irregular gaps, pooled and then own;
//                              what chance explains of it is taken off                          profile, pooled_model
//   lump phi, dispersion       squared error over mean of windows against those around them,
//                              and of past-only predictions over 30 days                        rate_filter, spread
//   rate                       gamma-Poisson filter, Bayesian online change points, discounting  rate_filter
//   its prior                  the owner's word, else the kind's mean and how much its machines
//                              differ, else its own                                             pooled_model
//   doubt about the rate       what past-only predictions over 120 and 365 days strayed beyond
//                              the lumps; its own error; parts of the year that nobody saw      spread, first_passage
//   standstills                counted in the filter by their odds, own and the kind's          rate_filter
//   phase shift                discrete prior, weighted by the likelihood of the season so far  phase_shift
//   when a level is passed     the mixture's first passage                                      first_passage
//   lateness of services       empirical survival function over a normal prior                  lateness,
//                                                                                               unserviced
//
// All of it is in a day's mean use of the kind, so that no constant knows of hours.
//
//   notation   b        bin of five days, 1 to 73; the mean of s_b over the year is 1
//              exposure sum of s_b over days: how many mean days they count for
//              rate     mean days a mean day: a mixture of Gamma(shape, rate)
//              L        mean use from the last reading to a day
//              doubt    lambda / shape + measured + unseen season: variance of the rate, as a share squared
//              left     use from the last reading to the level
#pragma once

#include <memory>
#include <vector>

#include "service/usage.h"
#include "usage/lateness.h"
#include "usage/pooled_model.h"

namespace service::usage {

// The season so many days earlier (negative) or later than usual, and the odds of it.
struct PhaseShift {
  int days = 0;
  double weight = 0;
};

using PhaseShifts = std::vector<PhaseShift>;

PhaseShifts prior_phase_shifts();

struct AheadFrom {
  std::shared_ptr<const Learnt> learnt;
  std::shared_ptr<const LateServices> late;  // of the kind
  const MeterHistory& history;
  UseState state;
  Day as_of;
  double unit = 1;  // what is learnt in, by the meter: a day's mean use of the kind
};

std::unique_ptr<const UsageAhead> ahead_of(const AheadFrom& from);

}  // namespace service::usage
