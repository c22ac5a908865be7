#include "render/forecast/forecast.h"
#include "render/shared/csv_line.h"

namespace cli {

using service::to_text;

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

}  // namespace cli
