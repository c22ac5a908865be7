#include <fmt/format.h>

#include "render/shared/csv_line.h"
#include "render/shared/figures.h"
#include "render/workload/workload.h"

namespace cli {
namespace {

void add(std::vector<std::string>& cells, const service::Spread& spread) {
  for (const double value : {spread.mean, spread.p10, spread.p50, spread.p90}) cells.push_back(decimal(mean_of(value)));
}

template <class Sums>
std::string line_of(const char* row, service::Day from, service::Day to, const Sums& sums) {
  std::vector<std::string> cells{row, service::to_text(from), service::to_text(to)};
  add(cells, sums.labour_hours);
  add(cells, sums.services);
  add(cells, sums.cost);
  add(cells, sums.pieces);
  return csv_line(cells);
}

}  // namespace

std::string workload_as_csv(const service::Workload& load) {
  std::vector<std::string> head{"row", "from", "to"};
  for (const char* what : {"labour_hours", "services", "cost", "pieces"}) {
    for (const char* which : {"mean", "p10", "p50", "p90"}) head.push_back(fmt::format("{}_{}", what, which));
  }
  std::string text = csv_line(head);
  const char* const step = load.step == service::Step::week ? "week" : "month";
  for (const auto& row : load.rows) text += line_of(step, row.from, row.to, row);
  return text + line_of("in-all", load.as_of, load.to, load);
}

}  // namespace cli
