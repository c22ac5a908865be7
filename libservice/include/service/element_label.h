// For a marker pen: what to write on the element or fluid that goes in.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "service/base.h"
#include "service/snapshot.h"

#pragma GCC visibility push(default)

namespace service {

// The day, and what the meter showed: its value and not its usage, for that is what people compare it with. What is not
// known before the work is done is a blank to fill in.
struct ElementLabel {
  std::optional<DaySpan> on;
  std::optional<Amount> at;
  std::string unit;        // of the meter; empty: the machine has none
  std::string meter = {};  // its name, where it is not the machine's first
};

// Use from the fitting on.
struct ElementUse {
  Amount more;
  std::string unit;
  std::string meter;  // its name, where it is not the machine's first
};

// Changes of another task from the fitting on.
struct ElementChanges {
  std::string task;
  int count = 0;
};

struct ElementSeason {
  std::string season;
  int lead_days = 0;
};

// When it comes round again, of an interval that counts from when it was done: by every limb that can be foreseen. What
// somebody may see or measure cannot.
struct ElementDueAgain {
  std::vector<ElementUse> uses;
  std::optional<Day> on;  // done on the day that was asked about
  std::vector<ElementChanges> changes;
  std::vector<ElementSeason> seasons;
};

// Nothing where the service puts in neither parts nor fluids: there is nothing to write on. All is blank.
std::optional<ElementLabel> blank_label(const Fleet& fleet, const Machine& machine, const NamedTask& named);

// Nothing where the next interval may count from the due point and not from when it was done (`counts-from`), for then
// only the service itself tells.
std::optional<ElementDueAgain> due_again(const Fleet& fleet, const Machine& machine, const Task& task, Day done_on);

}  // namespace service

#pragma GCC visibility pop
