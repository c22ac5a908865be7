// Spans in which a machine is known to have stood: laid up, or out of use. They say nothing of how it is used.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "service/record.h"
#include "usage/bins.h"

namespace service::usage {

struct Standstill {
  Day from;
  Day to;  // the day it was back
};

// `end`: of one that nobody has ended. Whoever asks about days up to the last reading gives that day or any later one:
// it is all one, for nothing is asked about the days behind it.
std::vector<Standstill> standstills_of(std::span<const Fact> facts, Day end);

// As `days_by_bin`, without the days of standstills.
std::vector<BinDays> days_in_use(Day from, Day to, const std::vector<Standstill>& standstills);

}  // namespace service::usage
