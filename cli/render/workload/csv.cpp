#include <fmt/format.h>

#include "render/shared/csv_rows.h"
#include "render/shared/figures.h"
#include "render/workload/workload.h"

namespace cli {
namespace {

constexpr std::size_t first_sum = 3;  // the column after row, from and to

std::vector<std::string> columns() {
  std::vector<std::string> head{"row", "from", "to"};
  for (const char* what : {"labour_hours", "services", "cost", "pieces"}) {
    for (const char* which : {"mean", "p10", "p50", "p90"}) head.push_back(fmt::format("{}_{}", what, which));
  }
  for (const char* of_gaps : {"machine", "site", "customer", "task", "position", "safety", "competent_person", "fact",
                              "meter", "kind", "state", "since", "until", "note", "say"}) {
    head.emplace_back(of_gaps);
  }
  return columns_with(std::move(head),
                      {columns_of_unknown(), columns_of_gaps(), columns_of_machines(), columns_of_stopped()});
}

template <class Sums>
void add_sums(CsvTable& table, const std::vector<std::string>& head, const char* row, service::Day from,
              service::Day to, const Sums& sums) {
  CsvCells cells{{"row", row}, {"from", service::to_text(from)}, {"to", service::to_text(to)}};
  std::size_t column = first_sum;
  for (const service::Spread& spread : {sums.labour_hours, sums.services, sums.cost, sums.pieces}) {
    for (const double value : {spread.mean, spread.p10, spread.p50, spread.p90}) {
      cells.emplace_back(head[column++], decimal(mean_of(value)));
    }
  }
  table.add(cells);
}

}  // namespace

std::string workload_as_csv(const service::Workload& load) {
  const std::vector<std::string> head = columns();
  CsvTable table = table_of(head, load.not_to_run, *load.fleet);
  const char* const step = load.step == service::Step::week ? "week" : "month";
  for (const auto& row : load.rows) add_sums(table, head, step, row.from, row.to, row);
  add_sums(table, head, "in-all", load.as_of, load.to, load);
  add_unknown(table, load.unknown, *load.fleet);
  for (const service::Gap& gap : load.gaps) add_gap(table, gap, *load.fleet);
  for (const service::MachineUse& use : load.not_in_use) add_machine(table, use, *load.fleet);
  add_stopped(table, load.not_to_run, *load.fleet);
  return table.text();
}

}  // namespace cli
