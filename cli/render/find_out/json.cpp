#include "render/find_out/find_out.h"
#include "render/shared/json_parts.h"

namespace cli {

std::string find_out_as_json(const service::DueList& list) {
  Json json;
  json["fleet"] = list.fleet->name;
  json["as_of"] = to_text(list.as_of);
  json["machines"] = Json::array();
  for (const service::MachineQuestions& asked : service::find_out(list)) {
    Json machine{{"machine", asked.machine->key},
                 {"name", text_or_null(asked.machine->name)},
                 {"nothing_recorded", asked.nothing_recorded},
                 {"start_unknown", asked.start_unknown},
                 {"questions", Json::array()}};
    for (const service::Question& question : asked.questions) {
      Json part{{"kind", to_text(question.kind)},
                {"meter", text_or_null(question.meter)},
                {"unit", text_or_null(question.unit)},
                {"name", text_or_null(question.name)}};
      part["task"] = question.point == nullptr ? Json(nullptr) : Json(question.point->name);
      part["position"] = question.point == nullptr ? Json(nullptr) : text_or_null(question.point->position);
      part["why"] = question.gap == nullptr ? Json(nullptr) : Json(question.gap->say);
      machine["questions"].push_back(std::move(part));
    }
    json["machines"].push_back(std::move(machine));
  }
  return dumped(json);
}

}  // namespace cli
