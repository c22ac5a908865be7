// How far it is by the map.
#pragma once

#include "service/fleet.h"

namespace service::visits {

// Along the great circle, times the factor, to the nearest tenth of a km, a half up. The one figure that is found in
// floating point. Its error is far below a millimetre, so only a distance that near to a tie could fall to the other
// side elsewhere; coordinates themselves are given to a tenth of a metre.
int tenths_of_km(const Coordinates& from, const Coordinates& to, Factor road_factor);

}  // namespace service::visits
