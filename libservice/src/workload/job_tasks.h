// The tasks of a job sheet: which points they stand for, what they include, and when they are done.
#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/job_sheet.h"

namespace service::load {

// The tools of a task, or of a check that follows it (else null).
const std::vector<std::string>& tools_of(const Task& task, const FollowUp* check);

// What a task says is `needs` and tools, each once.
void add_each(std::vector<std::string>& to, const std::vector<std::string>& names);

bool holds(const std::vector<std::string>& names, std::string_view name);

// Some step of the task runs or drives the machine, or may (`SheetTask::runs`).
bool runs_it(const Task& task);

// What brings a wait to its end: the day, and the meter and use where a use does. In their order.
struct WaitEnd {
  Day day;
  bool by_use = false;
  std::string meter;
  std::int64_t at = 0;
  friend auto operator<=>(const WaitEnd&, const WaitEnd&) = default;
};
WaitEnd end_of(const SheetWait& wait);
std::optional<WaitEnd> end_of(const std::optional<SheetWait>& wait);
std::optional<WaitEnd> end_of(const SheetTask& entry);  // none: it is work of the day of the sheet

// Of one machine: what is to be done, in the order of the list, what of that waits, and every point.
struct Todo {
  std::vector<const Point*> points;
  std::vector<SheetWait> waits;
  std::vector<const Point*> all;
};

// A task at several positions is one, but for those that wait until another day.
std::vector<SheetTask> sheet_tasks(const Fleet& fleet, const Machine& machine, const Todo& todo, Day as_of);

}  // namespace service::load
