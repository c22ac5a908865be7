#include "render/shared/markdown.h"

#include <fmt/format.h>

#include "render/due/due.h"
#include "render/shared/words.h"

namespace cli {

std::string due_as_markdown(const DueAnswer& due) {
  const service::DueList& list = due.list;
  std::string text = fmt::format("# {}: due on {}\n\n", markdown_cell(list.fleet->name), to_text(list.as_of));
  for (const service::MachineUse& use : list.not_in_use) {
    text += fmt::format("- **{}**: {}\n", markdown_cell(use.machine->key), markdown_cell(words_of(use.state)));
  }
  if (!list.not_in_use.empty()) text += '\n';
  std::string rows;
  std::size_t count = 0;
  std::size_t cut = 0;
  for (const service::Point& point : list.points) {
    if (nothing_known(list, *point.machine)) continue;
    const bool quiet = point.standing == service::Standing::later && point.unknown.empty() && !point.put_off;
    if (quiet && !due.all) continue;
    if (due.first && count == *due.first) {
      ++cut;
      continue;
    }
    ++count;
    rows +=
        fmt::format("| {} | {} | {} | {} | {} | {} |\n", words_of(point.standing), markdown_cell(point.machine->key),
                    markdown_cell(task_of(point)), markdown_cell(fmt::format("{}", fmt::join(limb_words(point), "; "))),
                    when(point, list.as_of), markdown_cell(fmt::format("{}", fmt::join(remarks_of(point), "; "))));
  }
  text += rows.empty()
              ? fmt::format("Nothing to list until {}, of {}.\n", to_text(list.within),
                            service::counted(list.machines, "machine", "machines"))
              : "| standing | machine | task | by | day | remarks |\n| --- | --- | --- | --- | --- | --- |\n" + rows;
  if (cut > 0) text += fmt::format("\n{} more are left out.\n", cut);
  if (!list.gaps.empty()) text += "\n## Not known\n\n";
  for (const service::Gap& gap : list.gaps) {
    text += fmt::format("- **{}**: {}\n", markdown_cell(whose(gap)), markdown_cell(gap.say));
  }
  return text;
}

}  // namespace cli
