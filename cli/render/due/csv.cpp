#include <fmt/format.h>

#include "render/due/due.h"
#include "render/shared/csv_line.h"
#include "render/shared/words.h"

namespace cli {
namespace {

using service::LimbKind;

// The limb of a kind that is nearest to its end stands in the columns of that kind.
const service::LimbStanding* limb_of(const service::Point& point, LimbKind kind) {
  const service::LimbStanding* found = nullptr;
  for (std::size_t i = 0; i < point.limbs.size(); ++i) {
    if (point.limbs[i].kind != kind) continue;
    if (found == nullptr || (point.ruled_by && *point.ruled_by == i)) found = &point.limbs[i];
  }
  return found;
}

std::vector<std::string> cells_of(const service::Point& point) {
  std::vector<std::string> cells{"point",
                                 csv_text(point.machine->key),
                                 csv_text(point.name),
                                 csv_text(point.position),
                                 std::string(to_text(point.standing)),
                                 point.by_estimate ? "yes" : "no"};
  cells.emplace_back(point.ruled_by ? to_text(point.limbs[*point.ruled_by].kind) : "");
  cells.push_back(figure(point.due_on));
  const auto* usage = limb_of(point, LimbKind::usage);
  cells.push_back(usage == nullptr ? "" : figure(usage->every));
  cells.push_back(usage == nullptr ? "" : figure(usage->used));
  cells.push_back(usage == nullptr ? "" : figure(usage->left));
  cells.push_back(usage == nullptr ? "" : csv_text(usage->unit));
  const auto* calendar = limb_of(point, LimbKind::calendar);
  cells.push_back(calendar == nullptr ? "" : figure(calendar->span));
  cells.push_back(calendar == nullptr ? "" : figure(calendar->due_on));
  cells.push_back(calendar == nullptr || !calendar->left_days ? "" : std::to_string(*calendar->left_days));
  cells.push_back(point.fitted ? to_text(point.fitted->on) : "");
  cells.push_back(point.fitted ? figure(point.fitted->at) : "");
  std::vector<std::string_view> unknown;
  for (const LimbKind kind : point.unknown) unknown.push_back(to_text(kind));
  cells.push_back(fmt::format("{}", fmt::join(unknown, " ")));
  cells.push_back(point.put_off ? figure(point.put_off->until) : "");
  cells.push_back(csv_text(fmt::format("{}", fmt::join(limb_words(point), "; "))));
  return cells;
}

const std::vector<std::string> due_columns{
    "what",        "machine",   "task",           "position",        "standing",
    "by_estimate", "ruled_by",  "due_on",         "usage_every",     "usage_used",
    "usage_left",  "unit",      "calendar_every", "calendar_due_on", "calendar_left_days",
    "fitted_on",   "fitted_at", "unknown",        "put_off_until",   "say"};

std::string other(std::string_view what, const std::string& machine, std::string_view standing,
                  const std::string& say) {
  std::vector<std::string> cells(due_columns.size());
  cells[0] = what;
  cells[1] = csv_text(machine);
  cells[4] = standing;
  cells.back() = csv_text(say);
  return csv_line(cells);
}

}  // namespace

std::string due_as_csv(const DueAnswer& due) {
  const service::DueList& list = due.list;
  std::string text = csv_line(due_columns);
  std::size_t count = 0;
  for (const service::Point& point : list.points) {
    if (due.first && count++ == *due.first) break;
    text += csv_line(cells_of(point));
  }
  for (const service::Gap& gap : list.gaps) text += other("gap", gap.machine, to_text(gap.kind), gap.say);
  for (const service::MachineUse& use : list.not_in_use) {
    const bool out = use.state.kind == service::UseKind::out_of_use;
    text += other("machine", use.machine->key, out ? "out-of-use" : "laid-up", words_of(use.state));
  }
  return text;
}

}  // namespace cli
