// What is not known of a machine, so that an empty list is never taken for an all-clear.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "service/due_list.h"
#include "standing/view.h"

namespace service {

std::vector<Gap> gaps_of(const MachineView& view, const std::vector<Point>& points);

// What no machine's own points tell, piece by piece (`fleet_gaps`): a clock that is behind the newest fact; `facts`,
// unstruck, about a machine that the fleet does not list; a scope without a machine on that day.
std::optional<Gap> gap_of_clock(Day as_of, bool day_is_given, std::optional<Day> newest);
std::optional<Gap> gap_of_unlisted(std::string_view machine, std::span<const Fact> facts);
std::vector<Gap> gaps_of_no_machine(const Fleet& fleet, const Scope& asked, Day as_of);

// A mistyped `left`, `in-service` or `bought` takes the machine off every list, though somebody writes things down of
// it. Of a machine that was bought used and is there, papers may tell of days before. `facts`: those that bear on a
// standing.
std::optional<Gap> gap_of_days(const Machine& machine, std::span<const Fact> facts, Day as_of);

// Facts that are gaps themselves, so that whoever leaves facts out leaves these in. Of a task or check that is no
// longer listed; a fact about no task is.
bool is_listed(const std::vector<MachineTask>& tasks, const Fact& fact);

// Of days on which the machine was not the owner's.
bool is_after_it_left(const Machine& machine, const Fact& fact);
bool is_before_it_was_new(const Machine& machine, const Fact& fact);

// Of the days before a machine is there other things are told: all that was written down of it by then.
bool is_to_come(const Machine& machine, Day day);

}  // namespace service
