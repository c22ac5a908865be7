#include "render/forecast/forecast.h"
#include "render/shared/csv_rows.h"
#include "render/shared/words.h"

namespace cli {
namespace {

using service::to_text;

void add_meter(CsvTable& table, const char* row, const service::MeterAhead& meter, const service::Fleet& fleet,
               const std::optional<service::UsageSpan>& span) {
  CsvCells cells = cells_of(row, *meter.machine, fleet);
  cells.insert(cells.end(), {{"meter", csv_text(meter.meter->name)}, {"unit", csv_text(meter.meter->unit)}});
  if (span) {
    cells.insert(cells.end(), {{"on", to_text(span->day)},
                               {"p10", to_text(span->p10)},
                               {"p50", to_text(span->p50)},
                               {"p90", to_text(span->p90)},
                               {"shown_p10", to_text(span->shown.p10)},
                               {"shown_p50", to_text(span->shown.p50)},
                               {"shown_p90", to_text(span->shown.p90)}});
  }
  table.add(cells);
}

void add_due_next(CsvTable& table, const service::Point& point, const service::Fleet& fleet) {
  CsvCells cells = cells_of("point", point, fleet);
  add_standing(cells, point);
  cells.emplace_back("due_on", figure(point.due_on));
  table.add(cells);
}

}  // namespace

std::string forecast_as_csv(const ForecastAnswer& answer) {
  const service::Fleet& fleet = *answer.forecast.fleet;
  CsvTable table = table_of(columns_with({"row",
                                          "machine",
                                          "site",
                                          "customer",
                                          "meter",
                                          "unit",
                                          "on",
                                          "p10",
                                          "p50",
                                          "p90",
                                          "shown_p10",
                                          "shown_p50",
                                          "shown_p90",
                                          "task",
                                          "position",
                                          "standing",
                                          "due_on",
                                          "due_span_p10",
                                          "due_span_p50",
                                          "due_span_p90",
                                          "sooner_if",
                                          "measure_again",
                                          "doubtful",
                                          "safety",
                                          "competent_person",
                                          "cautions",
                                          "kind",
                                          "fact",
                                          "state",
                                          "since",
                                          "until",
                                          "note",
                                          "say",
                                          "by_estimate",
                                          "put_off_until",
                                          "put_off_at",
                                          "put_off_shown",
                                          "put_off_by",
                                          "put_off_note",
                                          "put_off_by_estimate",
                                          "past_grace_by_estimate",
                                          "do_not_run"},
                                         {columns_of_standing(), columns_of_unknown(), columns_of_gaps(),
                                          columns_of_machines(), columns_of_stopped()}),
                            answer.forecast.not_to_run, fleet);
  for (const service::MeterForecast& each : answer.forecast.meters) {
    add_meter(table, "now", each.ahead, fleet,
              each.ahead.now);  // a meter that nobody read has a row, and nothing in it
    for (const auto& span : each.ahead.ahead) add_meter(table, "ahead", each.ahead, fleet, span);
  }
  for (const service::ForecastPoint& each : answer.forecast.points) add_due_next(table, each.point, fleet);
  add_unknown(table, answer.forecast.unknown, fleet);
  for (const service::Gap& gap : answer.forecast.gaps) add_gap(table, gap, fleet);
  for (const service::MachineUse& use : answer.forecast.not_in_use) add_machine(table, use, fleet);
  add_stopped(table, answer.forecast.not_to_run, fleet);
  return table.text();
}

}  // namespace cli
