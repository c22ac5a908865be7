#include "render/csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "render/answers.h"
#include "render/words.h"

namespace cli {
namespace {

using service::LimbKind;

template <class T>
std::string figure(const std::optional<T>& value) {
  return value ? to_text(*value) : "";
}

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

std::string csv_line(const std::vector<std::string>& cells) { return fmt::format("{}\r\n", fmt::join(cells, ",")); }

std::string csv_text(std::string_view text) {
  std::string cell;
  const std::string_view starters = "=+-@\t\r\n";
  const bool full_width =
      text.starts_with("＝") || text.starts_with("＋") || text.starts_with("－") || text.starts_with("＠");
  if (!text.empty() && (starters.find(text.front()) != std::string_view::npos || full_width)) cell = '\'';
  bool quoted = text.find_first_of(",;\"\r\n\t") != std::string_view::npos;
  quoted = quoted || (!text.empty() && (text.front() == ' ' || text.back() == ' '));
  for (const char c : text) {
    if (c == '"') cell += '"';
    cell += c;
  }
  return quoted ? '"' + cell + '"' : cell;
}

std::string due_as_csv(const service::DueList& list, std::optional<std::size_t> first) {
  std::string text = csv_line(due_columns);
  std::size_t count = 0;
  for (const service::Point& point : list.points) {
    if (first && count++ == *first) break;
    text += csv_line(cells_of(point));
  }
  for (const service::Gap& gap : list.gaps) text += other("gap", gap.machine, to_text(gap.kind), gap.say);
  for (const service::MachineUse& use : list.not_in_use) {
    const bool out = use.state.kind == service::UseKind::out_of_use;
    text += other("machine", use.machine->key, out ? "out-of-use" : "laid-up", words_of(use.state));
  }
  return text;
}

std::string history_as_csv(const Book& book) {
  std::string text = csv_line({"on", "kind", "what", "value", "usage", "id", "struck", "struck_because", "note"});
  for (const BookLine& entry : book.lines) {
    text += csv_line({to_text(entry.fact.on), std::string(to_text(entry.fact.kind)), csv_text(entry.what),
                      csv_text(entry.value), figure(entry.usage), to_text(entry.fact.id), entry.struck ? "yes" : "no",
                      csv_text(entry.struck_because), csv_text(entry.fact.note)});
  }
  return text;
}

std::string find_out_as_csv(const service::DueList& list) {
  std::string text =
      csv_line({"kind", "machine", "on", "meter", "at", "task", "position", "name", "value", "unit", "by", "note"});
  for (const service::MachineQuestions& asked : service::find_out(list)) {
    for (const service::Question& question : asked.questions) {
      const service::Point* point = question.point;
      const bool is_service = question.kind == service::FactKind::service;
      const bool measurement = question.kind == service::FactKind::measurement;
      text += csv_line({std::string(to_text(question.kind)), csv_text(asked.machine->key), "",
                        measurement ? "" : csv_text(question.meter), "", is_service ? csv_text(point->name) : "",
                        point == nullptr ? "" : csv_text(point->position), measurement ? csv_text(question.name) : "",
                        "", measurement ? csv_text(question.unit) : "", "", ""});
    }
  }
  return text;
}

}  // namespace cli
