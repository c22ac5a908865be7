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

// A listed sign at the task that comes due by it.
Json signs_as_json(const std::vector<const service::Point*>& points) {
  Json signs = Json::array();
  for (const service::Point* point : points) {
    for (const service::LimbStanding& limb : point->limbs) {
      if (limb.open_sign() == nullptr) continue;
      Json sign{{"task", point->name},
                {"position", text_or_null(point->position)},
                {"sign", limb.seen},
                {"on", day_or_null(limb.due_on)},
                {"found", limb.found ? Json(to_text(*limb.found)) : Json(nullptr)}};
      add_sightings(sign, limb.open_sign());
      signs.push_back(std::move(sign));
    }
  }
  return signs;
}

Json machine_as_json(const service::MachineQuestions& asked, const service::Fleet& fleet,
                     const service::NotToRun& stopped) {
  Json json = machine_of(*asked.machine, fleet);
  json["name"] = text_or_null(asked.machine->name);
  json["do_not_run"] = stopped.holds(*asked.machine);
  json["seen"] =
      array_of(asked.seen, [&](const service::SeenSign* seen) { return seen_as_json(*seen, fleet, stopped); });
  json["signs"] = signs_as_json(asked.signs);
  json["notes"] = text_or_null(asked.machine->notes);
  return json;
}

}  // namespace

std::string find_out_as_json(const FindOutAnswer& answer) {
  const service::DueList& list = answer.list;
  Json json = head_of(*list.fleet, list.as_of, list.scope);
  json["cautions"] = base_cautions_as_json();
  const service::NotToRun stopped(list);
  json["machines"] = array_of(answer.machines, [&](const service::MachineQuestions& asked) {
    Json json = machine_as_json(asked, *list.fleet, stopped);
    json["nothing_recorded"] = asked.nothing_recorded;
    json["start_unknown"] = asked.start_unknown;
    json["questions"] = array_of(asked.questions, question_as_json);
    return json;
  });
  json["beside"] = array_of(answer.beside, [&](const service::MachineQuestions& told) {
    return machine_as_json(told, *list.fleet, stopped);
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
