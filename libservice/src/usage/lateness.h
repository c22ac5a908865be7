// How late services came, by one meter of a machine.
#pragma once

#include <span>
#include <vector>

#include "service/usage.h"

namespace service::usage {

// Recorded use between services over the interval.
using Lateness = std::vector<double>;

// How late the services of a kind were.
class LateServices {
 public:
  // `recorded`: that services are written down at all.
  explicit LateServices(Lateness shares, bool recorded = true);

  const Lateness& shares() const { return shares_; }  // ascending
  bool recorded() const { return recorded_; }

  // The odds that an element is left in beyond a share of its interval; 1 where services are not recorded.
  double unserviced_at(double share) const;

 private:
  Lateness shares_;
  bool recorded_;
};

// `facts`: all of that machine, unstruck, in the one order; `history`: of that meter.
Lateness lateness_of(const Fleet& fleet, const Machine& machine, const std::string& meter, const MeterHistory& history,
                     std::span<const Fact> facts);

}  // namespace service::usage
