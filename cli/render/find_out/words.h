// One blank to fill in, in words.
#pragma once

#include <string>

#include "service/due_list.h"

namespace cli {

std::string asked_for(const service::Question& question);  // `meter engine`, `engine-oil`, `tread-depth@front-left`
std::string blanks(const service::Question& question);     // `done ____-__-__ at ________ h`

// Why it is asked, or what the task is.
std::string about(const service::Question& question);

}  // namespace cli
