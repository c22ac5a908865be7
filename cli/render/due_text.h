// The due list for people: on a terminal with paired bars, in a pipe as aligned columns.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "service/snapshot.h"
#include "service/standing.h"
#include "terminal/look.h"

namespace cli {

struct DueView {
  bool all = false;                  // later points too
  std::optional<std::size_t> first;  // only so many points
  std::optional<service::Day> newest_fact;
};

std::string due_as_text(const service::DueList& list, const DueView& view, const Look& look);

// What cron mails. Empty exactly when the overdue list is.
std::string overdue_as_text(const service::DueList& list, const Look& look);

}  // namespace cli
