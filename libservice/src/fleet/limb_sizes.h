// How large a limb may be: one table for fleets from files and from code.
#pragma once

#include "service/fleet.h"

namespace service::fleet {

constexpr int most_of(CalendarUnit unit) {
  switch (unit) {
    case CalendarUnit::days:
      return 36525;
    case CalendarUnit::weeks:
      return 5200;
    case CalendarUnit::months:
      return 1200;
    case CalendarUnit::years:
      return 100;
  }
  return 0;
}

inline constexpr int most_changes = 1'000'000;
inline constexpr int longest_lead = 364;  // days before a season

}  // namespace service::fleet
