#include "render/history/history.h"
#include "render/shared/json_answers.h"

namespace cli {

Json history_answer(const service::Book& book) {
  Json json{{"machine", book.machine}, {"as_of", to_text(book.as_of)}};
  json["facts"] = array_of(book.lines, [](const service::BookLine& line) {
    Json fact = fact_as_json(line.fact);
    fact["meter_unit"] = text_or_null(line.meter_unit);
    fact["usage"] = number_or_null(line.usage);
    fact["doubtful"] = line.doubtful;
    fact["struck"] = line.struck;
    fact["struck_because"] = line.struck ? text_or_null(line.struck_because) : Json(nullptr);
    return fact;
  });
  json["left_off"] = book.left_off;
  return json;
}

std::string history_as_json(const service::Book& book) { return dumped(history_answer(book)); }

}  // namespace cli
