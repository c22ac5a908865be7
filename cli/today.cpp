#include "today.h"

#include <date/tz.h>
#include <fmt/format.h>

#include <chrono>
#include <stdexcept>

namespace cli {

service::Day day_in_zone(std::int64_t milliseconds, const std::string& zone) {
  const date::sys_time<std::chrono::milliseconds> now{std::chrono::milliseconds{milliseconds}};
  if (zone.empty() || zone == "UTC") return date::floor<date::days>(now);
  try {
    const auto local = date::locate_zone(zone)->to_local(now);
    return service::Day{date::floor<date::days>(local).time_since_epoch()};
  } catch (const std::runtime_error&) {
    throw service::Failure(service::FailureKind::bad_fleet,
                           {"unknown-zone", fmt::format("this computer does not know the time zone `{}`", zone),
                            "mend `time-zone` in fleet.yaml, install the time zone data, or say --as-of DAY"});
  }
}

}  // namespace cli
