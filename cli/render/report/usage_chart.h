// Use of one meter, a year back and ahead: the known values as a line with dots, then the band within which eight cases
// of ten lie, with its middle.
#pragma once

#include "render/html/page.h"
#include "service/forecast.h"

namespace cli {

// Lifetime use. Nothing where nothing is expected of it.
void add_usage_chart(const Element& parent, const service::MeterForecast& meter, service::Day as_of);

// The same in figures.
void add_usage_table(const Element& parent, const service::MeterForecast& meter);

}  // namespace cli
