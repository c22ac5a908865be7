// The work and the parts of the months ahead on the page of a report.
#include <fmt/format.h>

#include <algorithm>

#include "render/parts/words.h"
#include "render/report/parts_of_page.h"
#include "render/report/words.h"
#include "render/report/workload_chart.h"
#include "render/shared/resources_words.h"
#include "render/shared/words.h"
#include "render/workload/words.h"

namespace cli {
namespace {

void add_lines(const Element& part, const std::string& heading, const std::vector<std::string>& lines) {
  if (lines.empty()) return;
  part.add("h3").say(heading);
  const Element list = part.add("ul");
  for (const std::string& line : lines) say_whole(list.add("li"), line);
}

void add_unknown(const Element& part, const ReportPage& page, const std::vector<service::PointName>& unknown,
                 const std::vector<service::MachineUse>& not_in_use, const std::vector<service::Gap>& gaps) {
  add_lines(part, "Not in it", left_out_lines(unknown, not_in_use, page.look.command));
  SaidLines lines;
  for (const service::GapLine& line : gap_lines(gaps_untold(gaps, unknown))) lines.push_back(line_of(line, page.look));
  if (lines.empty()) return;
  part.add("h3").say("Not known");
  add_said(part, page, lines);
}

void add_shopping(const Element& part, const service::Report& report) {
  const service::Fleet& fleet = *report.fleet;
  const auto orders = shopping_of(report);
  if (orders.empty()) return;
  part.add("h3").say("Shopping list");
  for (const service::SupplierOrder& order : orders) {
    const auto number = [](const service::PartNeed* need) {
      return need->part != nullptr ? service::cleaned(need->part->number) : "";
    };
    const bool numbered = std::any_of(order.needs.begin(), order.needs.end(),
                                      [&](const service::PartNeed* need) { return !number(need).empty(); });
    std::vector<Row> rows{{"part", "buy", "what it is", "price", "cost"}};
    for (const service::PartNeed* need : order.needs) {
      rows.push_back(
          {service::cleaned(need->key), to_buy(*need), what_of(*need), each_words(*need), cost_words(*need, fleet)});
      if (numbered) rows.back().push_back(number(need));
    }
    if (numbered) rows.front().emplace_back("number");
    const std::string total = order.cost ? ", " + money_words(*order.cost, fleet) : "";
    add_table(part, supplier_words(order) + total, rows, {3, 4});
  }
}

// The part stands first, for it is what a row is about.
std::vector<Row> part_first(std::vector<Row> rows) {
  for (Row& row : rows) std::swap(row[0], row[1]);
  return rows;
}

// What is short, what may be, and what is there, folded under its name.
void add_needs(const Element& part, const service::PartsList& list, const std::string& enough) {
  const PartsTables tables = parts_tables(list);
  const auto add = [&](const std::vector<Row>& rows, const char* caption, const std::vector<std::size_t>& numbers) {
    if (rows.size() > 1) add_table(part, caption, rows, numbers, "needs");
    return rows.size() > 1;
  };
  const bool shorts = add(part_first(tables.shorts), "Short: order by the day given", {2, 3});
  const bool perhaps =
      add(tables.perhaps, "Perhaps short: services that are less likely than not would take more", {1, 2});
  const bool others =
      add(part_first(tables.others), "Short for other work before then: order by the day given", {2, 3});
  if (!shorts && !perhaps && !others) add_paragraph(part, "Nothing is short.");
  if (tables.enough.size() > 1) add_table(add_numbers(part, enough), enough, tables.enough, {1, 2}, "needs", true);
}

// What comes behind the work for the season.
void add_beyond(const Element& part, const service::PartsList& list) {
  part.add("h3").say(fmt::format("Beyond that work, for services to {}", to_text(list.to)));
  if (list.needs.empty()) {
    add_paragraph(part, "No other service that is likely by then takes a part or fluid.");
    return;
  }
  add_paragraph(part, "Counted as if what is short above were bought, and used up by that work.");
  add_needs(part, list, "Enough in stock for these");
  add_paragraph(part, parts_legend(list), "quiet");
}

}  // namespace

void add_workload(const Element& parent, const ReportPage& page) {
  const service::Workload& load = page.report.workload;
  const Element part = add_part(parent, "workload", fmt::format("Work ahead, to {}", to_text(load.to)));
  add_not_to_run(part, page);
  if (load.machines.empty()) {
    add_paragraph(part, "Nothing is to be reckoned here.");
  } else {
    if (load.doubtful) add_paragraph(part, fmt::format("Some of it {}; see what is not known.", rests_on_doubt));
    add_paragraph(part, beside_months_words(page.report));
    add_workload_chart(part, load);
    add_table(add_numbers(part, "The same in figures, with services, parts and money"), "Work ahead by month",
              workload_rows(load), {1, 2, 3, 4});
    add_paragraph(part,
                  fmt::format("Each figure is the mean over {} ways in which use may go on, each point done on the day "
                              "it comes due, or when a machine that is laid up is back; in brackets, and as the dark "
                              "part of a column, what eight of ten of them lie within.",
                              load.sample_paths),
                  "quiet");
  }
  if (!load.parts.empty()) add_paragraph(part, "Parts: " + used_words(load.parts, load.parts_left_off) + ".");
  if (!load.fluids.empty()) add_paragraph(part, "Fluids: " + used_words(load.fluids, load.fluids_left_off) + ".");
  add_unknown(part, page, load.unknown, load.not_in_use, load.gaps);
  add_lines(part, "Left out", missing_words(load));
  if (!load.machines.empty()) add_before_you_touch(part);
  add_to_contents(part);
}

void add_parts_list(const Element& parent, const ReportPage& page) {
  const service::PartsList& list = page.report.parts;
  const Element part = add_part(parent, "parts", fmt::format("Parts to order, {}", parts_span(list)));
  add_not_to_run(part, page);
  add_paragraph(part, parts_doubts(list));
  if (!list.needs.empty()) add_paragraph(part, fleet_figures(page.report));
  add_needs(part, list, "Enough in stock");
  add_paragraph(part, parts_legend(list), "quiet");
  add_shopping(part, page.report);
  if (page.report.parts_beyond) add_beyond(part, *page.report.parts_beyond);
  add_unknown(part, page, list.unknown, list.not_in_use, list.gaps);
  if (!list.needs.empty()) add_before_you_touch(part);
  add_to_contents(part);
}

}  // namespace cli
