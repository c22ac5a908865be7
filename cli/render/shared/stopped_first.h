// What stands first in an answer that sends people to machines: those that nobody may run.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "service/not_to_run.h"
#include "terminal/look.h"

namespace cli {

// Above those that are in use, or laid up, and that nobody may run.
inline constexpr std::string_view not_before_mended_title = "Do not run before it is mended";

// Those out of use, and why; then those to be mended first. What was seen of these, the due list tells.
std::string stopped_first(const std::vector<service::MachineUse>& not_in_use, const service::NotToRun& stopped,
                          const Look& look);
// And what was seen. `site`: of that alone; null: all.
std::string stopped_first(const service::DueList& list, const Look& look, const service::Site* site = nullptr);

// The same as items of a list. `command`: how printed commands begin.
std::string markdown_stopped(const std::vector<service::MachineUse>& not_in_use, const service::NotToRun& stopped,
                             const std::string& command);
std::string markdown_stopped(const service::DueList& list);
std::string markdown_to_be_mended(const service::DueList& list, const service::Site* site);  // without those out of use

// As lines of an event of a calendar, without those out of use: `Do not run before it is mended: loader: hoses, …`.
std::vector<std::string> to_be_mended_lines(const service::DueList& list, const service::Site* site);

}  // namespace cli
