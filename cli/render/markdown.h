// The due list as a table in Markdown.
#pragma once

#include <string>

#include "render/due_text.h"
#include "service/standing.h"

namespace cli {

std::string due_as_markdown(const service::DueList& list, const DueView& view);

}  // namespace cli
