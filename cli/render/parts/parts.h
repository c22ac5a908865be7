// Parts to have and to order: as columns, and as a shopping list in Markdown.
#pragma once

#include <string>

#include "render/shared/formats.h"
#include "service/workload.h"

namespace cli {

std::string parts_as_text(const service::PartsList& list, const Look& look);
std::string parts_as_json(const service::PartsList& list);
std::string parts_as_csv(const service::PartsList& list);  // one row a part
std::string parts_as_markdown(const service::PartsList& list);

inline constexpr Format<service::PartsList> parts_formats[] = {
    {"text", parts_as_text}, {"json", parts_as_json}, {"csv", parts_as_csv}, {"md", parts_as_markdown}};

}  // namespace cli
