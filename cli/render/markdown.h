// Lists in Markdown.
#pragma once

#include <string>
#include <string_view>

#include "render/due_text.h"
#include "service/standing.h"

namespace cli {

// A text whose characters with a meaning in Markdown or HTML are made plain.
std::string markdown_cell(std::string_view text);

std::string due_as_markdown(const service::DueList& list, const DueView& view);

}  // namespace cli
