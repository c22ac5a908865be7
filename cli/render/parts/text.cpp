#include <fmt/format.h>

#include <algorithm>

#include "render/parts/parts.h"
#include "render/parts/words.h"
#include "render/shared/cautions.h"
#include "render/shared/headings.h"
#include "render/shared/point_rows.h"
#include "render/shared/resources_words.h"
#include "render/shared/stopped_first.h"
#include "render/shared/words.h"
#include "terminal/table.h"
#include "terminal/wrap.h"

namespace cli {
using service::cleaned;
using service::PartNeed;
using service::PartsList;
using service::to_text;

std::string parts_as_text(const PartsList& list, const Look& look) {
  const auto columns = static_cast<std::size_t>(look.columns);
  std::string text = heading(look, fmt::format("{}, {}: parts and fluids {}", whose_list(*list.fleet, list.scope),
                                               to_text(list.as_of), parts_span(list)));
  text += stopped_first(list.not_to_run.bans(), look);
  if (const std::string doubts = parts_doubts(list); !doubts.empty()) text += '\n' + wrapped("", doubts, columns, 0);
  const auto [shorts, perhaps, enough, others] = parts_tables(list);
  if (shorts.size() > 1)
    text += '\n' + heading(look, "Short: order by the day in front") + table(shorts, "  ", columns);
  if (others.size() > 1) text += '\n' + heading(look, short_for_other_work) + table(others, "  ", columns);
  if (perhaps.size() > 1) {
    text += '\n' + heading(look, "Perhaps short: services that are less likely than not would take more") +
            table(perhaps, "  ", columns);
  }
  if (enough.size() > 1) text += '\n' + heading(look, "Enough in stock") + table(enough, "  ", columns);
  if (shorts.size() + others.size() + enough.size() + perhaps.size() == 4)
    text += "\nNo service that is likely by then takes a part or fluid.\n";
  if (list.scope.machines && shorts.size() + others.size() + enough.size() > 3)
    text += "  " + figures_of_fleet() + '\n';
  if (const std::string legend = parts_legend(list); !legend.empty()) text += '\n' + wrapped("", legend, columns, 0);
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
