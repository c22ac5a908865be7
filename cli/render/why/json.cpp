#include "render/shared/json_parts.h"
#include "render/why/why.h"

namespace cli {

std::string why_as_json(const WhyAnswer& why) {
  Json json = head_of(*why.list.fleet, why.list.as_of);
  json["points"] = Json::array();
  for (const Explained& explained : why.points) {
    Json point = point_as_json(*explained.point);
    point["rule"] = explained.rule;
    point["facts"] = explained.facts;
    point["sums"] = explained.sums;
    point["ahead"] = explained.ahead;
    point["ruling"] = explained.ruling;
    json["points"].push_back(std::move(point));
  }
  json["gaps"] = gaps_as_json(why.list.gaps);
  json["not_in_use"] = not_in_use_as_json(why.list.not_in_use);
  return dumped(json);
}

}  // namespace cli
