#include <fmt/format.h>

#include <map>
#include <set>

#include "render/due/due.h"
#include "render/shared/headings.h"
#include "render/shared/point_rows.h"
#include "render/shared/words.h"

namespace cli {
namespace {

using service::DueList;
using service::Gap;
using service::GapKind;
using service::Point;
using service::Standing;

SaidLines machines_that(const DueList& list, service::UseKind kind) {
  SaidLines lines;
  for (const service::MachineUse& use : list.not_in_use) {
    if (use.state.kind == kind) lines.emplace_back(use.machine->key, words_of(use.state));
  }
  return lines;
}

std::string horizon_words(const DueList& list) {
  return "within " + service::counted(service::days_between(list.as_of, list.within), "day", "days");
}

std::string nothing_due(const DueAnswer& due) {
  // Where something is not known, nobody may read this as an all-clear.
  std::string text = fmt::format("{} is due {}. {}", due.list.gaps.empty() ? "Nothing" : "Nothing that is known",
                                 horizon_words(due.list), service::counted(due.list.machines, "machine", "machines"));
  text += due.newest_fact ? fmt::format(", newest entry {}.", to_text(*due.newest_fact)) : ", nothing is recorded yet.";
  return text + '\n';
}

bool shown(const Point& point, bool all) {
  return all || point.standing != Standing::later || !point.unknown.empty() || point.put_off.has_value();
}

std::string totals(const DueList& list, const std::set<std::string>& unknown, std::size_t hidden, std::size_t cut) {
  std::map<Standing, int> counts;
  for (const Point& point : list.points) {
    if (!unknown.contains(point.machine->key)) ++counts[point.standing];
  }
  std::vector<std::string> parts;
  for (const Standing standing :
       {Standing::overdue, Standing::due, Standing::no_record, Standing::coming, Standing::later}) {
    if (counts[standing] > 0) parts.push_back(fmt::format("{} {}", counts[standing], words_of(standing)));
  }
  std::string text = fmt::format("{}.", fmt::join(parts, ", "));
  if (cut > 0) text += fmt::format(" {} more are left out by --first.", cut);
  if (hidden > 0) text += " --all shows the later ones too.";
  return text + '\n';
}

}  // namespace

std::string due_as_text(const DueAnswer& due, const Look& look) {
  const DueList& list = due.list;
  std::string text = heading(look, fmt::format("{}, {}, looking ahead to {}", service::cleaned(list.fleet->name),
                                               to_text(list.as_of), to_text(list.within)));
  if (const auto lines = machines_that(list, service::UseKind::out_of_use); !lines.empty()) {
    text += '\n' + heading(look, "Out of use: do not run") + said_rows(lines, look);
  }
  std::set<std::string> unknown;
  for (const Gap& gap : list.gaps) {
    if (gap.kind == GapKind::nothing_recorded) unknown.insert(gap.machine);
  }
  std::vector<const Point*> points;
  std::size_t hidden = 0;
  std::size_t cut = 0;
  bool something_known_due = false;
  for (const Point& point : list.points) {
    if (unknown.contains(point.machine->key)) continue;  // one line under "Not known" stands for them
    if (!shown(point, due.all)) {
      ++hidden;
      continue;
    }
    something_known_due = something_known_due || point.standing != Standing::later;
    if (due.first && points.size() == *due.first) {
      ++cut;
    } else {
      points.push_back(&point);
    }
  }
  if (!something_known_due) text += '\n' + nothing_due(due);
  if (!points.empty()) text += '\n' + point_rows(points, list.as_of, look);
  if (const auto lines = machines_that(list, service::UseKind::laid_up); !lines.empty()) {
    text += '\n' + heading(look, "Laid up") + said_rows(lines, look);
  }
  if (!list.gaps.empty()) {
    SaidLines lines;
    for (const Gap& gap : list.gaps) lines.push_back(line_of(gap));
    text += '\n' + heading(look, "Not known") + said_rows(lines, look);
  }
  if (something_known_due) text += '\n' + totals(list, unknown, hidden, cut);
  return text;
}

}  // namespace cli
