// A draw from a gamma distribution: to the bit that of Boost.Random, which is Marsaglia's and others' rejections, told
// without most of its tangents and powers.
#pragma once

#include "service/draws.h"

namespace service::usage {

double draw_gamma(Draws& random, double shape, double scale);

}  // namespace service::usage
