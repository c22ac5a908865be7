// Use now and ahead: a line a meter, or closely with a band and the next due days.
#pragma once

#include <string>
#include <vector>

#include "render/shared/formats.h"
#include "service/standing.h"
#include "service/usage.h"

namespace cli {

struct Forecast {
  service::DueList list;
  service::Day to;
  std::vector<service::MeterAhead> meters;
  bool closely = false;  // machines were named: all that is known of each
};

std::string forecast_as_text(const Forecast& forecast, const Look& look);
std::string forecast_as_json(const Forecast& forecast);
std::string forecast_as_csv(const Forecast& forecast);  // one row a meter and day

inline constexpr Format<Forecast> forecast_formats[] = {
    {"text", forecast_as_text}, {"json", forecast_as_json}, {"csv", forecast_as_csv}};

}  // namespace cli
