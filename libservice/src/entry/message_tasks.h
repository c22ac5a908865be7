// Which tasks of a machine a line names, at which positions, and what stands behind them.
#pragma once

#include "entry/message_tail.h"
#include "service/telling.h"

namespace service::entry::message {

struct DoneWords {
  std::vector<TaskTold> tasks;
  Tail tail;
};

// Where that can be only one thing; else fails with usage. Of a task with positions one is named, or all of them.
DoneWords done_words(const Told& told, const Machine& machine, Words words);

// `fork@left, fork@right, or fork@all`: how each position of what has some is said.
std::string forms_at_positions(std::string_view name, const std::vector<std::string>& positions);

}  // namespace service::entry::message
