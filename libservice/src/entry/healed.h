// Measured values that come back within their limit, and values and signs that a service ends, though nothing says that
// anything was renewed.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "service/fleet.h"
#include "service/record.h"
#include "service/snapshot.h"

namespace service::entry {

struct Healed {
  const Task* task = nullptr;  // whose limit it is
  std::string position;        // of its point; empty where it has none
  MeasuredLimb limb;
  std::size_t was = 0;  // at its limit or beyond: which of the facts
  std::size_t is = 0;   // the first one behind it that is not
};

// As they stand at the end: no service of the point lies behind, and no value at the limit again. `facts`: of that
// machine, unstruck, in the one order.
std::vector<Healed> healed_in(const Fleet& fleet, const Machine& machine, std::span<const Fact> facts);

// A value at its limit or beyond that a service ended which puts in nothing new, and which nobody measured since:
// renewed, put right, or only looked at.
struct Ended {
  const Task* task = nullptr;  // whose limit it is
  std::string position;        // of its point; empty where it has none
  MeasuredLimb limb;
  std::size_t was = 0;  // the last value: which of the facts
  std::size_t by = 0;   // the first service behind it
};

// The same facts. A check that never waits and was found worn or failed ends nothing: it stays as seen.
std::vector<Ended> ended_in(const Fleet& fleet, const Machine& machine, std::span<const Fact> facts);

// A listed sign that a service ended which puts in nothing new, though nobody had looked at it: put right, or only
// looked at.
struct EndedSign {
  const Task* task = nullptr;  // which never waits
  std::string position;        // of its point; empty where it has none
  std::size_t was = 0;         // seen first, or found worn or failed by a look: which of the facts
  std::size_t by = 0;          // the first service behind it
};

// The same facts, and the same of a check that was found worn or failed. Of several signs of a task the first.
std::vector<EndedSign> ended_signs_in(const Fleet& fleet, const Machine& machine, std::span<const Fact> facts);

}  // namespace service::entry
