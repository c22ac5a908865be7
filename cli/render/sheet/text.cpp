// The job sheet as plain text, with a line between machines. (Each on paper of its own: html.cpp.)
#include <fmt/format.h>

#include <algorithm>

#include "render/shared/cautions.h"
#include "render/shared/headings.h"
#include "render/shared/label_words.h"
#include "render/shared/point_rows.h"
#include "render/shared/words.h"
#include "render/sheet/sheet.h"
#include "render/sheet/words.h"
#include "terminal/table.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

using service::cleaned;
using service::MachineSheet;
using service::SheetTask;

constexpr std::string_view blank_name = "______________";

class Writer {
 public:
  explicit Writer(const Look& look) : look_(look), columns_(columns_of(look)) {}

  void head(std::string_view text) { text_ += '\n' + heading(look_, text); }
  void line(std::string_view before, std::string_view text) {
    if (!text.empty()) text_ += wrapped(before, text, columns_, before.size());
  }
  void raw(std::string_view text) { text_ += text; }
  const Look& look() const { return look_; }
  std::size_t columns() const { return columns_; }
  std::string take() { return std::move(text_); }

 private:
  const Look& look_;
  std::size_t columns_;
  std::string text_;
};

void add_meters(Writer& out, const MachineSheet& sheet) {
  if (sheet.meters.empty()) return;
  std::vector<Row> rows;
  for (const service::SheetMeter& meter : sheet.meters) {
    rows.push_back({cleaned(meter.meter->name), last_words(meter), "today " + blank_words(meter)});
  }
  out.head("Meters");
  out.raw(table(rows, "  ", out.columns()));
  for (const service::SheetMeter& meter : sheet.meters) {
    for (const MeterDoubt& doubt : doubts_of(meter, out.look().command)) {
      out.line("  !  ", fmt::format("{}: {}", cleaned(meter.meter->name), doubt.say));
      out.line("     ", doubt.if_less);
    }
  }
}

void add_plate(Writer& out, const MachineSheet& sheet, const service::JobSheet& of) {
  out.raw(heading(out.look(), page_head(sheet, of.list->as_of)));
  for (const std::string& stop : stop_lines(sheet)) out.line("!! ", stop);
  out.line("", site_of(sheet));
  if (sheet.site != nullptr) {
    out.line("Access: ", cleaned(sheet.site->access));
    out.line("Contact: ", cleaned(sheet.site->contact));
  }
  if (!sheet.machine->serial.empty()) out.line("Serial: ", cleaned(sheet.machine->serial));
  out.line("Notes: ", cleaned(sheet.machine->notes));
  add_meters(out, sheet);
}

void add_cautions(Writer& out, const MachineSheet& sheet) {
  out.raw('\n' + steps_before(out.look()));
  if (sheet.cautions.empty()) return;
  out.head("What to mind, and at which tasks");
  for (const service::SheetCaution& caution : sheet.cautions) {
    out.line("  ", name_of(caution) + sentence_of(caution));
    out.line("    at ", tasks_of(caution, sheet));
  }
}

void add_seen(Writer& out, const MachineSheet& sheet) {
  if (sheet.seen.empty()) return;
  out.head("Seen, not looked at yet: look before it runs");
  for (const service::SeenSign* seen : sheet.seen) {
    out.line("  [ ] ", words_of(*seen));
    out.raw(fmt::format("      found {}, by {} on {}\n      what it was ______________________________________\n",
                        found_choices, blank_name, blank_day));
  }
}

void add_measure(Writer& out, std::string_view before, const service::SheetMeasure& measure) {
  const MeasureWords words = measure_words(measure);
  out.line(before, fmt::format("{} {} {}", words.before, blank_value, words.after));
}

void add_done_by(Writer& out, std::string_view before) {
  out.raw(fmt::format("{}done by {} on {}\n", before, blank_name, blank_day));
}

void add_blanks(Writer& out, const SheetTask& task) {
  for (const service::SheetMeasure& measure : task.measures) add_measure(out, "     [ ] ", measure);
  const bool placed = task.points.size() > 1 || !task.points.front()->position.empty();
  for (const service::Point* point : task.points) {
    const std::string where = placed ? cleaned(point->position.empty() ? "all" : point->position) + ": " : "";
    out.line("     [ ] ", where + fmt::format("found {}", found_choices));
  }
  out.line("     ", only_looks_words(task));
  add_done_by(out, "     ");
}

void add_task(Writer& out, const MachineSheet& sheet, const SheetTask& task, std::size_t number,
              const service::JobSheet& of) {
  out.raw("\n");
  const std::string no = fmt::format("{:>2}. ", number);
  out.line(no, fmt::format("{}: {}", cleaned(task.name), doing_of(task)));
  if (const auto marks = marks_of(task); !marks.empty()) out.line("    * ", fmt::format("{}", fmt::join(marks, "; ")));
  out.line("    !! ", gate_words(task.run_rule, sheet));
  out.line("    !! ", cold_words(task));
  for (const std::string& overdue : overdue_within(task, of.list->as_of)) out.line("    * ", overdue);
  for (const service::Point* point : task.points) {
    const std::string where = point->position.empty() ? "" : cleaned(point->position) + ", ";
    out.line("    ", fmt::format("{} {}{}, {}", mark_of(point->standing), where, words_of(point->standing),
                                 standing_words(*point, of.list->as_of)));
  }
  out.line("    Takes: ", takes_words(task));
  out.line("    * ", stock_words(task, of.list->as_of));
  if (!task.tools.empty()) out.line("    Tools: ", cleaned(fmt::format("{}", fmt::join(task.tools, ", "))));
  out.line("    ", mind_words(task.task->all_cautions));
  for (const service::SheetStep& step : task.steps) out.line("     [ ] ", step_words(step));
  for (const service::SheetIncluded& included : task.included) {
    out.line("    Includes ", included_words(included));
    for (const std::string& step : included.steps) out.line("     [ ] ", cleaned(step));
    out.line("     Notes: ", cleaned(included.notes));
  }
  out.line("    Notes: ", cleaned(task.notes));
  out.line("    ", renewed_words(task));
  if (task.label) {
    out.line("    Write on it: ", label_words(*task.label));
    out.line("    Due again: ", again_words(task));
  }
  add_blanks(out, task);
}

// Above the first task of a later day.
void add_later(Writer& out, const MachineSheet& sheet, const SheetTask& task) {
  if (const service::SheetLater* later = later_from(task, sheet)) {
    out.raw("\n");
    out.line("", later_lock_words(*later, sheet));
  }
}

void add_look_head(Writer& out, const MachineSheet& sheet, const service::SheetLook& look) {
  out.line("  ", cleaned(look.name));
  if (const auto marks = marks_of(look); !marks.empty()) out.line("    * ", fmt::format("{}", fmt::join(marks, "; ")));
  out.line("    !! ", gate_words(look.run_rule, sheet));
  if (!look.tools.empty()) out.line("    Tools: ", cleaned(fmt::format("{}", fmt::join(look.tools, ", "))));
  out.line("    ", mind_words(look.task->all_cautions));
}

// Checks that earlier services asked for are done as tasks are; what is measured again gets its blank.
void add_owed(Writer& out, const MachineSheet& sheet, service::Day as_of) {
  if (!sheet.checks_owed.empty()) out.head(owed_heading);
  for (const service::SheetLook& look : sheet.checks_owed) {
    add_look_head(out, sheet, look);
    for (const service::Point* check : look.points) {
      out.line("  [ ] ", owed_words(*check, as_of));
      out.raw(fmt::format("      found {}\n", found_choices));
      add_done_by(out, "      ");
    }
  }
  if (!sheet.measure_again.empty()) out.head(near_limit_heading);
  for (const service::SheetLook& look : sheet.measure_again) {
    add_look_head(out, sheet, look);
    for (const service::Point* point : look.points) {
      out.line("  ", near_limit_words(*point, as_of));
      for (const service::SheetMeasure& measure : look.measures) {
        if (measure.point == point) add_measure(out, "  [ ] ", measure);
      }
    }
  }
}

void add_afterwards(Writer& out, const MachineSheet& sheet) {
  for (const Remark& after : afterwards_of(sheet)) {
    out.head(after.heading);
    for (const std::string& line : after.lines) out.line("  [ ] ", line);
  }
}

void add_to_take(Writer& out, const MachineSheet& sheet, service::Day as_of) {
  if (sheet.labour.tasks.empty() && sheet.later.tasks.empty() && sheet.competent.tasks.empty()) return;
  out.head("To take along");
  out.line("  ", labour_words(sheet));
  out.line("  Not before its day: ", later_words(sheet));
  for (const service::SheetPart& part : sheet.parts) out.line("  [ ] ", part_words(part, as_of));
  if (!sheet.labour.tools.empty()) {
    out.line("  Tools: ", cleaned(fmt::format("{}", fmt::join(sheet.labour.tools, ", "))));
  }
  out.line("  Competent person: ", competent_words(sheet));
}

void add_remarks(Writer& out, const MachineSheet& sheet) {
  for (const Remark& remark : remarks_of(sheet, out.look().command)) {
    out.head(remark.heading);
    for (const std::string& line : remark.lines) out.line("  ", line);
  }
}

void add_page(Writer& out, const MachineSheet& sheet, const service::JobSheet& of) {
  add_plate(out, sheet, of);
  if (!sheet.has_work()) {
    out.raw("\n");
    out.line("", nothing_words(sheet, of));
  }
  add_cautions(out, sheet);
  add_to_take(out, sheet, of.list->as_of);
  add_seen(out, sheet);
  if (!sheet.tasks.empty()) {
    out.head(tasks_heading(sheet));
    out.line("", order_words(sheet));
    out.line("", lock_words(sheet));
    std::size_t number = 0;
    for (const SheetTask& task : sheet.tasks) {
      add_later(out, sheet, task);
      add_task(out, sheet, task, ++number, of);
    }
  }
  add_owed(out, sheet, of.list->as_of);
  add_afterwards(out, sheet);
  add_remarks(out, sheet);
  out.raw(fmt::format("\nSigned ________________________________  day {}\n", blank_day));
  const auto typed = typed_lines(sheet, out.look().command);
  if (!typed.empty()) out.head("To type it in");
  for (const TypedLines& lines : typed) {
    out.line("", lines.say);
    for (const std::string& command : lines.commands) out.line("  ", command);
  }
}

void add_others(Writer& out, const service::JobSheet& sheet) {
  SaidLines lines;
  for (const MachineSheet& other : sheet.others) {
    if (other.state != nullptr) lines.emplace_back(other.machine->key, words_of(*other.state));
    for (const Remark& remark : remarks_without_page(other, sheet.list->as_of, out.look().command)) {
      for (const std::string& line : remark.lines) {
        const bool gap = remark.heading == "Not known";
        lines.emplace_back(other.machine->key, gap ? line : remark.heading + ": " + line);
      }
    }
  }
  if (lines.empty()) return;
  out.head("Of machines without a sheet");
  out.raw(said_rows(lines, out.look()));
}

std::vector<const service::Gap*> of_no_machine(const service::JobSheet& sheet) {
  std::vector<const service::Gap*> gaps;
  for (const service::Gap* gap : sheet.gaps) {
    const bool told = std::any_of(sheet.others.begin(), sheet.others.end(),
                                  [&](const MachineSheet& other) { return other.machine->key == gap->machine; });
    if (!told) gaps.push_back(gap);
  }
  return gaps;
}

}  // namespace

std::string sheet_as_text(const service::JobSheet& sheet, const Look& look) {
  const service::DueList& list = *sheet.list;
  Writer out(look);
  out.raw(heading(look, fmt::format("{}, job sheet, {}", whose_list(*list.fleet, list.scope), to_text(list.as_of))));
  if (!sheet.has_work() && sheet.pages.empty()) {
    out.raw("\n");
    out.line("", nothing_words(sheet));
  }
  bool first = true;
  for (const MachineSheet& page : sheet.pages) {
    out.raw(first ? "\n" : '\n' + std::string(out.columns(), '=') + "\n\n");
    first = false;
    add_page(out, page, sheet);
  }
  add_others(out, sheet);
  out.raw(not_known(of_no_machine(sheet), look));
  return out.take();
}

}  // namespace cli
