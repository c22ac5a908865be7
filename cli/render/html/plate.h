// The plate at the head of a machine's page: what stands on it in short.
#pragma once

#include <string_view>

#include "render/html/page.h"

namespace cli {

// One cell of a plate's list (`cells` in the style sheet). Nothing where there is nothing to say.
void add_cell(const Element& list, std::string_view name, std::string_view text);

}  // namespace cli
