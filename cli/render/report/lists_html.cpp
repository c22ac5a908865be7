// The overdue list and the due list on the page of a report.
#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "render/due/due.h"
#include "render/overdue/words.h"
#include "render/report/parts_of_page.h"
#include "render/report/words.h"
#include "render/shared/words.h"
#include "service/overdue_news.h"

namespace cli {
namespace {

using service::DueList;

void add_block(const Element& part, const ReportPage& page, const service::OverdueBlock& block) {
  const service::BlockParts parts = parts_of(block, page.report.due);
  const Element section = part.add("section", "block");
  section.add("h3").say(title_of(block.heading));
  SaidLines lines;
  for (const service::SeenSign* seen : parts.seen) lines.push_back(line_of(*seen));
  for (const service::GapLine& line : gap_lines(parts.gaps)) lines.push_back(line_of(line, page.look));
  add_said(section, page, lines);
  add_points(section, page, title_of(block.heading), parts.points, parts.no_record);
}

void add_soon(const Element& part, const ReportPage& page, const std::vector<const service::Point*>& points) {
  if (points.empty()) return;
  const Element section = part.add("section", "block");
  const std::string title = soon_title();
  section.add("h3").say(title);
  add_points(section, page, title, points);
}

// Whether the first part has rows with bars.
bool draws_bars(const ReportPage& page) {
  const auto blocks = overdue_blocks(page.report.due);
  return !due_soon(page.report).empty() || std::any_of(blocks.begin(), blocks.end(), [&](const auto& block) {
    return !parts_of(block, page.report.due).points.empty();
  });
}

}  // namespace

void add_overdue_list(const Element& parent, const ReportPage& page) {
  const Element part = add_part(parent, "overdue", overdue_title);
  const auto blocks = overdue_blocks(page.report.due);
  auto soon = due_soon(page.report);
  if (blocks.empty() && soon.empty() && page.bans.empty()) {
    add_paragraph(part, fmt::format("Nothing: all is well, and all is known of {}.",
                                    service::counted(page.report.due.machines, "machine", "machines")));
    add_to_contents(part);
    return;
  }
  add_not_to_run(part, page);
  if (draws_bars(page)) add_bars_key(part);
  for (const service::OverdueBlock& block : blocks) {
    if (block.heading == service::OverdueHeading::out_of_use) continue;  // said among what is not to be run
    // Behind what is overdue.
    if (block.heading > service::OverdueHeading::overdue) add_soon(part, page, std::exchange(soon, {}));
    add_block(part, page, block);
  }
  add_soon(part, page, soon);
  add_before_you_touch(part);
  add_to_contents(part);
}

void add_due_list(const Element& parent, const ReportPage& page) {
  const DueList& list = page.report.due;
  const DueAnswer due{list, false, {}, page.report.known_until};
  const service::DueRows rows = due.rows();
  const Element part = add_part(parent, "due", fmt::format("Due, and coming until {}", to_text(list.within)));
  add_not_to_run(part, page);
  if (!rows.anything_due) add_paragraph(part, nothing_due(due));
  if (!draws_bars(page) && !rows.points.empty()) add_bars_key(part);
  add_points(part, page, fmt::format("Service points on {}, worst first", to_text(list.as_of)), rows.points,
             rows.no_record);
  if (!list.seen.empty()) {
    part.add("h3").say(title_of(service::OverdueHeading::seen));
    SaidLines lines;
    for (const service::SeenSign& seen : list.seen) lines.push_back(line_of(seen));
    add_said(part, page, lines);
  }
  if (const auto lines = machines_that(list.not_in_use, service::UseKind::laid_up); !lines.empty()) {
    part.add("h3").say("Laid up");
    add_said(part, page, lines);
  }
  if (const auto gaps = gaps_beside(list, rows.no_record); !gaps.empty()) {
    part.add("h3").say("Not known");
    SaidLines lines;
    for (const service::GapLine& line : gap_lines(gaps)) lines.push_back(line_of(line, page.look));
    add_said(part, page, lines);
  }
  if (rows.anything_due) {
    add_paragraph(part,
                  counts_words(rows) + (rows.later > 0 ? " What comes later stands on each machine's page." : ""));
    add_paragraph(part, "About: expected at even odds; in brackets, eight cases of ten lie within.", "quiet");
    add_paragraph(part, customers_line(list, page.look), "quiet");
  }
  const bool empty = rows.points.empty() && rows.no_record.empty() && list.seen.empty() && list.gaps.empty() &&
                     list.not_in_use.empty();
  if (!empty) add_before_you_touch(part);
  add_to_contents(part);
}

}  // namespace cli
