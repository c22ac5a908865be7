#include "render/shared/markdown.h"

#include <fmt/format.h>

#include "render/overdue/overdue.h"
#include "render/overdue/words.h"
#include "render/shared/cautions.h"
#include "render/shared/point_markdown.h"
#include "render/shared/words.h"
#include "service/overdue_news.h"

namespace cli {

std::string overdue_as_markdown(const service::DueList& list, const std::string& command) {
  const auto blocks = overdue_blocks(list);
  if (blocks.empty()) return "";
  std::string text =
      fmt::format("# {}: overdue on {}\n", markdown_cell(whose_list(*list.fleet, list.scope)), to_text(list.as_of));
  for (const service::OverdueBlock& block : blocks) {
    const service::BlockParts parts = parts_of(block, list);
    text += fmt::format("\n## {}\n\n", title_of(block.heading));
    for (const service::MachineUse* use : parts.machines) text += markdown_machine(*use);
    for (const service::SeenSign* seen : parts.seen) text += markdown_seen(*seen);
    text += markdown_gaps(parts.gaps);
    const std::string points = markdown_points(parts.points, parts.no_record, list, command);
    if (!points.empty() && !(parts.machines.empty() && parts.seen.empty() && parts.gaps.empty())) text += '\n';
    text += points;
  }
  return text + foot_of_markdown();
}

}  // namespace cli
