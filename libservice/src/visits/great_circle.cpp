#include "visits/great_circle.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace service::visits {
namespace {

constexpr double earth_radius_km = 6371.0088;  // the mean radius of the IUGG

double radians(std::int64_t millionths) {
  constexpr double half_turn = 180e6;
  return static_cast<double>(millionths) * (std::numbers::pi / half_turn);
}

}  // namespace

int tenths_of_km(const Coordinates& from, const Coordinates& to, Factor road_factor) {
  const double south_north = std::sin(radians(to.latitude - from.latitude) / 2);
  const double west_east = std::sin(radians(to.longitude - from.longitude) / 2);
  const double haversine = south_north * south_north +
                           std::cos(radians(from.latitude)) * std::cos(radians(to.latitude)) * west_east * west_east;
  const double km = 2 * earth_radius_km * std::asin(std::sqrt(std::min(1.0, haversine)));
  constexpr double factor_hundredths_to_tenths = 10;
  return static_cast<int>(
      std::floor(km * static_cast<double>(road_factor.hundredths) / factor_hundredths_to_tenths + 0.5));
}

}  // namespace service::visits
