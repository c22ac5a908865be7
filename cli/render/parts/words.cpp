#include "render/parts/words.h"

#include <fmt/format.h>

#include "render/shared/resources_words.h"

namespace cli {

using service::cleaned;
using service::PartNeed;
using service::to_text;

std::string what_of(const PartNeed& need) {
  return need.part != nullptr && !need.part->what.empty() ? cleaned(need.part->what) : cleaned(need.key);
}

std::string order_words(const PartNeed& need, service::Day as_of) {
  if (!need.order_by) return "";
  if (need.late_days > 0) return fmt::format("today, late by {}", service::counted(need.late_days, "day", "days"));
  return *need.order_by == as_of ? "today" : to_text(*need.order_by);
}

std::string money_words(service::Money money, const service::Fleet& fleet) {
  const std::string currency = fleet.currency.empty() ? "" : ' ' + cleaned(fleet.currency);
  return fmt::format("{:.2f}{}", static_cast<double>(money.hundredths) / 100, currency);
}

std::string each_words(const PartNeed& need) {
  if (!need.price) return "";
  const std::string unit =
      need.unit.empty() || need.unit == "piece" || need.unit == "pieces" ? "each" : "a " + need.unit;
  return fmt::format("{:.2f} {}", static_cast<double>(need.price->hundredths) / 100, cleaned(unit));
}

std::string cost_words(const PartNeed& need, const service::Fleet& fleet) {
  return need.cost ? money_words(*need.cost, fleet) : "no price";
}

std::string figures_of_fleet() { return "Need, stock and orders are the whole fleet's."; }

std::string supplier_words(const service::SupplierOrder& order) {
  return order.supplier.empty() ? "no supplier named" : cleaned(order.supplier);
}

std::string to_buy(const PartNeed& need) {
  if (!need.packs || !need.part || !need.part->pack) return quantity(need.buy, need.unit);
  const std::string of = quantity(*need.part->pack, need.unit);
  return fmt::format("{} of {}", service::counted(need.packs->hundredths / 100, "pack", "packs"), of);
}

}  // namespace cli
