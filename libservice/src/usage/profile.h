// The season profile: where in the year a machine's use falls, learnt from irregular readings.
//
// A reading tells the total of the days since the one before. The share of each bin is found by expectation
// maximisation for Poisson totals, with a prior worth some years (Dempster, Laird & Rubin, J. Royal Statistical Society
// B 39 (1977) 1-38; Shepp & Vardi, IEEE Trans. Medical Imaging 1 (1982) 113-122; both from memory).
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "service/fleet.h"
#include "usage/bins.h"

namespace service::usage {

// Use between two readings.
struct ReadingGap {
  Day from;
  Day to;
  double use = 0;
  std::vector<BinDays> days;
};

// Of several machines, each with its own rate, so that every machine-year weighs the same; or of one.
// `prior_years`: what the prior weighs.
Profile learn_profile(std::span<const std::vector<ReadingGap>* const> machines, const Profile& prior,
                      double prior_years);

// What an owner expects by season, as a profile. Nothing where he names no season.
std::optional<Profile> expected_profile(const Expect& expect, const Fleet& fleet);

}  // namespace service::usage
