// What can be made out of fleet files that cannot be read as a fleet, beside whom to write to (`mail_of`) and what it
// is called (`name_of`).
#pragma once

#include <string>

#include "service/fleet.h"

#pragma GCC visibility push(default)

namespace service {

// The time zone, and where it is written.
struct WrittenZone {
  std::string name;  // empty: there is none, or its line cannot be read
  Place place;
};

// As far as its line stands. Whether a computer knows it is not asked.
WrittenZone time_zone_of(const FleetFiles& files);

}  // namespace service

#pragma GCC visibility pop
