#include "render/parts/parts.h"
#include "render/shared/json_answers.h"
#include "render/shared/not_to_run.h"

namespace cli {

Json parts_answer(const service::PartsList& list) {
  Json json = head_of(*list.fleet, list.as_of, list.scope);
  json["to"] = to_text(list.to);
  json["cautions"] = base_cautions_as_json();
  json["season"] = list.before != nullptr ? Json(list.before->key) : Json(nullptr);
  json["currency"] = text_or_null(list.fleet->currency);
  json["parts"] = array_of(list.needs, [&](const service::PartNeed& need) { return need_as_json(need, *list.fleet); });
  json["unknown"] = places_of(list.unknown, *list.fleet);
  json["not_in_use"] = not_in_use_as_json(list.not_in_use, *list.fleet, list.not_to_run);
  json["not_to_run"] = bans_as_json(list.not_to_run.bans(), *list.fleet);
  json["gaps"] = gaps_as_json(list.gaps, *list.fleet);
  json["left_off"] = list.left_off;
  mark_rows(json, *list.fleet, list.not_to_run);
  return json;
}

std::string parts_as_json(const service::PartsList& list) { return dumped(parts_answer(list)); }

}  // namespace cli
