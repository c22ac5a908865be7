// Parts to have and to order, for people: as columns, and as a shopping list in Markdown.
#pragma once

#include <string>

#include "service/workload.h"
#include "terminal/look.h"

namespace cli {

std::string parts_as_text(const service::PartsList& list, const Look& look);
std::string parts_as_markdown(const service::PartsList& list);

// `2 packs of 25`, `3`, `205 L`: how much to buy of it.
std::string to_buy(const service::PartNeed& need);

// `mainland order`, or that nobody says who sells it.
std::string supplier_of(const service::PartNeed& need);

}  // namespace cli
