// Work for safety at a machine that somebody goes to for something else, and that is not done by then: whoever works
// there has to know that the machine is not good to run for what he did.
//
//   for (const SafetyLeft& one : safety_left(plan, round, stop)) ...
#pragma once

#include <optional>
#include <vector>

#include "service/rounds.h"

#pragma GCC visibility push(default)

namespace service {

enum class WhyLeft {
  not_made,     // the plan leaves it out
  later,        // it is made later, after its due day
  not_planned,  // its machine is laid up or out of use, or somebody waits
  no_record,    // nobody knows whether it is due
  not_in_book,  // taken as done before the week, and not in the book; of a call: and still listed
};

std::string_view to_text(WhyLeft why);  // `not-made`

struct SafetyLeft {
  PointName point;             // of a call: its machine alone
  const Call* call = nullptr;  // null: work that is due
  WhyLeft why = WhyLeft::not_made;
  std::optional<Day> due_on;               // none: a call, or nobody knows
  std::optional<Day> on;                   // when it is made later, or was to be made before the week
  const Crew* crew = nullptr;              // by whom; null: nobody of this fleet
  std::optional<NotPlannedReason> reason;  // why it is not planned
  bool unmended = false;                   // doing it mends nothing: until mended, and not until done
};

// Nobody uses the machine until it is done, from its due day on.
inline bool keep_out_of_use(const SafetyLeft& left) { return left.why != WhyLeft::no_record; }
inline bool keep_out_of_use(const std::vector<SafetyLeft>& left) {
  for (const SafetyLeft& one : left) {
    if (keep_out_of_use(one)) return true;
  }
  return false;
}

// Of the machine of a stop: what is made neither there nor at a stop before. Of a call to a site: nothing.
std::vector<SafetyLeft> safety_left(const RoundsPlan& plan, const Round& round, const RoundStop& stop);

}  // namespace service

#pragma GCC visibility pop
