#include "render/due_text.h"

#include <fmt/format.h>

#include <map>
#include <set>

#include "render/headings.h"
#include "render/overdue_words.h"
#include "render/point_rows.h"
#include "render/words.h"

namespace cli {
namespace {

using service::DueList;
using service::Gap;
using service::GapKind;
using service::Point;
using service::Standing;

using Lines = std::vector<std::pair<std::string, std::string>>;

std::pair<std::string, std::string> line_of(const Gap& gap) {
  const std::string who = gap.machine.empty() ? "whole fleet" : gap.machine;
  if (gap.kind == GapKind::nothing_recorded) {
    return {who, fmt::format("{}; for a list to fill in: whichever find-out {}", gap.say, gap.machine)};
  }
  return {who, gap.say};
}

Lines machines_that(const DueList& list, service::UseKind kind) {
  Lines lines;
  for (const service::MachineUse& use : list.not_in_use) {
    if (use.state.kind == kind) lines.emplace_back(use.machine->key, words_of(use.state));
  }
  return lines;
}

std::string horizon_words(const DueList& list) {
  return "within " + service::counted(service::days_between(list.as_of, list.within), "day", "days");
}

std::string nothing_due(const DueList& list, const DueView& view) {
  // Where something is not known, nobody may read this as an all-clear.
  std::string text = fmt::format("{} is due {}. {}", list.gaps.empty() ? "Nothing" : "Nothing that is known",
                                 horizon_words(list), service::counted(list.machines, "machine", "machines"));
  text +=
      view.newest_fact ? fmt::format(", newest entry {}.", to_text(*view.newest_fact)) : ", nothing is recorded yet.";
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

std::string due_as_text(const DueList& list, const DueView& view, const Look& look) {
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
    if (!shown(point, view.all)) {
      ++hidden;
      continue;
    }
    something_known_due = something_known_due || point.standing != Standing::later;
    if (view.first && points.size() == *view.first) {
      ++cut;
    } else {
      points.push_back(&point);
    }
  }
  if (!something_known_due) text += '\n' + nothing_due(list, view);
  if (!points.empty()) text += '\n' + point_rows(points, list.as_of, look);
  if (const auto lines = machines_that(list, service::UseKind::laid_up); !lines.empty()) {
    text += '\n' + heading(look, "Laid up") + said_rows(lines, look);
  }
  if (!list.gaps.empty()) {
    Lines lines;
    for (const Gap& gap : list.gaps) lines.push_back(line_of(gap));
    text += '\n' + heading(look, "Not known") + said_rows(lines, look);
  }
  if (something_known_due) text += '\n' + totals(list, unknown, hidden, cut);
  return text;
}

std::string overdue_as_text(const DueList& list, const Look& look) {
  using service::OverdueHeading;
  const auto entries = overdue_list(list);
  if (entries.empty()) return "";
  std::string text = heading(look, fmt::format("{}, {}", service::cleaned(list.fleet->name), to_text(list.as_of)));
  for (const auto which : {OverdueHeading::out_of_use, OverdueHeading::overdue, OverdueHeading::read_the_meter,
                           OverdueHeading::find_out, OverdueHeading::put_off, OverdueHeading::laid_up}) {
    std::vector<const Point*> points;
    Lines lines;
    for (const auto& entry : entries) {
      if (entry.heading != which) continue;
      if (entry.point != nullptr) points.push_back(entry.point);
      if (entry.gap != nullptr) lines.push_back(line_of(*entry.gap));
      if (entry.use != nullptr) lines.emplace_back(entry.use->machine->key, words_of(entry.use->state));
    }
    if (points.empty() && lines.empty()) continue;
    text += '\n' + heading(look, title_of(which));
    if (!lines.empty()) text += said_rows(lines, look);
    if (!points.empty()) text += point_rows(points, list.as_of, look);
  }
  return text;
}

}  // namespace cli
