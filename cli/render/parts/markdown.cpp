#include "render/shared/markdown.h"

#include <fmt/format.h>

#include "render/parts/parts.h"
#include "render/parts/words.h"
#include "render/shared/cautions.h"
#include "render/shared/point_markdown.h"
#include "render/shared/resources_words.h"
#include "render/shared/stopped_first.h"
#include "render/shared/words.h"
#include "service/other_work.h"

namespace cli {

using service::PartNeed;
using service::PartsList;
using service::to_text;

std::string parts_as_markdown(const PartsList& list) {
  std::string text =
      fmt::format("# {}: parts and fluids, {} to {}\n", markdown_cell(whose_list(*list.fleet, list.scope)),
                  to_text(list.as_of), to_text(list.to));
  if (const std::string out = markdown_stopped(list.not_to_run.bans()); !out.empty()) text += '\n' + out;
  if (const std::string doubts = parts_doubts(list); !doubts.empty()) text += '\n' + markdown_cell(doubts) + '\n';
  const auto orders = orders_of(list);
  if (orders.empty()) text += "\nNothing is short.\n";
  for (const service::SupplierOrder& order : orders) {
    text += fmt::format(
        "\n## {}\n\n| order by | buy | part | number | what | price | cost |\n|---|---|---|---|---|---|---|\n",
        markdown_cell(supplier_words(order)));
    for (const PartNeed* need : order.needs) {
      text += fmt::format("| {} | {} | {} | {} | {} | {} | {} |\n", order_words(*need, list.as_of),
                          markdown_cell(to_buy(*need)), markdown_cell(need->key),
                          markdown_cell(need->part != nullptr ? need->part->number : ""),
                          markdown_cell(what_of(*need) + (for_other_work(*need) ? " (for other work)" : "") +
                                        (need->doubtful ? " (doubtful)" : "")),
                          markdown_cell(each_words(*need)), markdown_cell(cost_words(*need, *list.fleet)));
    }
  }
  if (list.left_off > 0) text += fmt::format("\nAnd {} more, left off by --first.\n", list.left_off);
  if (list.scope.machines) text += '\n' + figures_of_fleet() + '\n';
  if (!list.unknown.empty() || !list.not_in_use.empty()) text += '\n';
  for (const service::PointName& point : list.unknown) {
    text += fmt::format("- not known when **{}** of **{}** comes due\n", markdown_cell(task_of(point)),
                        markdown_cell(point.machine->key));
  }
  for (const service::MachineUse& use : list.not_in_use) {
    text += fmt::format("- **{}** {}\n", markdown_cell(use.machine->key), stands_words(use.state));
  }
  std::vector<const service::Gap*> gaps;
  for (const service::Gap& gap : list.gaps) gaps.push_back(&gap);
  if (!gaps.empty()) text += "\n## Not known\n\n" + markdown_gaps(gaps);
  return list.needs.empty() ? text : text + foot_of_markdown();
}

}  // namespace cli
