#include <fmt/format.h>

#include "render/overdue/overdue.h"
#include "render/overdue/words.h"
#include "render/shared/cautions.h"
#include "render/shared/headings.h"
#include "render/shared/point_rows.h"
#include "render/shared/words.h"
#include "service/overdue_news.h"

namespace cli {

std::string overdue_as_text(const service::DueList& list, const Look& look) {
  const auto blocks = overdue_blocks(list);
  if (blocks.empty()) return "";
  std::string text = heading(look, fmt::format("{}, {}", whose_list(*list.fleet, list.scope), to_text(list.as_of)));
  for (const service::OverdueBlock& block : blocks) {
    const service::BlockParts parts = parts_of(block, list);
    SaidLines lines;
    for (const service::MachineUse* use : parts.machines) lines.emplace_back(use->machine->key, words_of(use->state));
    for (const service::SeenSign* seen : parts.seen) lines.push_back(line_of(*seen));
    for (const service::GapLine& line : gap_lines(parts.gaps)) lines.push_back(line_of(line, look));
    text += '\n' + heading(look, title_of(block.heading));
    if (!lines.empty()) text += said_rows(lines, look);
    text += point_rows(parts.points, parts.no_record, list, look);
  }
  const std::string customers = customers_line(list, look);
  if (!customers.empty()) text += '\n' + customers;
  return text + foot_of_list(look);
}

}  // namespace cli
