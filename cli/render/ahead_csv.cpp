#include "render/ahead_csv.h"

#include <fmt/format.h>

#include "render/csv.h"
#include "render/parts_text.h"
#include "render/resources_words.h"

namespace cli {
namespace {

using service::to_text;

std::string day(const std::optional<service::Day>& day) { return day ? to_text(*day) : ""; }
template <class Kind>
std::string amount(const std::optional<service::Exact<Kind>>& amount) {
  return amount ? to_text(*amount) : "";
}
std::string decimal(double value) { return fmt::format("{:.3f}", value); }
std::string share(const std::optional<double>& value) { return value ? fmt::format("{:.4f}", *value) : ""; }

void add(std::vector<std::string>& cells, const service::Spread& spread) {
  for (const double value : {spread.mean, spread.p10, spread.p50, spread.p90}) cells.push_back(decimal(value));
}

}  // namespace

std::string forecast_as_csv(const Forecast& forecast) {
  std::string text = csv_line({"machine", "meter", "unit", "on", "p10", "p50", "p90"});
  for (const service::MeterAhead& meter : forecast.meters) {
    const auto row = [&](const service::UsageSpan& span) {
      text += csv_line({csv_text(meter.machine->key), csv_text(meter.meter->name), csv_text(meter.meter->unit),
                        to_text(span.day), to_text(span.p10), to_text(span.p50), to_text(span.p90)});
    };
    if (!meter.now) {  // a meter that nobody read has a row, and nothing in it
      text += csv_line(
          {csv_text(meter.machine->key), csv_text(meter.meter->name), csv_text(meter.meter->unit), "", "", "", ""});
      continue;
    }
    row(*meter.now);
    for (const auto& span : meter.ahead) row(span);
  }
  return text;
}

std::string replay_as_csv(const service::Replay& replay) {
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

std::string season_as_csv(const service::SeasonPlan& plan) {
  std::string text = csv_line({"row", "machine", "task", "position", "odds", "do-by", "p10", "p50", "p90", "gives-up",
                               "again", "minutes", "people", "takes", "includes", "say"});
  const auto rows = [&](const char* kind, const std::vector<service::SeasonItem>& items) {
    for (const auto& item : items) {
      const auto& span = item.point.due_span;
      text += csv_line({kind, csv_text(item.point.machine->key), csv_text(item.point.name),
                        csv_text(item.point.position), share(item.odds), to_text(item.do_by), day(span.p10),
                        day(span.p50), day(span.p90), share(item.given_up), share(item.again),
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

std::string workload_as_csv(const service::Workload& load) {
  std::vector<std::string> head{"from", "to"};
  for (const char* what : {"labour-hours", "services", "cost"}) {
    for (const char* which : {"mean", "p10", "p50", "p90"}) head.push_back(fmt::format("{}-{}", what, which));
  }
  std::string text = csv_line(head);
  for (const auto& row : load.rows) {
    std::vector<std::string> cells{to_text(row.from), to_text(row.to)};
    add(cells, row.labour_hours);
    add(cells, row.services);
    add(cells, row.cost);
    text += csv_line(cells);
  }
  return text;
}

std::string parts_as_csv(const service::PartsList& list) {
  std::string text = csv_line({"part", "number", "what", "unit", "need", "perhaps", "stock", "counted-on", "short",
                               "buy", "packs", "missed-from", "order-by", "price", "supplier"});
  for (const service::PartNeed& need : list.needs) {
    text += csv_line({csv_text(need.key), csv_text(need.part != nullptr ? need.part->number : ""),
                      csv_text(need.part != nullptr ? need.part->what : ""), csv_text(need.unit), to_text(need.need),
                      to_text(need.more), amount(need.stock), day(need.counted_on), to_text(need.short_by),
                      to_text(need.buy), amount(need.packs), day(need.short_on), day(need.order_by), amount(need.price),
                      csv_text(need.part != nullptr ? need.part->supplier : "")});
  }
  return text;
}

}  // namespace cli
