#include "render/parts/words.h"

#include <fmt/format.h>

#include "render/shared/resources_words.h"

namespace cli {

using service::cleaned;
using service::PartNeed;
using service::PartsList;
using service::to_text;

bool is_short(const PartNeed& need) { return need.short_by.hundredths > 0; }

std::string what_of(const PartNeed& need) {
  return need.part != nullptr && !need.part->what.empty() ? cleaned(need.part->what) : cleaned(need.key);
}

std::string order_words(const PartNeed& need, service::Day as_of) {
  const auto by = need.order_by ? need.order_by : need.short_on;
  if (!by) return "";
  if (*by < as_of)
    return fmt::format("today, late by {}", service::counted(service::days_between(*by, as_of), "day", "days"));
  if (*by == as_of) return "today";
  return to_text(*by);
}

std::string money_words(service::Money money, const service::Fleet& fleet) {
  const std::string currency = fleet.currency.empty() ? "" : ' ' + cleaned(fleet.currency);
  return fmt::format("{:.2f}{}", static_cast<double>(money.hundredths) / 100, currency);
}

std::string price_words(const PartNeed& need, const service::Fleet& fleet) {
  return need.price ? money_words(*need.price, fleet) : "no price";
}

// The short ones by supplier, in the order of names.
std::map<std::string, std::vector<const PartNeed*>> by_supplier(const PartsList& list) {
  std::map<std::string, std::vector<const PartNeed*>> shops;
  for (const PartNeed& need : list.needs) {
    if (is_short(need)) shops[supplier_of(need)].push_back(&need);
  }
  return shops;
}

std::string others_need() { return "What other machines need of the same stock is not counted here."; }

std::string supplier_of(const PartNeed& need) {
  return need.part != nullptr && !need.part->supplier.empty() ? cleaned(need.part->supplier) : "no supplier named";
}

std::string to_buy(const PartNeed& need) {
  if (!need.packs || !need.part || !need.part->pack) return quantity(need.buy, need.unit);
  const std::string of = quantity(*need.part->pack, need.unit);
  return fmt::format("{} of {}", service::counted(need.packs->hundredths / 100, "pack", "packs"), of);
}

}  // namespace cli
