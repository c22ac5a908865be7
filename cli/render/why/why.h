// One standing taken apart, in few columns.
#pragma once

#include <string>
#include <vector>

#include "render/shared/formats.h"
#include "service/explain.h"

namespace cli {

std::string why_as_text(const service::Explanations& why, const Look& look);
std::string why_as_json(const service::Explanations& why);

inline constexpr Format<service::Explanations> why_formats[] = {{"text", why_as_text}, {"json", why_as_json}};

}  // namespace cli
