// The book of a machine: all that was written down about it, struck facts too, as whoever reads it needs it.
//
// Books are values: each keeps its fleet.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/base.h"
#include "service/fleet.h"
#include "service/record.h"
#include "service/snapshot.h"

#pragma GCC visibility push(default)

namespace service {

struct BookLine {
  Fact fact;
  std::string meter_unit;       // of `at`, `last`, `first` and usage; empty: it shows no value of a meter
  std::optional<Amount> usage;  // lifetime usage, where it differs from what the meter showed
  std::optional<Amount> shown;  // of a delay until a use: what the meter now on the machine shows then
  bool doubtful = false;        // a value that is hard to believe
  bool struck = false;
  std::string struck_because;
};

struct Book {
  std::shared_ptr<const Fleet> fleet;
  std::string machine;  // one that the fleet no longer lists has its book too
  Day as_of;
  UseState state;
  std::vector<BookLine> lines;  // in the one order, up to as-of
  std::size_t left_off = 0;     // lines that a list cut short left off
};

// The books of a fleet, out of all that was read of its record.
class Books {
 public:
  // `facts`: of at least the machines that are asked about, struck ones and strikes too, in the one order; the snapshot
  // was made from them. Both outlive it.
  Books(const Snapshot& snapshot, const std::vector<Fact>& facts);

  // A strike is told beside the fact that it strikes; with `strikes` it stands in the book itself too.
  Book of(std::string_view machine, bool strikes = false) const;

 private:
  std::string reason(const Fact& fact) const;
  BookLine line_of(std::size_t at, const std::map<FactId, Amount>& usages) const;

  const Snapshot& snapshot_;
  const std::vector<Fact>& facts_;
  std::vector<bool> struck_;
  std::map<FactId, std::size_t> struck_by_;  // the strike that holds
  std::map<std::string, std::vector<std::size_t>, std::less<>> by_machine_;
};

// --- Delays that are in a book -----------------------------------------------------------------------------

// The meter by whose use a delay ends, which is that of the task's first limb that counts use, else the machine's
// first. Null where the machine is not listed or has none.
const Meter* meter_of_delay(const Fleet& fleet, const Fact& put_off);

// What the meter now on the machine shows when it ends; nothing where it ends by a day alone, or where nothing is known
// of the meter.
std::optional<Amount> shown_at_end(const Snapshot& now, const Fact& put_off);

}  // namespace service

#pragma GCC visibility pop
