// Who works when in a week, and what a crew may do.
#pragma once

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

// The needs that no crew of these days meets; where one crew or another meets each, all of them.
std::vector<std::string> lacking(const std::vector<CrewDay>& days, const Needs& needs);

}  // namespace service::visits
