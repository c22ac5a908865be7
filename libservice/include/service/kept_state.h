// What is worked out of one machine's facts and kept beside them in the record, so that a question need not read them
// all; and what is worked out of the states of several machines together, so that one need not read the others'. It is
// never more than a short way: what is missing, of another day or damaged is not used, and the facts answer.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
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
  FactTally facts;    // of the machine, as they are now
  std::string bytes;  // none: nothing is kept of it
};

// A machine among those whose states are worked out together.
struct KeptMember {
  std::string machine;
  FactTally facts;                         // none: nothing is recorded of it
  std::optional<std::uint64_t> seal = {};  // of its state, where that holds
};

// Machines whose states are worked out together, and what was.
struct KeptGroup {
  std::string name;
  std::vector<KeptMember> members;
  std::string bytes = {};  // none: nothing is kept of it
};

// All that is kept beside the facts of a record.
struct KeptBeside {
  std::vector<KeptState> states;
  std::map<std::string, std::string, std::less<>> groups;  // bytes, by name
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

  // By which a state that holds is told from every other one.
  virtual std::uint64_t seal_of(const KeptState& /*state*/) const { return 0; }

  // Those of which he wants something kept: names, and the machines by their names alone.
  virtual std::vector<KeptGroup> groups() const { return {}; }
  virtual bool holds_together(const KeptGroup& /*group*/) const { return false; }

  // Where something is recorded of a member, and the state of each such holds: `states` has those, in the order of the
  // members. What it throws is as good as nothing to keep.
  virtual std::string work_out_together(const KeptGroup& /*group*/, const std::vector<KeptState>& /*states*/) const {
    return {};
  }
};

}  // namespace service

#pragma GCC visibility pop
