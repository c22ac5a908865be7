// The job sheet as a page of HTML: for a telephone at the machine, and to print, each machine on paper of its own.
#include <fmt/format.h>

#include <algorithm>

#include "render/html/plate.h"
#include "render/html/use_bars.h"
#include "render/shared/bars_of.h"
#include "render/shared/cautions.h"
#include "render/shared/headings.h"
#include "render/shared/label_words.h"
#include "render/shared/point_rows.h"
#include "render/shared/words.h"
#include "render/sheet/paper.h"
#include "render/sheet/sheet.h"
#include "render/sheet/words.h"

namespace cli {
namespace {

using service::cleaned;
using service::JobSheet;
using service::MachineSheet;
using service::SheetTask;

void add_plate(const Element& section, const MachineSheet& sheet, const JobSheet& of) {
  const Element plate = section.add("header", "plate");
  const Element title = plate.add("h1");
  title.add("span").say(name_of(*sheet.machine));
  title.add("span", "day").say(to_text(of.list->as_of));
  // A screen has no head of its own as paper has.
  if (const std::string mark = stop_mark(sheet); !mark.empty()) plate.add("p", "stop").say(mark);
  for (const std::string& stop : stop_lines(sheet)) plate.add("p", "stop").say(stop);
  const Element cells = plate.add("ul", "cells");
  add_cell(cells, "Machine", sheet.machine->key);
  add_cell(cells, "Serial", sheet.machine->serial);
  add_cell(cells, "Site", site_of(sheet));
  if (sheet.site != nullptr) {
    add_cell(cells, "Access", sheet.site->access);
    add_cell(cells, "Contact", sheet.site->contact);
  }
  add_cell(cells, "Notes", sheet.machine->notes);
}

void add_meters(const Element& section, const MachineSheet& sheet, const std::string& command) {
  if (sheet.meters.empty()) return;
  const Element table = section.add("table", "stack whole");
  const Element head = table.add("thead").add("tr");
  for (const char* heading : {"Meter", "Showed last", "Shows today"}) head.add("th").with("scope", "col").say(heading);
  const Element rows = table.add("tbody");
  for (const service::SheetMeter& meter : sheet.meters) {
    const Element row = rows.add("tr");
    row.add("th").with("scope", "row").say(meter.meter->name);
    const Element last = row.add("td").with("data-label", "Showed last").say(last_words(meter));
    add_doubts(last, meter, command);
    add_blank(row.add("td").with("data-label", "Shows today"), meter.meter->unit, "value");
  }
}

void add_cautions(const Element& section, const MachineSheet& sheet) {
  add_steps_before(add_section(section, "Before you touch it"));
  if (sheet.cautions.empty()) return;
  const Element list = add_section(section, "What to mind, and at which tasks").add("ul", "cautions");
  for (const service::SheetCaution& caution : sheet.cautions) {
    const Element item = list.add("li");
    if (const std::string name = name_of(caution); !name.empty()) item.add("b").say(name);
    item.say(sentence_of(caution));
    const std::string tasks = tasks_of(caution, sheet);
    if (tasks.empty()) continue;
    item.add("br");
    item.add("span", "quiet").say("at " + tasks);
  }
}

void add_to_take(const Element& section, const MachineSheet& sheet, service::Day as_of) {
  if (sheet.labour.tasks.empty() && sheet.later.tasks.empty() && sheet.competent.tasks.empty()) return;
  const Element taken = add_section(section, "To take along", "whole");
  add_line(taken, "Time:", labour_words(sheet));
  add_line(taken, "Not before its day:", later_words(sheet));
  if (!sheet.parts.empty()) {
    const Element list = taken.add("ul", "todo");
    for (const service::SheetPart& part : sheet.parts) {
      const Element item = list.add("li");
      add_tick(item);
      item.say(part_words(part, as_of));
    }
  }
  add_line(taken, "Tools:", fmt::format("{}", fmt::join(sheet.labour.tools, ", ")));
  add_line(taken, "Competent person:", competent_words(sheet));
}

// A box, and a blank for what is measured.
void add_measure(const Element& parent, const service::SheetMeasure& measure) {
  const MeasureWords words = measure_words(measure);
  const Element line = parent.add("div", "fill").add("span");
  add_tick(line);
  line.say(words.before + ' ');
  add_blank(line, words.after, "value");
}

// Three boxes, and by whom and when.
void add_found(const Element& parent, std::string_view where) {
  const Element line = parent.add("div", "fill");
  if (!where.empty()) line.add("b").say(where);
  for (const char* found : {"good", "worn", "failed"}) {
    const Element choice = line.add("span");
    add_tick(choice);
    choice.say(found);
  }
}

void add_done_by(const Element& parent) {
  const Element line = parent.add("div", "fill");
  add_blank(line.add("span").say("Done by "), {}, "name");
  add_blank(line.add("span").say("on "), {}, "when");
}

void add_seen(const Element& section, const MachineSheet& sheet) {
  if (sheet.seen.empty()) return;
  const Element part = add_section(section, "Seen, not looked at yet: look before it runs");
  for (const service::SeenSign* seen : sheet.seen) {
    const Element block = part.add("div", "whole");
    block.add("p").add("b").say(words_of(*seen));
    add_found(block, "Found");
    add_blank(block.add("p").say("What it was "), {}, "name");
    add_done_by(block);
  }
}

void add_steps(const Element& parent, const std::vector<std::string>& steps) {
  if (steps.empty()) return;
  const Element list = parent.add("ul", "todo");
  for (const std::string& step : steps) {
    const Element item = list.add("li");
    add_tick(item);
    item.say(step);
  }
}

void add_label(const Element& parent, const SheetTask& task) {
  if (!task.label) return;
  const Element label = parent.add("div", "label whole");
  label.add("p").add("b").say(fmt::format("{} · {}", task.points.front()->machine->key, task.name));
  say_with_blanks(label.add("p"), label_words(*task.label));
  if (const std::string again = again_words(task); !again.empty())
    say_with_blanks(label.add("p"), "due again: " + again);
}

void add_why(const Element& parent, const service::Point& point, service::Day as_of) {
  const Element why = parent.add("div", "why");
  const std::string words = standing_words(point, as_of);
  why.add("span", fmt::format("standing {}", to_text(point.standing)))
      .say(fmt::format("{} {}", mark_of(point.standing), words_of(point.standing)));
  add_use_bars(why, bars_of(point, as_of), words);
  why.add("p").say(point.position.empty() ? words : fmt::format("{}: {}", point.position, words));
}

void add_task(const Element& parent, const MachineSheet& sheet, const SheetTask& task, std::size_t number,
              const JobSheet& of) {
  const Element article = parent.add("article", "task");
  article.add("div", "no").say(fmt::format("{}", number));
  const Element body = article.add("div");
  const Element top = body.add("div", "head");
  top.add("h3").say(doing_of(task));
  const Element named = top.add("p");
  named.add("span", "quiet").say(task.name);
  if (const auto marks = marks_of(task); !marks.empty()) {
    named.say(" ").add("span", "marks").say(fmt::format("{}", fmt::join(marks, "; ")));
  }
  for (const std::string& gate : {gate_words(task.run_rule, sheet), cold_words(task)}) {
    if (!gate.empty()) top.add("p", "gate").say(gate);
  }
  for (const std::string& overdue : overdue_within(task, of.list->as_of)) top.add("p", "marks").say(overdue);
  for (const service::Point* point : task.points) add_why(top, *point, of.list->as_of);
  add_line(top, "Takes:", takes_words(task));
  if (const std::string stock = stock_words(task, of.list->as_of); !stock.empty()) top.add("p", "marks").say(stock);
  add_line(top, "Tools:", fmt::format("{}", fmt::join(task.tools, ", ")));
  add_line(top, "Mind:", fmt::format("{}", fmt::join(task.task->all_cautions, ", ")));
  std::vector<std::string> steps;
  for (const service::SheetStep& step : task.steps) steps.push_back(step_words(step));
  add_steps(body, steps);
  for (const service::SheetIncluded& included : task.included) {
    body.add("h4").say("Includes " + included_words(included));
    add_steps(body, included.steps);
    add_line(body, "Notes:", included.notes);
  }
  add_line(body, "Notes:", task.notes);
  if (const std::string renewed = renewed_words(task); !renewed.empty()) body.add("p").say(renewed);
  const Element finish = body.add("div", "finish");
  const Element found = finish.add("div");
  for (const service::SheetMeasure& measure : task.measures) add_measure(found, measure);
  for (const service::Point* point : task.points) {
    add_found(found, point->position.empty() ? "Found" : point->position + ": found");
  }
  if (const std::string only = only_looks_words(task); !only.empty()) found.add("p", "quiet").say(only);
  add_done_by(found);
  add_label(finish, task);
}

void add_look_head(const Element& block, const MachineSheet& sheet, const service::SheetLook& look) {
  block.add("p").add("b").say(look.name);
  if (const auto marks = marks_of(look); !marks.empty())
    block.add("p", "marks").say(fmt::format("{}", fmt::join(marks, "; ")));
  if (const std::string gate = gate_words(look.run_rule, sheet); !gate.empty()) block.add("p", "gate").say(gate);
  add_line(block, "Tools:", fmt::format("{}", fmt::join(look.tools, ", ")));
  add_line(block, "Mind:", fmt::format("{}", fmt::join(look.task->all_cautions, ", ")));
}

// Checks that earlier services asked for are done as tasks are; what is measured again gets its blank.
void add_owed(const Element& section, const MachineSheet& sheet, service::Day as_of) {
  if (!sheet.checks_owed.empty()) {
    const Element part = add_section(section, owed_heading);
    for (const service::SheetLook& look : sheet.checks_owed) {
      const Element block = part.add("div", "whole");
      add_look_head(block, sheet, look);
      for (const service::Point* check : look.points) {
        add_steps(block, {owed_words(*check, as_of)});
        add_found(block, "Found");
        add_done_by(block);
      }
    }
  }
  if (sheet.measure_again.empty()) return;
  const Element part = add_section(section, near_limit_heading);
  for (const service::SheetLook& look : sheet.measure_again) {
    const Element block = part.add("div", "whole");
    add_look_head(block, sheet, look);
    for (const service::Point* point : look.points) {
      block.add("p").say(near_limit_words(*point, as_of));
      for (const service::SheetMeasure& measure : look.measures) {
        if (measure.point == point) add_measure(block, measure);
      }
    }
  }
}

void add_afterwards(const Element& section, const MachineSheet& sheet) {
  for (const Remark& after : afterwards_of(sheet)) add_steps(add_section(section, after.heading, "whole"), after.lines);
}

void add_remarks(const Element& section, const std::vector<Remark>& remarks) {
  for (const Remark& remark : remarks) {
    const Element list = add_section(section, remark.heading).add("ul");
    for (const std::string& line : remark.lines) list.add("li").say(line);
  }
}

std::string anchor_of(const MachineSheet& sheet) { return "machine-" + sheet.machine->key; }

void add_page(Page& page, const MachineSheet& sheet, const JobSheet& of, const std::string& command) {
  const Element section = page.body().add("section", "sheet").with("id", anchor_of(sheet));
  page.on_pages_of_its_own(section, page_head(sheet, of.list->as_of));
  add_plate(section, sheet, of);
  if (!sheet.has_work()) section.add("p").say(nothing_words(sheet, of));
  add_meters(section, sheet, command);
  add_cautions(section, sheet);
  add_to_take(section, sheet, of.list->as_of);
  add_seen(section, sheet);
  if (!sheet.tasks.empty()) {
    const Element part = add_section(section, tasks_heading(sheet));
    if (const std::string order = order_words(sheet); !order.empty()) part.add("p", "quiet order").say(order);
    if (const std::string lock = lock_words(sheet); !lock.empty()) part.add("p", "gate").say(lock);
    std::size_t number = 0;
    for (const SheetTask& task : sheet.tasks) {
      if (const auto* later = later_from(task, sheet)) part.add("p", "gate").say(later_lock_words(*later, sheet));
      add_task(part, sheet, task, ++number, of);
    }
  }
  add_owed(section, sheet, of.list->as_of);
  add_afterwards(section, sheet);
  add_remarks(section, remarks_of(sheet, command));
  const Element signed_by = section.add("div", "fill sign");
  add_blank(signed_by.add("span").say("Signed "), {}, "name");
  add_blank(signed_by.add("span").say("on "), {}, "when");
  const auto typed = typed_lines(sheet, command);
  if (typed.empty()) return;
  const Element part = add_section(section, "To type it in", "whole");
  for (const TypedLines& lines : typed) {
    part.add("p", "quiet").say(lines.say);
    for (const std::string& line : lines.commands) part.add("p", "command").say(line);
  }
}

// Where to find each on a screen.
void add_contents(const Page& page, const JobSheet& sheet) {
  if (sheet.pages.size() < 2) return;
  const Element list = page.body().add("nav", "screen").with("aria-label", "Machines").add("ul");
  for (const MachineSheet& one : sheet.pages) {
    list.add("li").add("a").with("href", '#' + anchor_of(one)).say(name_of(*one.machine));
  }
}

void add_rest(const Page& page, const JobSheet& sheet, const std::string& command) {
  std::vector<Remark> rest;
  for (const MachineSheet& other : sheet.others) {
    Remark of{"Without a sheet: " + name_of(*other.machine), {}};
    if (other.state != nullptr) of.lines.push_back(words_of(*other.state));
    for (const Remark& remark : remarks_without_page(other, sheet.list->as_of, command)) {
      for (const std::string& line : remark.lines) of.lines.push_back(remark.heading + ": " + line);
    }
    rest.push_back(std::move(of));
  }
  Remark unknown{"Not known", {}};
  for (const service::GapLine& line : gap_lines(sheet.gaps)) {
    const bool told = std::any_of(sheet.others.begin(), sheet.others.end(),
                                  [&](const MachineSheet& other) { return other.machine->key == line.gap->machine; });
    if (!told) unknown.lines.push_back(whose(line) + ": " + cleaned(line.gap->say));
  }
  if (!unknown.lines.empty()) rest.push_back(std::move(unknown));
  if (!rest.empty()) add_remarks(page.body().add("section", "sheet"), rest);
}

}  // namespace

std::string sheet_as_html(const JobSheet& sheet, const std::string& command) {
  const service::DueList& list = *sheet.list;
  const std::string day = to_text(list.as_of);
  const bool one = sheet.pages.size() == 1;
  // What is not to be run is said in the title too: some browsers print nothing else at the head of a page.
  Page page({"Job sheet, " + (one ? page_head(sheet.pages.front(), list.as_of) : day),
             fmt::format("{} · {}", list.fleet->name, day)});
  page.add_style(paper_rules());
  page.body().add("p", "screen quiet").say(fmt::format("{}, job sheet, {}", whose_list(*list.fleet, list.scope), day));
  if (!sheet.has_work() && sheet.pages.empty()) page.body().add("h1").say(nothing_words(sheet));
  add_contents(page, sheet);
  for (const MachineSheet& machine : sheet.pages) add_page(page, machine, sheet, command);
  add_rest(page, sheet, command);
  return page.text();
}

}  // namespace cli
