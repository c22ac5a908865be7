#include "render/due/due.h"
#include "render/shared/csv_rows.h"

namespace cli {

std::string point_for_csv(const service::Point& point, const service::Fleet& fleet, const service::NotToRun& stopped) {
  static const CsvTable table(point_columns());
  CsvCells cells = cells_of(point, fleet);
  cells.emplace_back("do_not_run", yes_or_no(stopped.holds(*point.machine)));
  return table.line(cells);
}

void put_csv(const DueAnswer& rest, PointTexts& points, const service::Put& put) {
  const service::DueList& list = rest.list;
  const service::Fleet& fleet = *list.fleet;
  const service::NotToRun stopped(list);
  CsvTable table = table_of(point_columns(), stopped, fleet);
  // As text has them: what must not run stands first.
  const auto add_machines = [&](bool out_of_use) {
    for (const service::MachineUse& use : list.not_in_use) {
      if ((use.state.kind == service::UseKind::out_of_use) == out_of_use) add_machine(table, use, fleet);
    }
  };
  InBlocks blocks(put);
  add_machines(true);
  blocks(table.take_text());
  points.each([&](std::string_view row) { blocks(row); });
  for (const service::SeenSign& seen : list.seen) add_seen(table, seen, fleet);
  for (const service::Gap& gap : list.gaps) add_gap(table, gap, fleet);
  add_machines(false);
  add_stopped(table, stopped, fleet);
  blocks(table.take_text());
  blocks.flush();
}

}  // namespace cli
