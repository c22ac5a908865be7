// Text inside Markdown.
#pragma once

#include <string>
#include <string_view>

namespace cli {

// A text whose characters with a meaning in Markdown or HTML are made plain.
std::string markdown_cell(std::string_view text);

}  // namespace cli
