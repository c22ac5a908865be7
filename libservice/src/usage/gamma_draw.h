// A draw from a gamma distribution: to the bit that of Boost.Random, which is Marsaglia's and others' rejections, told
// without most of its tangents and powers.
#pragma once

#include <boost/random/uniform_01.hpp>

#include "service/draws.h"

namespace service::usage {

// An even variable, 0 or more and below 1.
inline double draw_even(Draws& random) { return boost::random::uniform_01<double>()(random); }

double draw_gamma(Draws& random, double shape, double scale);

}  // namespace service::usage
