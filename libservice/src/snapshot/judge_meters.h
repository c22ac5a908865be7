// The second half of judging: the values that a meter shows, in the one order, beside those already known.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "service/snapshot.h"

namespace service {

// A new fact about a meter, already right by itself.
struct NewValue {
  const Fact* fact = nullptr;
  std::size_t row = 0;  // index of its proposal
};

// What is wrong with a proposal.
struct RowDiagnostic {
  std::size_t row = 0;
  Diagnostic why;
};

struct RollOver {
  std::size_t row = 0;  // the reading that it goes before
  Fact change;
};

// A value that was read to the whole unit.
struct WholeUnit {
  std::size_t row = 0;
  Amount shown;
  Amount held;  // what the meter had shown before, and so shows
  std::string unit;
};

struct MeterJudgement {
  std::vector<RowDiagnostic> refused;
  std::vector<WholeUnit> whole_units;
  std::vector<RollOver> roll_overs;
};

// Facts that lie elsewhere: they are large, and a file has many.
using FactPointers = std::vector<const Fact*>;

// `known`: the unstruck facts of the machine, in the one order. `values`: new ones of this meter, in the one order.
MeterJudgement judge_meter_values(const Machine& machine, const Meter& meter, const FactPointers& known,
                                  const std::vector<NewValue>& values);

std::vector<MeterEvent> meter_events(const Machine& machine, const Meter& meter, const FactPointers& facts);

}  // namespace service
