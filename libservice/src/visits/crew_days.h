// Who works when in a week, and what a crew may do.
#pragma once

#include <functional>
#include <optional>
#include <utility>
#include <vector>

#include "service/rounds.h"

namespace service::visits {

// By day, then in the order of the fleet file; never empty. Fails as `week_horizon`.
std::vector<CrewDay> crew_days_of(const Fleet& fleet, const WeekAsk& ask);

// What whoever goes must be: qualified for all of these, and so many people.
struct Needs {
  std::vector<std::string> skills;  // in the order of the alphabet, each once
  int people = 1;
  friend auto operator<=>(const Needs&, const Needs&) = default;
};

Needs both(const Needs& a, const Needs& b);

// `pressure`, `two-people`, in the order of the alphabet.
std::vector<std::string> words_of(const Needs& needs);

bool can(const Crew& crew, const Needs& needs);
bool any_can(const std::vector<CrewDay>& days, const Needs& needs);

// The first reason for which nobody can even be there, of work that may be done from a day to another (none: on no day,
// by whoever asked for it); none: somebody can. `open`: on that day there is time at its site for it.
std::optional<PutOffReason> why_nobody_can(const std::vector<CrewDay>& crew_days, const Needs& needs,
                                           const std::optional<std::pair<Day, Day>>& days,
                                           const std::function<bool(Day)>& open);

// The needs that no crew of these days meets; where one crew or another meets each, all of them.
std::vector<std::string> lacking(const std::vector<CrewDay>& days, const Needs& needs);

}  // namespace service::visits
