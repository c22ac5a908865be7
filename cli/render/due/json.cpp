#include "render/due/due.h"
#include "render/shared/json_parts.h"

namespace cli {

std::string due_as_json(const DueAnswer& due) {
  const service::DueList& list = due.list;
  Json json = head_of(list);
  json["points"] = Json::array();
  for (const service::Point& point : list.points) {
    if (due.first && json["points"].size() == *due.first) break;
    json["points"].push_back(point_as_json(point));
  }
  json["gaps"] = Json::array();
  for (const service::Gap& gap : list.gaps) json["gaps"].push_back(gap_as_json(gap));
  json["machines"] = Json::array();
  for (const service::MachineUse& use : list.not_in_use) json["machines"].push_back(machine_as_json(use));
  json["within"] = to_text(list.within);
  return dumped(json);
}

}  // namespace cli
