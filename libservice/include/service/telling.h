// The words in which people tell of a machine, understood in one way wherever they come from: a command line, a message
// from a telephone. A name is taken as it stands or where it can be only one; else nothing is guessed, and what is
// there instead is named.
//
// Each of these fails with usage.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "service/fleet.h"
#include "service/record.h"
#include "service/snapshot.h"

#pragma GCC visibility push(default)

namespace service {

// By key, else the only one whose key or name it is but for case and blanks. Points into the fleet.
const Machine& machine_told(const Fleet& fleet, const std::string& written);

struct TaskTold {
  std::string task;      // `engine-oil`, `engine-oil/check-leaks`
  std::string position;  // empty: none was told
  friend bool operator==(const TaskTold&, const TaskTold&) = default;
};

// `TASK` or `TASK@POSITION` of a machine.
TaskTold task_told(const Fleet& fleet, const Machine& machine, const std::string& written);

// The same; nothing where it is no name of a task, or of a position of it.
std::optional<TaskTold> task_if_told(const Fleet& fleet, const Machine& machine, std::string_view written);

std::string meter_told(const Machine& machine, const std::string& written);

// `what`: what is said not to be a number.
Amount amount_told(const std::string& written, const std::string& what);

// Several words are one sign.
std::string sign_told(std::span<const std::string> words);

// `NAME=VALUE`, as a measurement that names neither machine nor day.
Fact measurement_told(std::string_view written);

// `all`, `all positions`, and `both` of two: every position of what has so many.
bool all_told(std::string_view written, std::size_t positions);

// The sign that somebody means of those that are listed and of what is kept as seen in these facts, all of which are
// the machine's; nothing where it is none of them.
struct SignTold {
  std::string name;
  bool safety = false;  // of a task that never waits
};
std::optional<SignTold> seen_sign_told(const Fleet& fleet, const Machine& machine, std::span<const Fact> facts,
                                       std::string_view written);

// These services and, behind them, the checks that they ask for, but for what was told itself.
std::vector<Fact> with_checks(const Fleet& fleet, const Machine& machine, std::vector<Fact> services);

}  // namespace service

#pragma GCC visibility pop
