#include "render/shared/markdown.h"

#include <fmt/format.h>

#include "render/parts/parts.h"
#include "render/parts/words.h"

namespace cli {

using service::PartNeed;
using service::PartsList;
using service::to_text;

std::string parts_as_markdown(const PartsAnswer& answer) {
  const PartsList& list = answer.list;
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
  if (answer.some_machines) text += '\n' + others_need() + '\n';
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
