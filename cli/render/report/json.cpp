#include "render/report/report.h"
#include "render/shared/figures.h"
#include "render/shared/json_answers.h"
#include "render/shared/not_to_run.h"

namespace cli {
namespace {

Json page_as_json(const service::MachinePage& page, const service::Fleet& fleet) {
  Json json = machine_of(*page.machine, fleet);
  json["name"] = text_or_null(page.machine->name);
  json["known_until"] = day_or_null(page.known_until);
  json["history"] = history_answer(*page.book);
  return json;
}

}  // namespace

std::string report_as_json(const service::Report& report, const std::string& command) {
  Json json = head_of(*report.fleet, report.as_of, report.scope);
  json["known_until"] = day_or_null(report.known_until);
  json["not_to_run"] = bans_as_json(run_bans(report.due), *report.fleet);
  json["overdue"] = overdue_answer(report.due);
  const auto soon = due_soon(report);
  const service::NotToRun stopped(report.due);
  json["due_soon"] =
      array_of(soon, [&](const service::Point* point) { return point_as_json(*point, *report.fleet, stopped); });
  json["due"] = due_answer({report.due, true, {}, report.known_until});
  json["season"] = report.season ? season_answer(*report.season, command) : Json(nullptr);
  json["workload"] = workload_answer(report.workload);
  json["beside_months"] = nullptr;
  if (report.beside_months) {
    json["beside_months"] = {{"labour_hours", mean_of(static_cast<double>(report.beside_months->labour_minutes) / 60)},
                             {"before", to_text(report.beside_months->before)}};
  }
  json["parts"] = parts_answer(report.parts);
  json["parts_beyond"] = report.parts_beyond ? parts_answer(*report.parts_beyond) : Json(nullptr);
  json["gaps_elsewhere"] = report.gaps_elsewhere;
  json["forecast"] = forecast_answer({report.forecast, true});
  json["machines"] =
      array_of(pages_of(report), [&](const service::MachinePage& page) { return page_as_json(page, *report.fleet); });
  return dumped(json);
}

}  // namespace cli
