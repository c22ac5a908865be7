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
  Day to;  // the day it was back, or as-of
};

std::vector<Standstill> standstills_of(std::span<const Fact> facts, Day as_of);

// As `days_by_bin`, without the days of standstills.
std::vector<BinDays> days_in_use(Day from, Day to, const std::vector<Standstill>& standstills);

}  // namespace service::usage
