#include "render/due/due.h"
#include "render/shared/csv_rows.h"

namespace cli {

std::string due_as_csv(const DueAnswer& due) {
  const service::Fleet& fleet = *due.list.fleet;
  CsvTable table(point_columns());
  const service::DueRows rows = due.every();
  for (const service::Point* point : rows.points) add_point(table, *point, fleet);
  for (const service::SeenSign& seen : due.list.seen) add_seen(table, seen, fleet);
  for (const service::Gap& gap : due.list.gaps) add_gap(table, gap);
  for (const service::MachineUse& use : due.list.not_in_use) add_machine(table, use, fleet);
  return table.text();
}

}  // namespace cli
