#include "render/forecast/forecast.h"
#include "render/shared/csv_line.h"

namespace cli {

std::string forecast_as_csv(const ForecastAnswer& answer) {
  CsvTable table({"row", "machine", "meter", "unit", "on", "p10", "p50", "p90"});
  for (const service::MeterForecast& each : answer.forecast.meters) {
    const service::MeterAhead& meter = each.ahead;
    const auto add = [&](const char* row, const std::optional<service::UsageSpan>& span) {
      std::vector<std::pair<std::string_view, std::string>> cells{{"row", row},
                                                                  {"machine", csv_text(meter.machine->key)},
                                                                  {"meter", csv_text(meter.meter->name)},
                                                                  {"unit", csv_text(meter.meter->unit)}};
      if (span) {
        cells.insert(cells.end(), {{"on", service::to_text(span->day)},
                                   {"p10", to_text(span->p10)},
                                   {"p50", to_text(span->p50)},
                                   {"p90", to_text(span->p90)}});
      }
      table.add(cells);
    };
    add("now", meter.now);  // a meter that nobody read has a row, and nothing in it
    for (const auto& span : meter.ahead) add("ahead", span);
  }
  return table.text();
}

}  // namespace cli
