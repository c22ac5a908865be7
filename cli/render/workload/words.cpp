#include "render/workload/words.h"

#include <fmt/format.h>

#include "render/shared/words.h"

namespace cli {
namespace {

using service::Spread;
using service::WorkloadRow;

std::string hours_of(const Spread& spread) {
  if (spread.p10 == spread.p90) return fmt::format("{:.1f} h", spread.mean);
  return fmt::format("{:.1f} h ({:.1f} to {:.1f})", spread.mean, spread.p10, spread.p90);
}

std::string money_of(const Spread& spread) {
  if (spread.p10 == spread.p90) return fmt::format("{:.0f}", spread.mean);
  return fmt::format("{:.0f} ({:.0f} to {:.0f})", spread.mean, spread.p10, spread.p90);
}

std::string row_name(const WorkloadRow& row, service::Step step) {
  if (step != service::Step::month) return to_text(row.from);
  const std::string month = to_text(row.from).substr(0, 7);
  if (begins_late(row)) return month + " from " + to_text(row.from).substr(8);
  return ends_early(row) ? month + " to " + to_text(row.to).substr(8) : month;
}

}  // namespace

bool begins_late(const WorkloadRow& row) { return unsigned{std::chrono::year_month_day{row.from}.day()} != 1; }

bool ends_early(const WorkloadRow& row) {
  return unsigned{std::chrono::year_month_day{row.to + std::chrono::days{1}}.day()} != 1;
}

std::string used_words(const std::vector<service::WorkloadPart>& parts, std::size_t left_off) {
  std::vector<std::string> words;
  for (const auto& part : parts) {
    const std::string unit = part.unit.empty() || part.unit == "piece" ? "" : ' ' + service::cleaned(part.unit);
    words.push_back(fmt::format("{:.1f}{} {}", part.amount.mean, unit, service::cleaned(part.key)));
  }
  if (left_off > 0) words.push_back(fmt::format("and {} more", left_off));
  return fmt::format("{}", fmt::join(words, ", "));
}

std::vector<Row> workload_rows(const service::Workload& load) {
  const bool weeks = load.step == service::Step::week;
  const std::string currency = load.fleet->currency.empty() ? "money" : service::cleaned(load.fleet->currency);
  std::vector<Row> rows{{weeks ? "week of" : "month", "labour", "services", "parts", currency}};
  for (const WorkloadRow& row : load.rows) {
    rows.push_back({row_name(row, load.step), hours_of(row.labour_hours), fmt::format("{:.1f}", row.services.mean),
                    fmt::format("{:.1f}", row.pieces.mean), money_of(row.cost)});
  }
  rows.push_back({"in all", hours_of(load.labour_hours), fmt::format("{:.1f}", load.services.mean),
                  fmt::format("{:.1f}", load.pieces.mean), money_of(load.cost)});
  return rows;
}

std::vector<std::string> missing_words(const service::Workload& load) {
  std::vector<std::string> missing;
  if (!load.no_time.empty()) {
    missing.push_back(fmt::format("{} with services but no `takes` (first: {} {})",
                                  service::counted(static_cast<std::int64_t>(load.no_time.size()), "point", "points"),
                                  service::cleaned(load.no_time.front().machine->key), task_of(load.no_time.front())));
  }
  if (!load.no_price.empty()) {
    missing.push_back(fmt::format(
        "{} without a price (first: {})",
        service::counted(static_cast<std::int64_t>(load.no_price.size()), "part or fluid", "parts or fluids"),
        service::cleaned(load.no_price.front())));
  }
  if (!load.labour_priced) missing.emplace_back("labour in the money, for the fleet has no `costs: {hour: ...}`");
  return missing;
}

}  // namespace cli
