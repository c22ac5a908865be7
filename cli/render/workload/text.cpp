#include <fmt/format.h>

#include <algorithm>

#include "render/shared/cautions.h"
#include "render/shared/headings.h"
#include "render/shared/point_rows.h"
#include "render/shared/resources_words.h"
#include "render/shared/stopped_first.h"
#include "render/shared/words.h"
#include "render/workload/words.h"
#include "render/workload/workload.h"
#include "terminal/band.h"
#include "terminal/table.h"
#include "terminal/wrap.h"

namespace cli {
namespace {

using service::to_text;
using service::WorkloadRow;

// The labour of each row as a bar behind it, where the columns leave room.
bool add_bars(std::vector<Row>& rows, const service::Workload& load, const Look& look) {
  constexpr std::size_t most_cells = 30;
  constexpr std::size_t least_cells = 8;
  std::size_t taken = 0;
  for (const std::size_t width : column_widths(rows)) taken += width + 2;
  const auto columns = static_cast<std::size_t>(look.columns);
  const std::size_t room = columns == 0 ? most_cells : columns - std::min(columns, taken);
  if (room < least_cells) return false;
  double most = 0;
  for (const WorkloadRow& row : load.rows) most = std::max(most, row.labour_hours.p90);
  for (std::size_t i = 0; i < load.rows.size(); ++i) {
    const service::Spread& hours = load.rows[i].labour_hours;
    rows[i + 1].push_back(band_bar(look, {hours.p10, hours.mean, hours.p90}, most, std::min(room, most_cells)));
  }
  return true;
}

}  // namespace

std::string workload_as_text(const service::Workload& load, const Look& look) {
  const bool weeks = load.step == service::Step::week;
  const auto columns = static_cast<std::size_t>(look.columns);
  std::string text = heading(look, fmt::format("{}, {}: workload to {}, by {}", whose_list(*load.fleet, load.scope),
                                               to_text(load.as_of), to_text(load.to), weeks ? "week" : "month"));
  text += stopped_first(load.not_to_run.bans(), look);
  if (load.machines.empty()) text += "\nNothing is to be reckoned here.\n";
  std::vector<Row> rows = workload_rows(load);
  const bool bars = add_bars(rows, load, look);
  if (!load.machines.empty()) {
    text += '\n' + table(rows, "", columns);
    text += wrapped("",
                    fmt::format("\nEach figure is the mean over {} ways in which use may go on, each point done on "
                                "the day it comes due, or when a machine that is laid up is back; in brackets{} what "
                                "eight of ten of them lie within.",
                                load.sample_paths, bars ? ", and as the bar's dense part," : ""),
                    columns, 0);
  }
  if (load.rows_left_off > 0) {
    const auto count = static_cast<std::int64_t>(load.rows_left_off);
    text += fmt::format("\nAnd {}, left off by --first; the sums hold them.\n",
                        weeks ? service::counted(count, "more week", "more weeks")
                              : service::counted(count, "more month", "more months"));
  }
  if (!load.parts.empty() || !load.fluids.empty()) text += '\n';
  if (!load.parts.empty()) text += wrapped("parts   ", used_words(load.parts, load.parts_left_off), columns, 8);
  if (!load.fluids.empty()) text += wrapped("fluids  ", used_words(load.fluids, load.fluids_left_off), columns, 8);
  text += left_out(load.unknown, load.not_in_use, look.command);
  text += not_known(load.gaps, load.unknown, look);
  const auto missing = missing_words(load);
  if (!missing.empty()) text += '\n' + wrapped("left out  ", fmt::format("{}", fmt::join(missing, "; ")), columns, 10);
  return load.machines.empty() ? text : text + foot_of_list(look);
}

}  // namespace cli
