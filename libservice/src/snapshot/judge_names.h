// The first half of judging: one new fact by itself. Does everything it names exist, is its day possible, is it
// allowed?
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "service/snapshot.h"

namespace service {

// By machine, the names of the signs that somebody saw.
using SignsSeen = std::map<std::string, std::vector<std::string>, std::less<>>;

SignsSeen signs_seen(std::span<const Fact> facts);

// Completes the fact's names in place. Answers with what is wrong, or with nothing. A sign on which no task comes due
// is kept as seen, and a measurement that has no limit is kept as well; `said` tells it.
std::optional<Diagnostic> judge_names(const Fleet& fleet, Fact& fact, Day today, const SignsSeen& seen,
                                      std::vector<std::string>& said);

// A fact dated after today: a plan is not a fact.
std::optional<Diagnostic> judge_future(const Fact& fact, Day today);

}  // namespace service
