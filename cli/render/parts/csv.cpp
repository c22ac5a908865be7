#include "render/parts/parts.h"
#include "render/shared/csv_line.h"

namespace cli {

using service::to_text;

std::string parts_as_csv(const service::PartsList& list) {
  std::string text = csv_line({"part", "number", "what", "unit", "need", "perhaps", "stock", "counted-on", "short",
                               "buy", "packs", "missed-from", "order-by", "price", "supplier"});
  for (const service::PartNeed& need : list.needs) {
    text += csv_line({csv_text(need.key), csv_text(need.part != nullptr ? need.part->number : ""),
                      csv_text(need.part != nullptr ? need.part->what : ""), csv_text(need.unit), to_text(need.need),
                      to_text(need.more), figure(need.stock), figure(need.counted_on), to_text(need.short_by),
                      to_text(need.buy), figure(need.packs), figure(need.short_on), figure(need.order_by),
                      figure(need.price), csv_text(need.part != nullptr ? need.part->supplier : "")});
  }
  return text;
}

}  // namespace cli
