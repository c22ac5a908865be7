#include "render/parts_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "render/headings.h"
#include "render/markdown.h"
#include "render/resources_words.h"
#include "terminal/table.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

using service::cleaned;
using service::PartNeed;
using service::PartsList;
using service::to_text;

bool is_short(const PartNeed& need) { return need.short_by.hundredths > 0; }

std::string what_of(const PartNeed& need) {
  return need.part != nullptr && !need.part->what.empty() ? cleaned(need.part->what) : cleaned(need.key);
}

std::string in_stock(const PartNeed& need) {
  if (need.part == nullptr) return "not listed";
  if (!need.stock) return "not counted";
  return quantity(*need.stock, need.unit);
}

std::string order_words(const PartNeed& need, service::Day as_of) {
  const auto by = need.order_by ? need.order_by : need.short_on;
  if (!by) return "";
  if (*by < as_of)
    return fmt::format("today, late by {}", service::counted(service::days_between(*by, as_of), "day", "days"));
  if (*by == as_of) return "today";
  return to_text(*by);
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

std::optional<service::Money> total(const std::vector<const PartNeed*>& needs) {
  service::Money sum;
  for (const PartNeed* need : needs) {
    if (!need->price) return std::nullopt;
    sum = sum + *need->price;
  }
  return sum;
}

}  // namespace

std::string supplier_of(const PartNeed& need) {
  return need.part != nullptr && !need.part->supplier.empty() ? cleaned(need.part->supplier) : "no supplier named";
}

std::string to_buy(const PartNeed& need) {
  if (!need.packs || !need.part || !need.part->pack) return quantity(need.buy, need.unit);
  const std::string of = quantity(*need.part->pack, need.unit);
  return fmt::format("{} of {}", service::counted(need.packs->hundredths / 100, "pack", "packs"), of);
}

std::string parts_as_text(const PartsList& list, const Look& look) {
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

std::string parts_as_markdown(const PartsList& list) {
  std::string text = fmt::format("# {}: parts and fluids, {} to {}\n", markdown_cell(list.fleet->name),
                                 to_text(list.as_of), to_text(list.to));
  const auto shops = by_supplier(list);
  if (shops.empty()) text += "\nNothing is short.\n";
  for (const auto& [shop, needs] : shops) {
    text += fmt::format("\n## {}\n\n| order by | buy | part | number | what | price |\n|---|---|---|---|---|---|\n",
                        markdown_cell(shop));
    for (const PartNeed* need : needs) {
      text +=
          fmt::format("| {} | {} | {} | {} | {} | {} |\n", order_words(*need, list.as_of), markdown_cell(to_buy(*need)),
                      markdown_cell(need->key), markdown_cell(need->part != nullptr ? need->part->number : ""),
                      markdown_cell(what_of(*need)), markdown_cell(price_words(*need, *list.fleet)));
    }
  }
  if (!list.unknown.empty() || !list.standing.empty()) text += '\n';
  for (const auto& [machine, point] : list.unknown) {
    text +=
        fmt::format("- not known when **{}** of **{}** comes due\n", markdown_cell(point), markdown_cell(machine->key));
  }
  for (const service::Machine* machine : list.standing) {
    text += fmt::format("- **{}** stands, and nobody said until when\n", markdown_cell(machine->key));
  }
  return text;
}

}  // namespace cli
