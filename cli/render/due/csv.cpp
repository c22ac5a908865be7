#include "render/due/due.h"
#include "render/shared/csv_rows.h"

namespace cli {

std::string due_as_csv(const DueAnswer& due) {
  const service::Fleet& fleet = *due.list.fleet;
  const service::NotToRun stopped(due.list);
  CsvTable table = table_of(point_columns(), stopped, fleet);
  // As text has them: what must not run stands first.
  const auto add_machines = [&](bool out_of_use) {
    for (const service::MachineUse& use : due.list.not_in_use) {
      if ((use.state.kind == service::UseKind::out_of_use) == out_of_use) add_machine(table, use, fleet);
    }
  };
  const service::DueRows rows = due.every();
  add_machines(true);
  for (const service::Point* point : rows.points) add_point(table, *point, fleet);
  for (const service::SeenSign& seen : due.list.seen) add_seen(table, seen, fleet);
  for (const service::Gap& gap : due.list.gaps) add_gap(table, gap, fleet);
  add_machines(false);
  add_stopped(table, stopped, fleet);
  return table.text();
}

}  // namespace cli
