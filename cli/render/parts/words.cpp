#include "render/parts/words.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/shared/doubt_words.h"
#include "render/shared/resources_words.h"
#include "render/shared/words.h"
#include "service/other_work.h"

namespace cli {

using service::cleaned;
using service::PartNeed;
using service::to_text;

std::string what_of(const PartNeed& need) {
  return need.part != nullptr && !need.part->what.empty() ? cleaned(need.part->what) : cleaned(need.key);
}

std::string order_words(const PartNeed& need, service::Day as_of) {
  return order_words(need.order_by, need.late_days, as_of);
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

namespace {

std::string in_stock(const PartNeed& need) {
  if (need.part == nullptr) return "not listed";
  if (!need.stock) return not_counted;
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

// Behind the machines of a row whose days and amounts may change with a reading.
const char* doubt_of(const PartNeed& need) { return need.doubtful ? " (doubtful)" : ""; }

// Services that may come would take more than there is.
bool in_doubt(const PartNeed& need) {
  return need.need + need.more > need.stock.value_or(service::PartAmount{}) && need.more.hundredths > 0;
}

}  // namespace

std::string parts_doubts(const service::PartsList& list) { return doubt_words(list.doubts, "days and orders"); }

std::string parts_span(const service::PartsList& list) {
  if (list.before == nullptr) return "to " + to_text(list.to);
  return fmt::format("for the work before {} and to have ready in it", cleaned(list.before->key));
}

std::string parts_legend(const service::PartsList& list) {
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
  if (any([](const PartNeed& need) { return need.doubtful; })) {
    text += fmt::format("doubtful: a service that takes it {}, and the days may change with that. ", rests_on_doubt);
  }
  if (!text.empty()) text.pop_back();
  return text;
}

PartsTables parts_tables(const service::PartsList& list) {
  PartsTables tables;
  auto& [shorts, perhaps, enough, others] = tables;
  shorts = {{"order", "part", "need", "in stock", "missed from", "for"}};
  others = shorts;
  enough = {{"part", "need", "in stock", "first for", ""}};
  perhaps = enough;
  for (const PartNeed& need : list.needs) {
    std::string amount = quantity(need.need, need.unit);
    if (need.ready.hundredths > 0) amount += fmt::format(", {} of it ready", quantity(need.ready, need.unit));
    if (need.more.hundredths > 0) amount += fmt::format(" (perhaps {})", quantity(need.need + need.more, need.unit));
    if (need.is_short()) {
      (for_other_work(need) ? others : shorts)
          .push_back({order_words(need, list.as_of), cleaned(need.key), amount, in_stock(need),
                      need.short_on ? to_text(*need.short_on) : "", who_uses(need) + doubt_of(need)});
    } else if (!need.uses.empty()) {
      const auto& first = need.uses.front();
      (in_doubt(need) ? perhaps : enough)
          .push_back({cleaned(need.key), amount, in_stock(need),
                      cleaned(first.machine->key) + ' ' +
                          task_of(service::PointName{first.machine, first.task, first.position}) + doubt_of(need),
                      first.done.p10 ? to_text(*first.done.p10) : ""});
    }
  }
  return tables;
}

}  // namespace cli
