// Values of one meter in the lines of one text that cannot all be right.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "service/days.h"
#include "service/fleet.h"
#include "service/quantities.h"

namespace service::entry {

// What a line says that a meter shows.
struct LineValue {
  Day on;
  std::optional<int> second;  // of that day, when it was sent; none: nothing says, or it was read at another time
  Amount at;
  bool sure = false;
};

// How much an hour meter may run beyond the time between two lines: a value is sent a while after it is read, and some
// are read without their tenths. Ours.
inline constexpr Amount late_by = Amount::units(1);

enum class Apart { no, falls, more_than_time };

// Whether two values contradict each other: an hour meter runs no longer than the time between them, where both say
// when they were sent, and else than 24 h a day; no meter falls. Where nothing says which of them was sent first, it is
// the one that is told first: `one`.
Apart apart(const Meter& meter, const LineValue& one, const LineValue& other);

// A value that is not certain, for `other` contradicts it.
struct NotCertain {
  std::size_t value = 0;
  std::size_t other = 0;
  bool alone =
      false;  // it contradicts several that go together, or one that somebody is sure of; else either may be it
};

// Of two that contradict each other neither is certain, unless somebody is sure of one, or a third goes with one alone.
std::vector<NotCertain> not_certain(const Meter& meter, std::span<const LineValue> values);

}  // namespace service::entry
