// Rows that CSV answers share. Keys are those of JSON, a key inside another joined to it by `_`.
#pragma once

#include <initializer_list>
#include <span>
#include <string_view>
#include <vector>

#include "render/shared/csv_line.h"
#include "service/due_list.h"
#include "service/not_to_run.h"

namespace cli {

// The columns of each kind of row, one list for all answers that have such rows. What comes new to a row goes to the
// end of its list here, and so to the end of each answer.
using CsvColumns = std::span<const std::string_view>;
CsvColumns columns_of_gaps();
CsvColumns columns_of_seen();
CsvColumns columns_of_machines();  // not in use
CsvColumns columns_of_stopped();   // not to be run
CsvColumns columns_of_unknown();   // points by name
CsvColumns columns_of_standing();

// `first` in its order, then what these rows have beside it.
std::vector<std::string> columns_with(std::vector<std::string> first, std::initializer_list<CsvColumns> rows);

// Each of its rows about a machine says whether nobody may run that. Both outlive the table.
CsvTable table_of(std::vector<std::string> columns, const service::NotToRun& stopped, const service::Fleet& fleet);

// Of lists of points, gaps and machines, told apart by the first column.
std::vector<std::string> point_columns();

using CsvCells = std::vector<std::pair<std::string_view, std::string>>;

// All of a row about a point.
CsvCells cells_of(const service::Point& point, const service::Fleet& fleet);

// `heading`, where the list has headings, is that under which the row stands.
void add_point(CsvTable& table, const service::Point& point, const service::Fleet& fleet,
               std::string_view heading = "");

void add_gap(CsvTable& table, const service::Gap& gap, const service::Fleet& fleet, std::string_view heading = "");

void add_seen(CsvTable& table, const service::SeenSign& seen, const service::Fleet& fleet,
              std::string_view heading = "");

void add_machine(CsvTable& table, const service::MachineUse& use, const service::Fleet& fleet,
                 std::string_view heading = "");

// Rows `not-to-run`: all machines that nobody may run, and why.
void add_stopped(CsvTable& table, const service::NotToRun& stopped, const service::Fleet& fleet);

// Points of which no more is told than their names: of which nothing can be said, or what `row` says.
void add_unknown(CsvTable& table, const std::vector<service::PointName>& points, const service::Fleet& fleet,
                 std::string_view row = "unknown");

// How a row about a machine begins: columns row, machine, site, customer.
CsvCells cells_of(std::string_view row, const service::Machine& machine, const service::Fleet& fleet);

CsvCells cells_of(std::string_view row, const service::PointName& point, const service::Fleet& fleet);

// How a row about a point begins: those, task, position, safety, competent_person, cautions.
CsvCells cells_of(std::string_view row, const service::Point& point, const service::Fleet& fleet);

// And of a row that says when it comes due.
void add_standing(CsvCells& cells, const service::Point& point);

// What was seen, each time, and the newest look that found it worn or failed: its day, who looked and its fact.
void add_sightings(CsvCells& cells, const service::SeenSign& seen);

// Of a listed sign that nobody has found good since, as of one that is kept as seen. Nothing of another limb.
void add_open_sign(CsvCells& cells, const service::LimbStanding& limb);

std::string joined_names(const std::vector<std::string>& names);  // `leak; hard start`

// Kinds of limbs, parted by blanks.
std::string joined_kinds(const std::vector<service::LimbKind>& kinds);

}  // namespace cli
