// One standing explained, for people.
#pragma once

#include <string>
#include <vector>

#include "render/answers.h"

namespace cli {

std::string why_as_text(const service::DueList& list, const std::vector<Explained>& points);

}  // namespace cli
