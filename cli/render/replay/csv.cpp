#include "render/replay/replay.h"
#include "render/shared/csv_line.h"

namespace cli {

std::string replay_as_csv(const ReplayAnswer& answer) {
  const service::Replay& replay = answer.past;
  std::string text =
      csv_line({"machine", "schedule", "answered", "open", "inside", "loss", "mean-rate-loss", "same-days-loss"});
  const auto row = [&](const std::string& machine, const std::string& kind, const service::ReplayScore& score) {
    const bool any = score.answered > 0;
    text += csv_line({csv_text(machine), csv_text(kind), std::to_string(score.answered), std::to_string(score.open),
                      std::to_string(score.inside), any ? decimal(score.loss) : "", any ? decimal(score.straight) : "",
                      any ? decimal(score.same_days) : ""});
  };
  for (const auto& each : replay.machines) row(each.machine->key, each.kind, each.score);
  for (const auto& each : replay.kinds) row("", each.kind, each.score);
  row("", "", replay.all);
  return text;
}

}  // namespace cli
