#include "render/replay/replay.h"
#include "render/shared/json_parts.h"

namespace cli {
namespace {

Json score_as_json(const service::ReplayScore& score) {
  const bool any = score.answered > 0;
  const auto days = [&](double value) { return any ? Json(rounded(value, 100)) : Json(nullptr); };
  return {{"answered", score.answered},
          {"open", score.open},
          {"inside", score.inside},
          {"loss", days(score.loss)},
          {"mean_rate_loss", days(score.straight)},
          {"same_days_loss", days(score.same_days)}};
}

}  // namespace

std::string replay_as_json(const ReplayAnswer& answer) {
  const service::Replay& replay = answer.past;
  Json json{{"fleet", replay.fleet->name}, {"as_of", to_text(answer.as_of)}, {"days", Json::array()}};
  for (const auto day : replay.days) json["days"].push_back(to_text(day));
  json["machines"] = Json::array();
  for (const auto& row : replay.machines) {
    Json one{{"machine", row.machine->key}, {"schedule", row.kind}};
    one.update(score_as_json(row.score));
    json["machines"].push_back(std::move(one));
  }
  json["kinds"] = Json::array();
  for (const auto& row : replay.kinds) {
    Json one{{"schedule", row.kind}};
    one.update(score_as_json(row.score));
    json["kinds"].push_back(std::move(one));
  }
  json["all"] = score_as_json(replay.all);
  return dumped(json);
}

}  // namespace cli
