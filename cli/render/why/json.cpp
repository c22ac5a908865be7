#include "render/shared/not_to_run.h"
#include "render/why/why.h"
#include "render/why/words.h"

namespace cli {

std::string why_as_json(const service::Explanations& why) {
  Json json = head_of(*why.fleet, why.as_of);
  json["cautions"] = base_cautions_as_json();
  json["points"] = Json::array();
  for (const service::Explanation& each : why.points) {
    const Explained explained = in_words(each, *why.fleet, why.as_of);
    Json point = point_as_json(each.point, *why.fleet, why.not_to_run);
    point["rule"] = explained.rule;
    point["facts"] = explained.facts;
    point["sums"] = explained.sums;
    point["ahead"] = explained.ahead;
    point["ruling"] = explained.ruling;
    point["machine_notes"] = text_or_null(each.point.machine->notes);
    point["source"] = text_or_null(each.source);
    json["points"].push_back(std::move(point));
  }
  std::vector<const service::Point*> points;
  for (const service::Explanation& each : why.points) points.push_back(&each.point);
  json["caution_sentences"] = sentences_of(cautions_of(points));
  json["seen"] = seen_as_json(why.seen, *why.fleet, why.not_to_run);
  json["gaps"] = gaps_as_json(why.gaps, *why.fleet);
  json["not_in_use"] = not_in_use_as_json(why.not_in_use, *why.fleet, why.not_to_run);
  json["not_to_run"] = bans_as_json(why.not_to_run.bans(), *why.fleet);
  json["left_off"] = why.left_off;
  return dumped(json);
}

}  // namespace cli
