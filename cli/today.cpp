#include "today.h"

#include <date/tz.h>
#include <fmt/format.h>

#include <chrono>
#include <stdexcept>
#include <vector>

#include "service/text.h"

namespace cli {
namespace {

constexpr const char* is_unknown = "unknown-zone";

std::string not_known(const std::string& zone) {
  return fmt::format("this computer does not know the time zone `{}`", service::cleaned(zone));
}

// None: there is no database of them.
std::vector<std::string> names_of_zones() {
  std::vector<std::string> names;
  try {
    for (const date::time_zone& zone : date::get_tzdb().zones) names.push_back(zone.name());
  } catch (const std::runtime_error&) {
    return {};
  }
  return names;
}

}  // namespace

std::optional<service::Diagnostic> unknown_zone(const std::string& zone) {
  if (zone.empty() || zone == "UTC") return std::nullopt;
  try {
    date::locate_zone(zone);
    return std::nullopt;
  } catch (const std::runtime_error&) {
    const auto names = names_of_zones();
    if (names.empty()) return std::nullopt;
    return service::Diagnostic{
        is_unknown, not_known(zone), service::nearest_or(zone, names, "write its name, such as Europe/Oslo"), {}};
  }
}

service::Day day_in_zone(std::int64_t milliseconds, const std::string& zone) {
  const date::sys_time<std::chrono::milliseconds> now{std::chrono::milliseconds{milliseconds}};
  if (zone.empty() || zone == "UTC") return date::floor<date::days>(now);
  try {
    const auto local = date::locate_zone(zone)->to_local(now);
    return service::Day{date::floor<date::days>(local).time_since_epoch()};
  } catch (const std::runtime_error&) {
    throw service::Failure(service::FailureKind::bad_fleet,
                           {is_unknown, not_known(zone),
                            "mend `time-zone` in fleet.yaml, install the time zone data, or say --as-of DAY"});
  }
}

LocalTime local_time(std::int64_t milliseconds, const std::string& zone) {
  const date::sys_seconds now = date::floor<std::chrono::seconds>(
      date::sys_time<std::chrono::milliseconds>{std::chrono::milliseconds{milliseconds}});
  std::chrono::seconds ahead{0};
  if (!zone.empty() && zone != "UTC") {
    try {
      ahead = date::locate_zone(zone)->get_info(now).offset;
    } catch (const std::runtime_error&) {
      ahead = {};
    }
  }
  const auto there = now + ahead;
  const auto day = date::floor<date::days>(there);
  return {service::Day{day.time_since_epoch()}, there - day, std::chrono::duration_cast<std::chrono::minutes>(ahead)};
}

std::chrono::minutes ahead_of_utc(service::Day day, const std::string& zone) {
  if (zone.empty() || zone == "UTC") return {};
  try {
    const date::local_days begins{date::days{day.time_since_epoch().count()}};
    const auto utc = date::locate_zone(zone)->to_sys(begins, date::choose::earliest);
    return std::chrono::duration_cast<std::chrono::minutes>(begins.time_since_epoch() - utc.time_since_epoch());
  } catch (const std::runtime_error&) {
    return {};
  }
}

std::int64_t moment_there(service::Day day, int minutes, const std::string& zone) {
  const auto count = [](auto moment) {
    return static_cast<std::int64_t>(
        std::chrono::duration_cast<std::chrono::milliseconds>(moment.time_since_epoch()).count());
  };
  const date::local_time<std::chrono::minutes> there =
      date::local_days{date::days{day.time_since_epoch().count()}} + std::chrono::minutes{minutes};
  if (zone.empty() || zone == "UTC") return count(there);
  try {
    const auto info = date::locate_zone(zone)->get_info(there);
    return count(there - info.first.offset);
  } catch (const std::runtime_error&) {
    return count(there);
  }
}

}  // namespace cli
