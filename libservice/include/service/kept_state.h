// What is worked out of one machine's facts and kept beside them in the record, so that a question need not read them
// all. It is never more than a short way: what is missing, of another day or damaged is not used, and the facts answer.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "service/record.h"

#pragma GCC visibility push(default)

namespace service {

// How many facts of a machine the record holds, struck ones too, and their checksums: as good as what they are.
struct FactTally {
  std::int64_t facts = 0;
  std::uint64_t checksums = 0;  // the sum of theirs
  std::optional<Day> newest;    // effective day
  friend bool operator==(const FactTally&, const FactTally&) = default;
};

struct KeptState {
  std::string machine;
  FactTally facts;  // of the machine, as they are now
  std::string bytes;
};

// Who works out what is kept, and tells whether it still holds.
class StateKeeper {
 public:
  virtual ~StateKeeper() = default;
  virtual bool wants(const std::string& machine) const = 0;
  virtual bool holds(const KeptState& state) const = 0;

  // `unstruck`: the machine's facts, in the one order; `facts` counts struck ones too. What it throws is as good as
  // nothing to keep.
  virtual std::string work_out(const std::string& machine, const FactTally& facts,
                               const std::vector<Fact>& unstruck) const = 0;
};

}  // namespace service

#pragma GCC visibility pop
