// Which machines nobody may run after facts about them were entered, whether by these facts or by others: whoever told
// something of such a machine hears of it, whatever it was.
#pragma once

#include <vector>

#include "service/entry.h"
#include "service/not_to_run.h"

#pragma GCC visibility push(default)

namespace service {

// Of the machines that the added facts are about, in the order of `run_bans`. Points into `entered.after`.
std::vector<RunBan> bans_after(const Entered& entered);

// When a check that follows some work can be done.
enum class CheckWhen {
  after_work,   // when the machine has worked as long as its task says
  once_mended,  // nobody may run it before something is mended
  once_back,    // it stands, and follows when it is back
};

// Of a point of `entered.after`. `not_to_run`: of that list, made once for many checks.
CheckWhen check_when(const Entered& entered, const Point& check, const NotToRun& not_to_run);

}  // namespace service

#pragma GCC visibility pop
