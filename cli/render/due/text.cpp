#include <fmt/format.h>

#include <algorithm>

#include "render/due/due.h"
#include "render/overdue/words.h"
#include "render/shared/cautions.h"
#include "render/shared/headings.h"
#include "render/shared/point_rows.h"
#include "render/shared/stopped_first.h"
#include "render/shared/words.h"

namespace cli {
namespace {

using service::DueList;
using service::Standing;

std::string horizon_words(const DueList& list) {
  return "within " + service::counted(service::days_between(list.as_of, list.within), "day", "days");
}

// What a day that may be another one is.
std::string expected_words(const service::DueRows& rows, const Look& look) {
  const bool any = std::any_of(rows.points.begin(), rows.points.end(),
                               [](const service::Point* point) { return service::is_expected(*point); });
  if (!any) return "";
  return look.drawn ? "~ before a day: expected at even odds.\n"
                    : "About: expected at even odds; in brackets, eight cases of ten lie within.\n";
}

}  // namespace

std::string nothing_due(const DueAnswer& due) {
  // Where something is not known, nobody may read this as an all-clear.
  std::string text = fmt::format("{} is due {}. {}", due.list.gaps.empty() ? "Nothing" : "Nothing that is known",
                                 horizon_words(due.list), service::counted(due.list.machines, "machine", "machines"));
  text += due.newest_fact ? fmt::format(", newest entry {}.", to_text(*due.newest_fact)) : ", nothing is recorded yet.";
  return text;
}

std::string counts_words(const service::DueRows& rows) {
  std::vector<std::string> parts;
  for (const Standing standing :
       {Standing::overdue, Standing::due, Standing::no_record, Standing::coming, Standing::later}) {
    const auto count = rows.counts.find(standing);
    if (count != rows.counts.end()) parts.push_back(fmt::format("{} {}", count->second, words_of(standing)));
  }
  return fmt::format("{}.", fmt::join(parts, ", "));
}

std::string totals(const service::DueRows& rows) {
  std::string text = counts_words(rows);
  if (rows.left_off > 0) text += fmt::format(" And {} more, left off by --first.", rows.left_off);
  if (rows.later > 0) text += " --all shows the later ones too.";
  return text + '\n';
}

std::string due_as_text(const DueAnswer& due, const Look& look) {
  const DueList& list = due.list;
  std::string text = heading(look, fmt::format("{}, {}, looking ahead to {}", whose_list(*list.fleet, list.scope),
                                               to_text(list.as_of), to_text(list.within)));
  text += stopped_first(run_bans(list), look);
  const service::DueRows rows = due.rows();
  if (!rows.anything_due) text += '\n' + nothing_due(due) + '\n';
  if (!rows.points.empty() || !rows.no_record.empty()) {
    text += '\n' + point_rows(rows.points, rows.no_record, list, look);
  }
  if (!list.seen.empty()) {
    SaidLines lines;
    for (const service::SeenSign& seen : list.seen) lines.push_back(line_of(seen));
    text += '\n' + heading(look, title_of(service::OverdueHeading::seen)) + said_rows(lines, look);
  }
  if (const auto lines = machines_that(list.not_in_use, service::UseKind::laid_up); !lines.empty()) {
    text += '\n' + heading(look, "Laid up") + said_rows(lines, look);
  }
  text += not_known(gaps_beside(list, rows.no_record), look);
  if (rows.anything_due) text += '\n' + expected_words(rows, look) + customers_line(list, look) + totals(rows);
  const bool empty = rows.points.empty() && rows.no_record.empty() && list.seen.empty() && list.gaps.empty() &&
                     list.not_in_use.empty();
  return empty ? text : text + foot_of_list(look);
}

}  // namespace cli
