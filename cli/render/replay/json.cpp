#include "render/replay/replay.h"
#include "render/shared/figures.h"
#include "render/shared/json_parts.h"

namespace cli {
namespace {

Json score_as_json(const service::ReplayScore& score) {
  const auto days = [&](double value) { return score.answered > 0 ? Json(days_of(value)) : Json(nullptr); };
  return {{"answered", score.answered},
          {"open", score.open},
          {"inside", score.inside},
          {"loss", days(score.loss)},
          {"mean_rate_loss", days(score.straight)},
          {"same_days_loss", days(score.same_days)}};
}

Json row_as_json(const service::ReplayRow& row) {
  Json json;
  if (row.machine != nullptr) json["machine"] = row.machine->key;
  json["schedule"] = row.kind;
  json.update(score_as_json(row.score));
  return json;
}

}  // namespace

std::string replay_as_json(const ReplayAnswer& answer) {
  const service::Replay& replay = answer.past;
  Json json = head_of(*replay.fleet, answer.as_of);
  json["days"] = array_of(replay.days, [](service::Day day) { return to_text(day); });
  json["machines"] = array_of(replay.machines, row_as_json);
  json["schedules"] = array_of(replay.kinds, row_as_json);
  json["all"] = score_as_json(replay.all);
  return dumped(json);
}

}  // namespace cli
