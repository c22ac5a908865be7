// Positions of machines, schedules and sites by name, so that looking one up does not walk through a hundred thousand.
#pragma once

#include <string>
#include <string_view>
#include <unordered_map>

#include "service/fleet.h"

namespace service {

struct FleetIndex {
  struct Hash {
    using is_transparent = void;
    std::size_t operator()(std::string_view text) const { return std::hash<std::string_view>{}(text); }
  };
  using Positions = std::unordered_map<std::string, std::size_t, Hash, std::equal_to<>>;
  Positions machines;
  Positions schedules;
  Positions sites;
};

namespace fleet {

// Of the fleet as it stands now.
void make_index(Fleet& fleet);

}  // namespace fleet
}  // namespace service
