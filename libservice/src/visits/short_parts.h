// What trips load and stock does not cover.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "service/rounds_list.h"
#include "service/workload.h"

namespace service::visits {

ShortPart short_part(const PartNeed& need);

// Of what some of these load, rounds or visits; by key.
template <class Trips>
std::vector<ShortPart> short_parts(const Trips& trips, const PartsList& parts) {
  const auto loads = [](const auto& trip, const std::string& key) {
    const auto is_it = [&](const auto& load) { return load.first == key; };
    return std::any_of(trip.parts.begin(), trip.parts.end(), is_it) ||
           std::any_of(trip.fluids.begin(), trip.fluids.end(), is_it);
  };
  std::vector<ShortPart> found;
  for (const PartNeed& need : parts.needs) {
    const bool loaded =
        std::any_of(trips.begin(), trips.end(), [&](const auto& trip) { return loads(trip, need.key); });
    if (need.short_on && loaded) found.push_back(short_part(need));
  }
  std::sort(found.begin(), found.end(), [](const ShortPart& a, const ShortPart& b) { return a.key < b.key; });
  return found;
}

}  // namespace service::visits
