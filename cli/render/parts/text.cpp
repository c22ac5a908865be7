#include <fmt/format.h>

#include <algorithm>

#include "render/parts/parts.h"
#include "render/parts/words.h"
#include "render/shared/headings.h"
#include "render/shared/resources_words.h"
#include "terminal/table.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

using service::cleaned;
using service::PartNeed;
using service::PartsList;
using service::to_text;

std::string in_stock(const PartNeed& need) {
  if (need.part == nullptr) return "not listed";
  if (!need.stock) return "not counted";
  return quantity(*need.stock, need.unit);
}

std::string who_uses(const PartNeed& need) {
  std::vector<std::string> machines;
  for (const auto& use : need.uses) {
    if (!use.likely) continue;
    const std::string key = cleaned(use.machine->key);
    if (std::find(machines.begin(), machines.end(), key) == machines.end()) machines.push_back(key);
  }
  if (machines.size() > 3) return fmt::format("{}, {} and {} more", machines[0], machines[1], machines.size() - 2);
  return fmt::format("{}", fmt::join(machines, ", "));
}

std::optional<service::Money> total(const std::vector<const PartNeed*>& needs) {
  service::Money sum;
  for (const PartNeed* need : needs) {
    if (!need->price) return std::nullopt;
    sum = sum + *need->price;
  }
  return sum;
}

}  // namespace

std::string parts_as_text(const PartsAnswer& answer, const Look& look) {
  const PartsList& list = answer.list;
  std::string text = heading(look, fmt::format("{}, {}: parts and fluids to {}", cleaned(list.fleet->name),
                                               to_text(list.as_of), to_text(list.to)));
  std::vector<Row> shorts{{"order", "part", "need", "in stock", "missed from", "for"}};
  std::vector<Row> enough{{"part", "need", "in stock", "first for", ""}};
  for (const PartNeed& need : list.needs) {
    std::string amount = quantity(need.need, need.unit);
    if (need.more.hundredths > 0) amount += fmt::format(" (perhaps {})", quantity(need.need + need.more, need.unit));
    if (is_short(need)) {
      shorts.push_back({order_words(need, list.as_of), cleaned(need.key), amount, in_stock(need),
                        need.short_on ? to_text(*need.short_on) : "", who_uses(need)});
    } else if (!need.uses.empty()) {
      const auto& first = need.uses.front();
      enough.push_back({cleaned(need.key), amount, in_stock(need),
                        cleaned(first.machine->key) + ' ' + cleaned(first.point),
                        first.due.p10 ? to_text(*first.due.p10) : ""});
    }
  }
  if (shorts.size() > 1) text += '\n' + heading(look, "Short: order by the day in front") + table(shorts, "  ");
  if (enough.size() > 1) text += '\n' + heading(look, "Enough in stock") + table(enough, "  ");
  if (shorts.size() == 1 && enough.size() == 1) text += "\nNo service that is likely by then takes a part or fluid.\n";
  if (answer.some_machines && enough.size() > 1) text += "  " + others_need() + '\n';
  const auto shops = by_supplier(list);
  if (!shops.empty()) text += '\n' + heading(look, "Shopping list");
  for (const auto& [shop, needs] : shops) {
    std::vector<Row> rows;
    for (const PartNeed* need : needs) {
      const std::string number = need->part != nullptr ? cleaned(need->part->number) : "";
      rows.push_back({to_buy(*need), cleaned(need->key), number, what_of(*need), price_words(*need, *list.fleet)});
    }
    const auto sum = total(needs);
    text += "  " + shop + (sum ? ", " + money_words(*sum, *list.fleet) : "") + '\n';
    text += table(rows, "    ");
  }
  return text + left_out(list.unknown, list.standing);
}

}  // namespace cli
