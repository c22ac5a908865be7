#include "render/shared/markdown.h"

#include <fmt/format.h>

#include "render/due/due.h"
#include "render/overdue/words.h"
#include "render/shared/cautions.h"
#include "render/shared/point_markdown.h"
#include "render/shared/stopped_first.h"
#include "render/shared/words.h"

namespace cli {

std::string due_as_markdown(const DueAnswer& due, const std::string& command) {
  const service::DueList& list = due.list;
  std::string text =
      fmt::format("# {}: due on {}\n\n", markdown_cell(whose_list(*list.fleet, list.scope)), to_text(list.as_of));
  if (const std::string out = markdown_stopped(run_bans(list)); !out.empty()) text += out + '\n';
  const service::DueRows shown = due.rows();
  const std::string points = markdown_points(shown.points, shown.no_record, list, command);
  text += points.empty() ? fmt::format("Nothing to list until {}, of {}.\n", to_text(list.within),
                                       service::counted(list.machines, "machine", "machines"))
                         : points;
  if (!points.empty()) text += '\n' + totals(shown);
  if (!list.seen.empty()) text += fmt::format("\n## {}\n\n", title_of(service::OverdueHeading::seen));
  for (const service::SeenSign& seen : list.seen) text += markdown_seen(seen);
  std::string laid_up;
  for (const service::MachineUse& use : list.not_in_use) {
    if (use.state.kind == service::UseKind::laid_up) laid_up += markdown_machine(use);
  }
  if (!laid_up.empty()) text += "\n## Laid up\n\n" + laid_up;
  const auto gaps = gaps_beside(list, shown.no_record);
  if (!gaps.empty()) text += "\n## Not known\n\n" + markdown_gaps(gaps);
  const bool empty = points.empty() && list.seen.empty() && gaps.empty() && list.not_in_use.empty();
  return empty ? text : text + foot_of_markdown();
}

}  // namespace cli
