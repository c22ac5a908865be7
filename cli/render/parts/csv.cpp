#include "render/parts/parts.h"
#include "render/shared/csv_rows.h"

namespace cli {

std::string parts_as_csv(const service::PartsList& list) {
  CsvTable table = table_of(
      columns_with({"row",     "part",        "listed",   "what",      "number",     "supplier", "fluid",
                    "unit",    "need",        "more",     "stock",     "counted_on", "short_by", "buy",
                    "packs",   "missed_from", "order_by", "late_days", "price",      "cost",     "ready",
                    "machine", "site",        "customer", "task",      "position",   "safety",   "competent_person",
                    "fact",    "meter",       "kind",     "state",     "since",      "until",    "note",
                    "say",     "doubtful"},
                   {columns_of_unknown(), columns_of_gaps(), columns_of_machines(), columns_of_stopped()}),
      list.not_to_run, *list.fleet);
  for (const service::PartNeed& need : list.needs) {
    const service::Part* part = need.part;
    table.add({{"row", "part"},
               {"part", csv_text(need.key)},
               {"listed", yes_or_no(part != nullptr)},
               {"what", csv_text(part != nullptr ? part->what : "")},
               {"number", csv_text(part != nullptr ? part->number : "")},
               {"supplier", csv_text(part != nullptr ? part->supplier : "")},
               {"fluid", yes_or_no(need.fluid)},
               {"unit", csv_text(need.unit)},
               {"need", to_text(need.need)},
               {"more", to_text(need.more)},
               {"stock", figure(need.stock)},
               {"counted_on", figure(need.counted_on)},
               {"short_by", to_text(need.short_by)},
               {"buy", to_text(need.buy)},
               {"packs", figure(need.packs)},
               {"missed_from", figure(need.short_on)},
               {"order_by", figure(need.order_by)},
               {"late_days", std::to_string(need.late_days)},
               {"price", figure(need.price)},
               {"cost", figure(need.cost)},
               {"ready", to_text(need.ready)},
               {"doubtful", yes_or_no(need.doubtful)}});
  }
  add_unknown(table, list.unknown, *list.fleet);
  for (const service::Gap& gap : list.gaps) add_gap(table, gap, *list.fleet);
  for (const service::MachineUse& use : list.not_in_use) add_machine(table, use, *list.fleet);
  add_stopped(table, list.not_to_run, *list.fleet);
  return table.text();
}

}  // namespace cli
