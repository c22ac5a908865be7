#include "render/due/due.h"
#include "render/shared/json_answers.h"
#include "render/shared/not_to_run.h"

namespace cli {

Json due_answer(const DueAnswer& due) {
  const service::DueList& list = due.list;
  Json json = head_of(*list.fleet, list.as_of, list.scope);
  json["to"] = to_text(list.within);
  json["cautions"] = base_cautions_as_json();
  const service::DueRows rows = due.every();
  const service::NotToRun stopped(list);
  json["points"] =
      array_of(rows.points, [&](const service::Point* point) { return point_as_json(*point, *list.fleet, stopped); });
  json["seen"] = seen_as_json(list.seen, *list.fleet, stopped);
  json["gaps"] = gaps_as_json(list.gaps, *list.fleet);
  json["not_in_use"] = not_in_use_as_json(list.not_in_use, *list.fleet, stopped);
  json["not_to_run"] = bans_as_json(stopped.bans(), *list.fleet);
  json["caution_sentences"] = sentences_of(cautions_of(rows.points));
  json["left_off"] = rows.left_off;
  mark_rows(json, *list.fleet, stopped);
  return json;
}

std::string due_as_json(const DueAnswer& due) { return dumped(due_answer(due)); }

}  // namespace cli
