#include <fmt/format.h>

#include "render/replay/replay.h"
#include "render/shared/headings.h"
#include "terminal/table.h"
#include "terminal/wrap.h"

namespace cli {

using service::to_text;

std::string replay_as_text(const ReplayAnswer& answer, const Look& look) {
  const service::Replay& replay = answer.past;
  std::string text = heading(look, fmt::format("{}, {}: was the forecast right so far?",
                                               service::cleaned(replay.fleet->name), to_text(answer.as_of)));
  if (replay.days.empty()) {
    return text + "\nThe book holds no year of readings yet, so there is no past to ask.\n";
  }
  text +=
      wrapped("",
              fmt::format("Asked again on {} from {} to {}, with what was known by then: {} whose spans lie wholly in "
                          "the book, come or not, and {} that reach beyond it and are left out.",
                          service::counted(static_cast<std::int64_t>(replay.days.size()), "day", "days"),
                          to_text(replay.days.front()), to_text(replay.days.back()),
                          service::counted(replay.all.answered, "due day", "due days"), replay.all.open),
              static_cast<std::size_t>(look.columns), 0);
  std::vector<Row> rows{{"", "answered", "within", "loss", "mean rate", "same days", ""}};
  const auto add = [&](const std::string& name, const service::ReplayScore& score) {
    if (score.answered == 0) {
      rows.push_back({name, "0", "", "", "", "", "nothing answered yet"});
      return;
    }
    const auto better = score.better();
    const char* const verdict = better == service::ReplayScore::Better::straight    ? "mean rate is better"
                                : better == service::ReplayScore::Better::same_days ? "same days are better"
                                                                                    : "";
    rows.push_back({name, std::to_string(score.answered),
                    fmt::format("{:.0f} %", 100.0 * score.inside / score.answered), fmt::format("{:.1f}", score.loss),
                    fmt::format("{:.1f}", score.straight), fmt::format("{:.1f}", score.same_days), verdict});
  };
  for (const auto& row : replay.machines) add(service::cleaned(row.machine->key), row.score);
  for (const auto& row : replay.kinds) add("all " + service::cleaned(row.kind), row.score);
  add("all", replay.all);
  text += '\n' + table(rows, "", static_cast<std::size_t>(look.columns)) + '\n';
  text += wrapped(
      "",
      "Within: in the span; 80 % is meant; far more is too careful, far less too sure. Loss: how many days off the "
      "three days (early end, middle, late end) were, less is better; beside it the losses of two plain "
      "rules that name one day: the mean rate of the year before, and the same days of last year.",
      static_cast<std::size_t>(look.columns), 0);
  return text;
}

}  // namespace cli
