// The first half of judging: one new fact by itself. Does everything it names exist, is its day possible, is it
// allowed?
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "service/snapshot.h"

namespace service {

// Completes the fact's names in place. Answers with what is wrong, or with nothing. A sign or a measurement on which
// no task comes due is still something that somebody noticed: it is kept, and `said` tells that nothing follows.
std::optional<Diagnostic> judge_names(const Fleet& fleet, Fact& fact, Day today, std::vector<std::string>& said);

// A fact dated after today: a plan is not a fact.
std::optional<Diagnostic> judge_future(const Fact& fact, Day today);

}  // namespace service
