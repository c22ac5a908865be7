#include "render/overdue/overdue.h"
#include "render/overdue/words.h"
#include "render/shared/json_answers.h"
#include "render/shared/not_to_run.h"

namespace cli {

// The same shape as the due list, with the entries of the overdue list alone and a heading on each.
Json overdue_answer(const service::DueList& list) {
  Json json = head_of(*list.fleet, list.as_of, list.scope);
  json["cautions"] = base_cautions_as_json();
  const service::NotToRun stopped(list);
  std::vector<const service::Point*> points;
  for (const char* key : {"points", "seen", "gaps", "not_in_use"}) json[key] = Json::array();
  for (const auto& entry : overdue_list(list)) {
    const auto add = [&](const char* key, Json part) {
      part["heading"] = service::to_text(entry.heading);
      json[key].push_back(std::move(part));
    };
    if (entry.point != nullptr) {
      add("points", point_as_json(*entry.point, *list.fleet, stopped));
      points.push_back(entry.point);
    }
    if (entry.seen != nullptr) add("seen", seen_as_json(*entry.seen, *list.fleet, stopped));
    if (entry.gap != nullptr) add("gaps", gap_as_json(*entry.gap, *list.fleet));
    if (entry.use != nullptr) add("not_in_use", machine_as_json(*entry.use, *list.fleet, stopped));
  }
  json["not_to_run"] = bans_as_json(stopped.bans(), *list.fleet);
  json["caution_sentences"] = sentences_of(cautions_of(points));
  json["left_off"] = 0;  // it is never cut
  mark_rows(json, *list.fleet, stopped);
  return json;
}

std::string overdue_as_json(const service::DueList& list) { return dumped(overdue_answer(list)); }

}  // namespace cli
