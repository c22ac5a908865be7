#include "render/overdue/overdue.h"
#include "render/shared/csv_rows.h"

namespace cli {

// Nothing at all where all is well: cron would mail a head.
std::string overdue_as_csv(const service::DueList& list) {
  std::vector<std::string> columns = point_columns();
  columns.insert(columns.begin() + 1, "heading");
  const auto entries = overdue_list(list);
  if (entries.empty()) return "";
  const service::NotToRun stopped(list);
  CsvTable table = table_of(columns, stopped, *list.fleet);
  for (const service::OverdueEntry& entry : entries) {
    const std::string_view heading = service::to_text(entry.heading);
    if (entry.point != nullptr) add_point(table, *entry.point, *list.fleet, heading);
    if (entry.seen != nullptr) add_seen(table, *entry.seen, *list.fleet, heading);
    if (entry.gap != nullptr) add_gap(table, *entry.gap, *list.fleet, heading);
    if (entry.use != nullptr) add_machine(table, *entry.use, *list.fleet, heading);
  }
  add_stopped(table, stopped, *list.fleet);
  return table.text();
}

}  // namespace cli
