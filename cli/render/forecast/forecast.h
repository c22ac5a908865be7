// Use now and ahead: a line a meter, or closely with a band and the next due days.
#pragma once

#include <string>
#include <vector>

#include "render/shared/formats.h"
#include "service/forecast.h"

namespace cli {

struct ForecastAnswer {
  service::Forecast forecast;
  bool closely = false;  // machines were named: for people, all that is known of each
};

std::string forecast_as_text(const ForecastAnswer& answer, const Look& look);
std::string forecast_as_json(const ForecastAnswer& answer);
std::string forecast_as_csv(const ForecastAnswer& answer);  // a row a meter and day, and a point

inline constexpr Format<ForecastAnswer> forecast_formats[] = {
    {"text", forecast_as_text}, {"json", forecast_as_json}, {"csv", forecast_as_csv}};

}  // namespace cli
