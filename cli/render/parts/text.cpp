#include <fmt/format.h>

#include <algorithm>

#include "render/parts/parts.h"
#include "render/parts/words.h"
#include "render/shared/cautions.h"
#include "render/shared/headings.h"
#include "render/shared/point_rows.h"
#include "render/shared/resources_words.h"
#include "render/shared/words.h"
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

std::string span_of(const PartsList& list) {
  if (list.before == nullptr) return "to " + to_text(list.to);
  return fmt::format("for the work before {} and to have ready in it", cleaned(list.before->key));
}

// Services that may come would take more than there is.
bool in_doubt(const PartNeed& need) {
  return need.need + need.more > need.stock.value_or(service::PartAmount{}) && need.more.hundredths > 0;
}

// What the words in the columns mean, where they stand.
std::string legend(const PartsList& list, const Look& look) {
  const auto any = [&](const auto& has) { return std::any_of(list.needs.begin(), list.needs.end(), has); };
  std::string text;
  if (any([](const PartNeed& need) { return need.is_short(); })) {
    text += list.before != nullptr ? "missed from: the day to do the first work that stock does not cover. "
                                   : "missed from: the early end, one case in ten, of the first service that stock "
                                     "does not cover. ";
  }
  if (any([](const PartNeed& need) { return need.ready.hundredths > 0; })) {
    text += "ready: to be there when the season begins, for what comes due in it all the same. ";
  }
  const auto by_other_work = [](const PartNeed& need) {
    return std::any_of(need.uses.begin(), need.uses.end(), [](const service::PartUse& use) { return use.other_work; });
  };
  if (any(by_other_work)) {
    text += "Counted with it, on its own early day: what other work takes from the same stock before then. ";
  }
  if (any([](const PartNeed& need) { return need.more.hundredths > 0; })) {
    text += "perhaps: with services that may come by then, but are less likely than not. ";
  }
  return text.empty() ? "" : '\n' + wrapped("", text, static_cast<std::size_t>(look.columns), 0);
}

}  // namespace

std::string parts_as_text(const PartsList& list, const Look& look) {
  const auto columns = static_cast<std::size_t>(look.columns);
  std::string text = heading(look, fmt::format("{}, {}: parts and fluids {}", whose_list(*list.fleet, list.scope),
                                               to_text(list.as_of), span_of(list)));
  text += out_of_use_first(list.not_in_use, look);
  std::vector<Row> shorts{{"order", "part", "need", "in stock", "missed from", "for"}};
  std::vector<Row> enough{{"part", "need", "in stock", "first for", ""}};
  std::vector<Row> perhaps = enough;
  for (const PartNeed& need : list.needs) {
    std::string amount = quantity(need.need, need.unit);
    if (need.ready.hundredths > 0) amount += fmt::format(", {} of it ready", quantity(need.ready, need.unit));
    if (need.more.hundredths > 0) amount += fmt::format(" (perhaps {})", quantity(need.need + need.more, need.unit));
    if (need.is_short()) {
      shorts.push_back({order_words(need, list.as_of), cleaned(need.key), amount, in_stock(need),
                        need.short_on ? to_text(*need.short_on) : "", who_uses(need)});
    } else if (!need.uses.empty()) {
      const auto& first = need.uses.front();
      (in_doubt(need) ? perhaps : enough)
          .push_back({cleaned(need.key), amount, in_stock(need),
                      cleaned(first.machine->key) + ' ' +
                          task_of(service::PointName{first.machine, first.task, first.position}),
                      first.due.p10 ? to_text(*first.due.p10) : ""});
    }
  }
  if (shorts.size() > 1)
    text += '\n' + heading(look, "Short: order by the day in front") + table(shorts, "  ", columns);
  if (perhaps.size() > 1) {
    text += '\n' + heading(look, "Perhaps short: services that are less likely than not would take more") +
            table(perhaps, "  ", columns);
  }
  if (enough.size() > 1) text += '\n' + heading(look, "Enough in stock") + table(enough, "  ", columns);
  if (shorts.size() == 1 && enough.size() == 1 && perhaps.size() == 1)
    text += "\nNo service that is likely by then takes a part or fluid.\n";
  if (list.scope.machines && shorts.size() + enough.size() > 2) text += "  " + figures_of_fleet() + '\n';
  text += legend(list, look);
  if (list.left_off > 0) text += fmt::format("\nAnd {} more, left off by --first.\n", list.left_off);
  const auto orders = orders_of(list);
  if (!orders.empty()) text += '\n' + heading(look, "Shopping list");
  for (const service::SupplierOrder& order : orders) {
    std::vector<Row> rows;
    for (const PartNeed* need : order.needs) {
      const std::string number = need->part != nullptr ? cleaned(need->part->number) : "";
      rows.push_back({to_buy(*need), cleaned(need->key), number, what_of(*need), each_words(*need),
                      cost_words(*need, *list.fleet)});
    }
    // A sum of what is left of a list is no sum.
    const bool whole = list.left_off == 0;
    const std::string total = order.cost && whole ? ", " + money_words(*order.cost, *list.fleet) : "";
    text += "  " + supplier_words(order) + total + '\n';
    text += table(rows, "    ", columns);
  }
  text += left_out(list.unknown, list.not_in_use, look.command);
  text += not_known(list.gaps, list.unknown, look);
  return list.needs.empty() ? text : text + foot_of_list(look);
}

}  // namespace cli
