// What is to be minded by whoever looks at what somebody saw: a sign of which no task says what it is about.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/due_list.h"

#pragma GCC visibility push(default)

namespace service {

// What nobody who looks for a leak may do, where no caution of the machine says so.
std::string_view never_by_hand();

// The task that was found worn or failed, where that is what was seen: `fork@left found worn`. Else null.
const Task* found_bad_task(const Fleet& fleet, const SeenSign& seen);

// How it was found: by the newest look, else by the check that found it so. None: nobody has looked.
std::optional<Found> found_of(const Fleet& fleet, const SeenSign& seen);

// What of this point was found worn or failed, there or at no position in particular, and not mended since: it is work
// to do, whether the point is due or not. Points into what was seen.
std::vector<const SeenSign*> to_mend(const std::vector<SeenSign>& seen, const Point& point);

// The cautions of that task; of anything else those of all the machine's tasks, for it may be about any of them. Each
// once, fluid under pressure first; where none of these has that, the sentence above.
std::vector<std::string> cautions_of(const Fleet& fleet, const SeenSign& seen);

// Where a caution stands in the catalogue: what is worst first, sentences of a schedule's own behind them.
std::size_t catalogue_place(std::string_view written);

// Of what never waits, and past its grace, by estimate too: whatever else is told, that is no all-clear.
bool is_late_for_safety(const Point& point);

}  // namespace service

#pragma GCC visibility pop
