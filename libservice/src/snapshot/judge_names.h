// The first half of judging: one new fact by itself. Does everything it names exist, is its day possible, is it allowed?
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "service/snapshot.h"

namespace service {

// Completes the fact's names in place. Answers with what is wrong, or with nothing.
std::optional<Diagnostic> judge_names(const Fleet& fleet, Fact& fact, Day today);

}  // namespace service
