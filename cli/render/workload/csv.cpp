#include <fmt/format.h>

#include "render/shared/csv_line.h"
#include "render/workload/workload.h"

namespace cli {
namespace {

using service::to_text;

void add(std::vector<std::string>& cells, const service::Spread& spread) {
  for (const double value : {spread.mean, spread.p10, spread.p50, spread.p90}) cells.push_back(decimal(value));
}

}  // namespace

std::string workload_as_csv(const service::Workload& load) {
  std::vector<std::string> head{"from", "to"};
  for (const char* what : {"labour-hours", "services", "cost"}) {
    for (const char* which : {"mean", "p10", "p50", "p90"}) head.push_back(fmt::format("{}-{}", what, which));
  }
  std::string text = csv_line(head);
  for (const auto& row : load.rows) {
    std::vector<std::string> cells{to_text(row.from), to_text(row.to)};
    add(cells, row.labour_hours);
    add(cells, row.services);
    add(cells, row.cost);
    text += csv_line(cells);
  }
  return text;
}

}  // namespace cli
