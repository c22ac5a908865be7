// Rows that CSV answers share. Keys are those of JSON, a key inside another joined to it by `_`.
#pragma once

#include "render/shared/csv_line.h"
#include "service/due_list.h"
#include "service/not_to_run.h"

namespace cli {

// Of lists of points, gaps and machines, told apart by the first column.
std::vector<std::string> point_columns();

// `heading`, where the list has headings, is that under which the row stands.
void add_point(CsvTable& table, const service::Point& point, const service::Fleet& fleet,
               const service::NotToRun& stopped, std::string_view heading = "");

// Columns machine, site, customer, meter, kind, since, fact, say.
void add_gap(CsvTable& table, const service::Gap& gap, const service::Fleet& fleet, std::string_view heading = "");

// Columns machine, site, customer, sign, on, fact, note, found, do_not_run, say.
void add_seen(CsvTable& table, const service::SeenSign& seen, const service::Fleet& fleet,
              const service::NotToRun& stopped, std::string_view heading = "");

// Columns machine, site, customer, state, since, until, note, say.
void add_machine(CsvTable& table, const service::MachineUse& use, const service::Fleet& fleet);

// And do_not_run.
void add_machine(CsvTable& table, const service::MachineUse& use, const service::Fleet& fleet,
                 const service::NotToRun& stopped, std::string_view heading = "");

// Rows `not-to-run`, of what no other row says it. Columns machine, site, customer, say.
void add_stopped(CsvTable& table, const service::NotToRun& stopped, const service::Fleet& fleet);

// Points of which nothing can be said. Columns machine, site, customer, task, position, safety, competent_person.
void add_unknown(CsvTable& table, const std::vector<service::PointName>& points, const service::Fleet& fleet);

using CsvCells = std::vector<std::pair<std::string_view, std::string>>;

// How a row about a machine begins: columns row, machine, site, customer.
CsvCells cells_of(std::string_view row, const service::Machine& machine, const service::Fleet& fleet);

// How a row about a point begins: those, task, position, safety, competent_person, cautions.
CsvCells cells_of(std::string_view row, const service::Point& point, const service::Fleet& fleet);

// And of a row that says when it comes due: columns standing, by_estimate, past_grace_by_estimate, due_span_*,
// sooner_if, measure_again, put_off_*.
void add_standing(CsvCells& cells, const service::Point& point);

std::string joined_names(const std::vector<std::string>& names);  // `leak; hard start`

// Kinds of limbs, parted by blanks.
std::string joined_kinds(const std::vector<service::LimbKind>& kinds);

}  // namespace cli
