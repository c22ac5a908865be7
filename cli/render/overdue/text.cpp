#include <fmt/format.h>

#include "render/overdue/overdue.h"
#include "render/overdue/words.h"
#include "render/shared/cautions.h"
#include "render/shared/headings.h"
#include "render/shared/point_rows.h"
#include "render/shared/words.h"

namespace cli {

std::string overdue_as_text(const service::DueList& list, const Look& look) {
  const auto blocks = overdue_blocks(list);
  if (blocks.empty()) return "";
  std::string text = heading(look, fmt::format("{}, {}", service::cleaned(list.fleet->name), to_text(list.as_of)));
  for (const service::OverdueBlock& block : blocks) {
    std::vector<const service::Point*> points;
    std::vector<const service::Gap*> gaps;
    SaidLines lines;
    for (const auto& entry : block.entries) {
      if (entry.point != nullptr) points.push_back(entry.point);
      if (entry.seen != nullptr) lines.push_back(line_of(*entry.seen));
      if (entry.gap != nullptr) gaps.push_back(entry.gap);
      if (entry.use != nullptr) lines.emplace_back(entry.use->machine->key, words_of(entry.use->state));
    }
    for (const service::GapLine& line : gap_lines(gaps)) lines.push_back(line_of(line));
    text += '\n' + heading(look, title_of(block.heading));
    if (!lines.empty()) text += said_rows(lines, look);
    if (!points.empty()) text += point_rows(points, list.as_of, look);
  }
  return text + foot_of_list(look);
}

}  // namespace cli
