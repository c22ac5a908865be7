// Parts to have and to order: as columns, and as a shopping list in Markdown.
#pragma once

#include <string>
#include <vector>

#include "render/shared/formats.h"
#include "service/workload.h"

namespace cli {

struct PartsAnswer {
  service::PartsList list;
  std::vector<service::MachineUse> not_in_use;  // those that stand, and are left out
  bool some_machines = false;                   // others may need the same stock
};

std::string parts_as_text(const PartsAnswer& answer, const Look& look);
std::string parts_as_json(const PartsAnswer& answer);
std::string parts_as_csv(const PartsAnswer& answer);  // one row a part
std::string parts_as_markdown(const PartsAnswer& answer);

inline constexpr Format<PartsAnswer> parts_formats[] = {
    {"text", parts_as_text}, {"json", parts_as_json}, {"csv", parts_as_csv}, {"md", parts_as_markdown}};

}  // namespace cli
