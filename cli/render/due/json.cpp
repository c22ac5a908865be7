#include "render/due/due.h"
#include "render/shared/json_parts.h"

namespace cli {

std::string due_as_json(const DueAnswer& due) {
  const service::DueList& list = due.list;
  Json json = head_of(*list.fleet, list.as_of);
  json["to"] = to_text(list.within);
  json["cautions"] = base_cautions_as_json();
  const std::vector<const service::Point*> points = due.every().points;
  json["points"] = array_of(points, [](const service::Point* point) { return point_as_json(*point); });
  json["seen"] = array_of(list.seen, seen_as_json);
  json["gaps"] = gaps_as_json(list.gaps);
  json["not_in_use"] = not_in_use_as_json(list.not_in_use);
  json["caution_sentences"] = sentences_of(cautions_of(points));
  return dumped(json);
}

}  // namespace cli
