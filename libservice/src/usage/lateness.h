// How late services came, by one meter of a machine.
#pragma once

#include <span>

#include "service/usage.h"
#include "usage/pooled_model.h"

namespace service::usage {

// `facts`: all of that machine, unstruck, in the one order; `history`: of that meter.
Lateness lateness_of(const Fleet& fleet, const Machine& machine, const std::string& meter, const MeterHistory& history,
                     std::span<const Fact> facts);

}  // namespace service::usage
