#include "render/history/history.h"
#include "render/shared/json_parts.h"

namespace cli {

std::string history_as_json(const Book& book) {
  Json json{{"machine", book.machine}, {"as_of", to_text(book.as_of)}};
  json["facts"] = array_of(book.lines, [](const BookLine& line) {
    Json fact = fact_as_json(line.fact);
    fact["meter_unit"] = text_or_null(line.meter_unit);
    fact["usage"] = number_or_null(line.usage);
    fact["struck"] = line.struck;
    fact["struck_because"] = line.struck ? text_or_null(line.struck_because) : Json(nullptr);
    return fact;
  });
  json["left_off"] = book.left_off;
  return dumped(json);
}

}  // namespace cli
