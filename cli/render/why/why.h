// One standing taken apart, in few columns.
#pragma once

#include <string>
#include <vector>

#include "render/answers.h"
#include "render/shared/formats.h"
#include "service/standing.h"

namespace cli {

struct WhyAnswer {
  service::DueList list;
  std::vector<Explained> points;  // of that list
};

std::string why_as_text(const WhyAnswer& why);
std::string why_as_json(const WhyAnswer& why);

inline constexpr Format<WhyAnswer> why_formats[] = {{"text", why_as_text}, {"json", why_as_json}};

}  // namespace cli
