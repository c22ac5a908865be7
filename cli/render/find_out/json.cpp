#include "render/find_out/find_out.h"
#include "render/shared/json_parts.h"
#include "render/shared/not_to_run.h"

namespace cli {
namespace {

Json question_as_json(const service::Question& question) {
  const service::Point* point = question.point;
  Json json{{"kind", to_text(question.kind)},
            {"meter", text_or_null(question.meter)},
            {"unit", text_or_null(question.unit)},
            {"name", text_or_null(question.name)},
            {"task", point == nullptr ? Json(nullptr) : Json(point->name)},
            {"position", point == nullptr ? Json(nullptr) : text_or_null(point->position)},
            {"say", question.gap == nullptr ? Json(nullptr) : Json(question.gap->say)}};
  json["safety"] = false;  // of a reading
  json["competent_person"] = false;
  json["cautions"] = Json::array();
  if (point != nullptr) mark(json, *point);
  return json;
}

}  // namespace

std::string find_out_as_json(const FindOutAnswer& answer) {
  const service::DueList& list = answer.list;
  Json json = head_of(*list.fleet, list.as_of, list.scope);
  json["cautions"] = base_cautions_as_json();
  const service::NotToRun stopped(list);
  json["machines"] = array_of(answer.machines, [&](const service::MachineQuestions& asked) {
    Json json = machine_of(*asked.machine, *list.fleet);
    json["name"] = text_or_null(asked.machine->name);
    json["nothing_recorded"] = asked.nothing_recorded;
    json["start_unknown"] = asked.start_unknown;
    json["do_not_run"] = stopped.holds(*asked.machine);
    json["seen"] =
        array_of(asked.seen, [&](const service::SeenSign* seen) { return seen_as_json(*seen, *list.fleet, stopped); });
    json["notes"] = text_or_null(asked.machine->notes);
    json["questions"] = array_of(asked.questions, question_as_json);
    return json;
  });
  json["not_in_use"] = not_in_use_as_json(list.not_in_use, *list.fleet, stopped);
  json["not_to_run"] = bans_as_json(stopped.bans(), *list.fleet);
  std::vector<const service::Point*> points;
  for (const service::MachineQuestions& asked : answer.machines) {
    for (const service::Question& question : asked.questions) {
      if (question.point != nullptr) points.push_back(question.point);
    }
  }
  json["caution_sentences"] = sentences_of(cautions_of(points));
  json["gaps"] = gaps_as_json(list.gaps, *list.fleet);
  json["left_off"] = answer.left_off;
  mark_rows(json, *list.fleet, stopped);
  return dumped(json);
}

}  // namespace cli
