// How far long work is, for whoever shows it.
#pragma once

#include <cstddef>
#include <functional>

#pragma GCC visibility push(default)

namespace service {

// Called before each step of long work, with how many are done and how many there are, by the thread that asked. What
// it throws ends the work.
using Progress = std::function<void(std::size_t done, std::size_t all)>;

// What takes long with a record: reading many facts, storing them, and working out what is kept beside them.
enum class RecordWork { reading, storing, working_out };

// The same of a record, now and then. What it throws ends the work, and nothing is stored.
using RecordProgress = std::function<void(RecordWork work, std::size_t done, std::size_t all)>;

}  // namespace service

#pragma GCC visibility pop
