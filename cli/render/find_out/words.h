// One blank to fill in, in words.
#pragma once

#include <string>

#include "service/due_list.h"

namespace cli {

std::string asked_for(const service::Question& question);  // `meter engine`, `engine-oil`, `tread-depth@front-left`
std::string blanks(const service::Question& question);     // `done ____-__-__ at ________ h`

// Why it is asked, or what the task is.
std::string about(const service::Question& question);

// `Look before it runs: gland, drip seen 2026-06-12`: all that was seen but for what forbids to run it, which is said
// by itself. Empty where that is nothing.
std::string look_first_words(const service::MachineQuestions& asked);

}  // namespace cli
