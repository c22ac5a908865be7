#include "render/shared/markdown.h"

#include <fmt/format.h>

#include "render/due/due.h"
#include "render/overdue/words.h"
#include "render/shared/cautions.h"
#include "render/shared/words.h"

namespace cli {

std::string due_as_markdown(const DueAnswer& due) {
  const service::DueList& list = due.list;
  std::string text = fmt::format("# {}: due on {}\n\n", markdown_cell(list.fleet->name), to_text(list.as_of));
  for (const service::MachineUse& use : list.not_in_use) {
    text += fmt::format("- **{}**: {}\n", markdown_cell(use.machine->key), markdown_cell(words_of(use.state)));
  }
  if (!list.not_in_use.empty()) text += '\n';
  const service::DueRows shown = due.rows();
  std::string rows;
  for (const service::Point* const each : shown.points) {
    const service::Point& point = *each;
    rows +=
        fmt::format("| {} | {} | {} | {} | {} | {} |\n", words_of(point.standing), markdown_cell(point.machine->key),
                    markdown_cell(task_of(point)), markdown_cell(fmt::format("{}", fmt::join(limb_words(point), "; "))),
                    when(point, list.as_of), markdown_cell(fmt::format("{}", fmt::join(remarks_of(point), "; "))));
  }
  text += rows.empty()
              ? fmt::format("Nothing to list until {}, of {}.\n", to_text(list.within),
                            service::counted(list.machines, "machine", "machines"))
              : "| standing | machine | task | by | day | remarks |\n| --- | --- | --- | --- | --- | --- |\n" + rows;
  if (shown.left_off > 0) text += fmt::format("\n{} more are left out.\n", shown.left_off);
  if (!list.seen.empty()) text += fmt::format("\n## {}\n\n", title_of(service::OverdueHeading::seen));
  for (const service::SeenSign& seen : list.seen) {
    text += fmt::format("- **{}**: {}\n", markdown_cell(seen.machine->key), markdown_cell(words_of(seen)));
  }
  if (!list.gaps.empty()) text += "\n## Not known\n\n";
  for (const service::GapLine& line : gap_lines(list.gaps)) {
    text += fmt::format("- **{}**: {}\n", markdown_cell(whose(line)), markdown_cell(line.gap->say));
  }
  const bool empty = rows.empty() && list.seen.empty() && list.gaps.empty() && list.not_in_use.empty();
  return empty ? text : text + foot_of_markdown();
}

}  // namespace cli
