// What the answers take from one machine's facts: its meters, what is doubtful of them, how late its services were, and
// the facts that bear on a standing. Either all facts are there and the rest is worked out of them when it is asked, or
// it was worked out before and only those facts are left that can still matter (`condensed`).
#pragma once

#include <map>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "service/snapshot.h"
#include "service/usage.h"

#pragma GCC visibility push(default)

namespace service {

// What is worked out of all facts of a machine. Nothing of it depends on the day that is asked about, as long as that
// is not before the newest of them.
struct Derived {
  bool recorded = false;  // anything at all
  bool serviced = false;  // a service
  Histories histories;    // by meter; what a value stands for, at least of the facts that are left
  std::map<std::string, std::vector<Doubt>, std::less<>> doubts;     // that still stand, by meter
  std::map<std::string, std::vector<double>, std::less<>> lateness;  // by meter, see `MachineBook::lateness`
};

// One thread at a time, and no longer than the fleet and the facts that it was made of.
class MachineBook {
 public:
  // `facts`: all of that machine, unstruck, in the one order (`Snapshot::facts_of`).
  MachineBook(const Fleet& fleet, const Machine& machine, std::span<const Fact> facts);

  // Of those that are left, or of all, and what was worked out of all.
  MachineBook(const Fleet& fleet, const Machine& machine, std::span<const Fact> left,
              std::shared_ptr<const Derived> derived);

  std::span<const Fact> facts() const { return facts_; }
  bool nothing_recorded() const;
  bool serviced() const;
  const Histories& histories() const;
  const MeterHistory& history(const Meter& meter) const;
  const std::vector<Doubt>& doubts(const Meter& meter) const;

  // How late services came: use from one service of a point to the next over the interval of its task, where both were
  // written down with a value of the meter.
  const std::vector<double>& lateness(const Meter& meter) const;

 private:
  const Fleet& fleet_;
  const Machine& machine_;
  std::span<const Fact> facts_;
  std::shared_ptr<const Derived> derived_;  // null: worked out when it is asked
  mutable Derived worked_out_;
};

// Of a machine of the fleet of a snapshot, which must outlive it.
std::shared_ptr<const MachineBook> book_of(const Snapshot& snapshot, const Machine& machine);

// With facts of its own. `derived`: what was worked out of all, where `facts` are those that are left; null where they
// are all. The fleet must outlive it.
std::shared_ptr<const MachineBook> book_with(const Fleet& fleet, const Machine& machine, std::vector<Fact> facts,
                                             std::shared_ptr<const Derived> derived);

// Where the books of machines come from. Whoever learns from a kind asks for its machines' books one after the other
// and keeps none, so that they need not all be there at once.
class BookSource {
 public:
  virtual ~BookSource() = default;
  virtual std::shared_ptr<const MachineBook> book_of(const Machine& machine) const = 0;

  // What was learnt of a kind before, of these very books; null where they are to be asked.
  virtual std::shared_ptr<const LearntKind> learnt_of(const std::string& /*schedule*/) const { return nullptr; }
};

// The facts that can still matter to a standing on a day after all of them, and what is worked out of all; every list
// of due points comes out of the one as out of the others. It leaves out readings, changes of meters, services that
// later ones superseded, and measurements and signs that a service or a later one answered, as far as nothing counts
// them any more. In doubt a fact is left in.
struct Condensed {
  std::vector<Fact> facts;
  Derived derived;
};

Condensed condensed(const Fleet& fleet, const Machine& machine, std::span<const Fact> facts);

// The same in two steps: what is worked out of all facts, for whoever holds all of them; and what is left of both.
Derived worked_out_of(const Fleet& fleet, const Machine& machine, std::span<const Fact> facts);
Condensed condensed(const Fleet& fleet, const Machine& machine, std::span<const Fact> facts, const Derived& all);

}  // namespace service

#pragma GCC visibility pop
