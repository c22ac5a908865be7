// Pieces that the parts of a report's page share.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "render/html/page.h"
#include "render/shared/point_rows.h"
#include "service/report.h"
#include "terminal/table.h"

namespace cli {

// What is written, and how commands in it begin.
struct ReportPage {
  const service::Report& report;
  std::vector<service::MachinePage> pages;
  Look look;                                     // of texts that a browser breaks
  std::vector<service::RunBan> bans;             // of the report
  std::vector<service::MachineQuestions> asked;  // likewise
};

// A part of the page by which a link finds it, with its heading.
Element add_part(const Element& parent, std::string_view id, std::string_view heading);

std::string anchor_of(const service::Machine& machine);

// The machine's key, which leads to its page where it has one.
void add_machine(const Element& parent, const ReportPage& page, std::string_view key);

// A machine and what is said of it, line by line.
void add_said(const Element& parent, const ReportPage& page, const SaidLines& lines);

// The machines that nobody may run, for the beginning of a part; nothing where there are none.
void add_not_to_run(const Element& parent, const ReportPage& page);

// A text in which no day, key or option is broken at the end of a line.
Element say_whole(const Element& element, std::string_view text);

void add_paragraph(const Element& parent, std::string_view text, std::string_view kinds = {});

// A table by its name; `told`: a heading above says it already, so that it need not be seen.
Element add_captioned(const Element& parent, std::string_view kinds, std::string_view caption, bool told = false);

// Rows as text has them, headings first; on a telephone each row is a block. `numbers`: columns set as figures. `told`:
// as above.
void add_table(const Element& parent, std::string_view caption, const std::vector<Row>& rows,
               const std::vector<std::size_t>& numbers = {}, std::string_view kinds = {}, bool told = false);

// What is drawn, in figures: folded on a screen, open on paper. Not as `details`, which many browsers print folded. A
// search in the page unfolds it, in browsers that can; one that knows the box to tick by no rule shows all.
Element add_numbers(const Element& parent, std::string_view summary, std::string_view kinds = {});

// What the bars mean, for the first list of the page.
void add_bars_key(const Element& parent);

// The end of a part.
void add_to_contents(const Element& part);

// The name of the site where it stands, else its key.
std::string place_of(const ReportPage& page, const service::Machine& machine);

// The first cell of a row: the task, its machine, what is done, and where.
void add_what(const Element& row, const ReportPage& page, std::string_view task, const service::Point& point);

// Service points with their paired bars, the machines without record behind what is due, below a heading that says the
// same as the caption. `of_one`: all of one machine, which is told already.
void add_points(const Element& parent, const ReportPage& page, std::string_view caption,
                const std::vector<const service::Point*>& points, const std::vector<service::NoRecord>& no_record = {},
                bool of_one = false);

void add_standing(const Element& parent, service::Standing standing);

// The foot of a list that sends people to machines.
void add_before_you_touch(const Element& parent);

}  // namespace cli
