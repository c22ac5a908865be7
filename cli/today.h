// Which day it is where the machines stand.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>

#include "service/base.h"

namespace cli {

// The civil day in a time zone (an IANA name; empty: UTC) at that many milliseconds since 1970.
// Fails with bad_fleet where this computer does not know the zone.
service::Day day_in_zone(std::int64_t milliseconds, const std::string& zone);

// What is wrong with a time zone that is not in this computer's database of them: with the nearest names. Nothing where
// it is, and where there is no such database at all, for then nobody can say.
std::optional<service::Diagnostic> unknown_zone(const std::string& zone);

// A moment by the clocks of a time zone. UTC where this computer does not know the zone.
struct LocalTime {
  service::Day day;
  std::chrono::seconds since_midnight{0};
  std::chrono::minutes ahead_of_utc{0};
};
LocalTime local_time(std::int64_t milliseconds, const std::string& zone);

// How far the clocks of a time zone are ahead of UTC as that day begins. Zero where this computer does not know the
// zone.
std::chrono::minutes ahead_of_utc(service::Day day, const std::string& zone);

// When it is so many minutes after midnight there, in milliseconds since 1970, UTC. What clocks skip as summer begins
// is as much later; of what comes twice as it ends it is the first. UTC where this computer does not know the zone.
std::int64_t moment_there(service::Day day, int minutes, const std::string& zone);

}  // namespace cli
