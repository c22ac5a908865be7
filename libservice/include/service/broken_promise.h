// Why a visit that was promised to a crew for a day cannot be kept there: the rule that stands against it.
//
//   if (const auto broken = broken_promise(plan, out)) ... to_text(rule_of(broken->why)) ...
#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "service/rounds.h"

#pragma GCC visibility push(default)

namespace service {

// The first of these that holds.
enum class WhyBroken {
  no_crew,        // the fleet has no such crew
  not_this_week,  // the day lies outside the week
  off,            // the crew is off that day
  no_hours,       // it has no hours that day
  does_not_go,    // it was left out of the week
  not_qualified,  // it lacks what the work needs
  not_wanted,     // the call is not wanted that day: before its first day or after its last
  closed,         // the site is not open that day, nor within the hours that were promised
  no_time,        // the work does not fit into that crew's day, even alone
  no_room,        // it does not fit beside what else was promised to that crew that day
};

std::string_view to_text(WhyBroken why);  // `not-qualified`
PlanRule rule_of(WhyBroken why);          // as a plan that is judged breaks it

struct BrokenPromise {
  WhyBroken why = WhyBroken::no_room;
  std::string crew;  // its key, as it was promised
  Day on;
  std::vector<std::string> lacking;  // of what is not qualified: what that crew has not
};

// Of a visit that is not made because of a promise that cannot be kept; none of all others.
std::optional<BrokenPromise> broken_promise(const RoundsPlan& plan, const NotThisWeek& out);

// What was promised to customers and is broken by what is not made, as their plan named it. A promise is one, into
// however many visits it is split, and broken where one of them is not made.
std::set<std::string> broken_promises(const RoundsPlan& plan);

}  // namespace service

#pragma GCC visibility pop
