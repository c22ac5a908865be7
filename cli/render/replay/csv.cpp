#include "render/replay/replay.h"
#include "render/shared/csv_line.h"
#include "render/shared/figures.h"

namespace cli {
namespace {

std::string row_of(const char* kind, const std::string& machine, const std::string& schedule,
                   const service::ReplayScore& score) {
  const auto days = [&](double value) { return score.answered > 0 ? decimal(days_of(value)) : ""; };
  return csv_line({kind, csv_text(machine), csv_text(schedule), std::to_string(score.answered),
                   std::to_string(score.open), std::to_string(score.inside), days(score.loss), days(score.straight),
                   days(score.same_days)});
}

}  // namespace

std::string replay_as_csv(const ReplayAnswer& answer) {
  std::string text = csv_line(
      {"row", "machine", "schedule", "answered", "open", "inside", "loss", "mean_rate_loss", "same_days_loss"});
  for (const auto& each : answer.past.machines) text += row_of("machine", each.machine->key, each.kind, each.score);
  for (const auto& each : answer.past.kinds) text += row_of("schedule", "", each.kind, each.score);
  return text + row_of("all", "", "", answer.past.all);
}

}  // namespace cli
