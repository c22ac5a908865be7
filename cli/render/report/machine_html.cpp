// One machine of a report: its plate, what is due on it, how it is used, and its book.
#include <fmt/format.h>

#include <algorithm>

#include "render/find_out/words.h"
#include "render/forecast/words.h"
#include "render/html/plate.h"
#include "render/overdue/words.h"
#include "render/report/parts_of_page.h"
#include "render/report/usage_chart.h"
#include "render/shared/doubt_words.h"
#include "render/shared/fact_words.h"
#include "render/shared/run_ban_words.h"
#include "render/shared/words.h"

namespace cli {
namespace {

using service::BookLine;
using service::MachinePage;
using service::Point;

void add_plate(const Element& section, const ReportPage& page, const MachinePage& of, const std::string& heading_id) {
  const service::Machine& machine = *of.machine;
  const Element plate = section.add("div", "plate");
  plate.add("h2").with("id", heading_id).say(machine.name.empty() ? machine.key : machine.name);
  if (of.ban) {
    add_paragraph(plate, fmt::format("{}: {}", not_to_run_title, ban_words(*of.ban)), "stop");
  } else if (of.state != nullptr) {
    add_paragraph(plate, words_of(*of.state));
  }
  const Element cells = plate.add("ul", "cells");
  add_cell(cells, "Machine", machine.key);
  add_cell(cells, "Serial", machine.serial);
  const service::Site* site = page.report.fleet->site(machine.site);
  add_cell(cells, "Site", place_of(page, machine));
  add_cell(cells, "Customer", customer_of(*page.report.fleet, machine));
  add_cell(cells, "Access", site != nullptr ? site->access : "");
  add_cell(cells, "Schedule", machine.schedule);
  add_cell(cells, "Known until", of.known_until ? to_text(*of.known_until) : "nothing is recorded");
  add_cell(cells, "Notes", machine.notes);
}

void add_due(const Element& section, const ReportPage& page, const MachinePage& of) {
  std::vector<const Point*> points = of.points;
  const auto no_record = take_no_record(page.report.due, points);
  const auto later = std::stable_partition(points.begin(), points.end(), [&](const Point* point) {
    const bool mend = std::find(of.to_mend.begin(), of.to_mend.end(), point) != of.to_mend.end();
    return mend || point->standing != service::Standing::later;
  });
  const std::vector<const Point*> now(points.begin(), later);
  const std::vector<const Point*> after(later, points.end());
  section.add("h3").say("Due");
  if (now.empty() && no_record.empty()) {
    add_paragraph(section, fmt::format("Nothing{} is due until {}.", of.gaps.empty() ? "" : " that is known",
                                       to_text(page.report.due.within)));
  }
  add_points(section, page, fmt::format("Due on {}", of.machine->key), now, no_record, true);
  if (!after.empty()) {
    const auto count = static_cast<std::int64_t>(after.size());
    add_points(add_numbers(section, service::counted(count, "task that comes later", "tasks that come later")), page,
               fmt::format("Later on {}", of.machine->key), after, {}, true);
  }
}

void add_known(const Element& section, const ReportPage& page, const MachinePage& of) {
  const auto say = [&](std::string_view heading, const std::vector<std::string>& lines) {
    if (lines.empty()) return;
    section.add("h3").say(heading);
    const Element list = section.add("ul");
    for (const std::string& line : lines) say_whole(list.add("li"), line);
  };
  std::vector<std::string> seen;
  for (const service::SeenSign* sign : of.seen) seen.push_back(words_of(*sign));
  say(title_of(service::OverdueHeading::seen), seen);
  std::vector<std::string> gaps;
  for (const service::Gap* gap : of.gaps) gaps.push_back(line_of(service::GapLine{gap, 1}, page.look).second);
  say("Not known", gaps);
}

// What to find out, with blanks to fill in by hand.
void add_find_out(const Element& section, const ReportPage& page, const MachinePage& of) {
  const auto asked =
      std::find_if(page.asked.begin(), page.asked.end(), [&](const auto& each) { return each.machine == of.machine; });
  if (asked == page.asked.end() || asked->questions.empty()) return;
  std::vector<Row> rows{{"what", "to fill in", "what it is"}};
  for (const service::Question& question : asked->questions) {
    rows.push_back({asked_for(question), blanks(question), about(question)});
  }
  section.add("h3").say("To find out");
  add_table(section, fmt::format("To find out of {}", of.machine->key), rows, {}, "asked");
}

void add_use(const Element& section, const ReportPage& page, const MachinePage& of) {
  if (of.meters.empty()) return;
  section.add("h3").say("Use, known and ahead");
  for (const service::MeterForecast* meter : of.meters) {
    const Element block = section.add("div", "meter");
    add_usage_chart(block, *meter, page.report.as_of);
    const Element said = block.add("dl", "said");
    for (const auto& [name, words] : meter_lines(*meter, page.look.command)) {
      said.add("dt").say(name.empty() ? "use" : name);
      say_whole(said.add("dd"), words);
    }
    for (const service::Gap* gap : of.gaps) {
      if (gap->meter != meter->ahead.meter->name || gap->kind != service::GapKind::doubtful) continue;
      said.add("dt").say("in doubt");
      say_whole(said.add("dd"), gap->say + ". " + if_it_shows_less(*gap, page.look.command));
    }
    if (meter->ahead.now) add_usage_table(add_numbers(block, "The same in figures", "screen"), *meter);
  }
}

void add_lines(const Element& parent, const ReportPage& page, const std::string& caption,
               const std::vector<const BookLine*>& lines) {
  std::vector<Row> rows{{"day", "what", "of", "value", "remarks"}};
  for (const BookLine* line : lines) {
    rows.push_back({to_text(line->fact.on), std::string(to_text(line->fact.kind)), what_of(line->fact),
                    value_of(line->fact, *page.report.fleet, line->shown), rest_of(*line)});
  }
  add_table(parent, caption, rows, {}, "book");
}

// The newest first.
void add_book(const Element& section, const ReportPage& page, const MachinePage& of) {
  section.add("h3").say("Its book");
  if (of.book->lines.empty()) {
    add_paragraph(section, "Nothing is written down.");
    return;
  }
  std::vector<const BookLine*> lines;
  for (const BookLine& line : of.book->lines) lines.push_back(&line);
  std::reverse(lines.begin(), lines.end());
  const std::size_t shown = std::min(lines.size(), service::newest_lines);
  const std::vector<const BookLine*> newest(lines.begin(), lines.begin() + static_cast<std::ptrdiff_t>(shown));
  const std::vector<const BookLine*> older(lines.begin() + static_cast<std::ptrdiff_t>(shown), lines.end());
  const std::string& key = of.machine->key;
  add_lines(section, page, fmt::format("Newest entries of {}", key), newest);
  if (older.empty()) return;
  const std::string count = service::counted(static_cast<std::int64_t>(older.size()), "older entry", "older entries");
  add_lines(add_numbers(section, count, "older"), page, fmt::format("Older entries of {}", key), older);
}

}  // namespace

void add_machine_page(Page& html, const Element& parent, const ReportPage& page, const MachinePage& machine) {
  const std::string id = anchor_of(*machine.machine);
  const std::string heading_id = id + "-heading";
  const Element section = parent.add("section", "part machine").with("id", id).with("aria-labelledby", heading_id);
  html.on_pages_of_its_own(
      section, fmt::format("{} · {} · {}", page.report.fleet->name, to_text(page.report.as_of), machine.machine->key));
  add_plate(section, page, machine, heading_id);
  add_due(section, page, machine);
  add_known(section, page, machine);
  add_find_out(section, page, machine);
  if (!machine.points.empty()) add_before_you_touch(section);
  add_use(section, page, machine);
  add_book(section, page, machine);
  add_to_contents(section);
}

}  // namespace cli
