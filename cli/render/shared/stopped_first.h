// What stands first in an answer that sends people to machines: those that nobody may run, and why. Every answer says
// it in these words.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "render/shared/point_rows.h"
#include "service/not_to_run.h"
#include "terminal/look.h"

namespace cli {

// Above those that are in use, or laid up, and that nobody may run.
inline constexpr std::string_view not_before_mended_title = "Do not run before this is mended";

// By machine: `out of use since 2026-05-21: fork worn`, of one of which more forbids it that too; of the others what is
// to be mended first.
struct StoppedLines {
  SaidLines out_of_use;
  SaidLines to_be_mended;
};
StoppedLines stopped_lines(const std::vector<service::RunBan>& bans);

// Both as blocks, each below its title; and as items of a list.
std::string stopped_first(const std::vector<service::RunBan>& bans, const Look& look);
std::string markdown_stopped(const std::vector<service::RunBan>& bans);

}  // namespace cli
