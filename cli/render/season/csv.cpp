#include <fmt/format.h>

#include "render/season/season.h"
#include "render/shared/csv_line.h"
#include "render/shared/resources_words.h"

namespace cli {

using service::to_text;

std::string season_as_csv(const service::SeasonPlan& plan) {
  std::string text = csv_line({"row", "machine", "task", "position", "odds", "do-by", "p10", "p50", "p90", "gives-up",
                               "again", "minutes", "people", "takes", "includes", "say"});
  const auto rows = [&](const char* kind, const std::vector<service::SeasonItem>& items) {
    for (const auto& item : items) {
      const auto& span = item.point.due_span;
      text += csv_line({kind, csv_text(item.point.machine->key), csv_text(item.point.name),
                        csv_text(item.point.position), share(item.odds), to_text(item.do_by), figure(span.p10),
                        figure(span.p50), figure(span.p90), share(item.given_up), share(item.again),
                        item.resources.time ? std::to_string(item.resources.time->count()) : "",
                        std::to_string(item.resources.people), csv_text(parts_words(item.resources)),
                        csv_text(fmt::format("{}", fmt::join(item.covered, " "))), ""});
    }
  };
  const auto note = [&](const char* kind, const std::string& machine, const std::string& task,
                        const std::string& position, const std::string& say) {
    std::vector<std::string> cells{kind, csv_text(machine), csv_text(task), csv_text(position)};
    cells.resize(15);
    cells.push_back(csv_text(say));
    text += csv_line(cells);
  };
  rows("beforehand", plan.beforehand);
  rows("can-wait", plan.can_wait);
  for (const service::Point& point : plan.unknown) note("unknown", point.machine->key, point.name, point.position, "");
  for (const service::Gap& gap : plan.gaps) note("gap", gap.machine, "", "", gap.say);
  return text;
}

}  // namespace cli
