// Use now and ahead for people: a line a meter, or closely with a band; and how right the odds were.
#pragma once

#include <string>
#include <vector>

#include "service/outlook.h"
#include "terminal/look.h"

namespace cli {

struct Forecast {
  service::DueList list;
  service::Day to;
  std::vector<service::MeterAhead> meters;
  bool closely = false;  // machines were named: all that is known of each
};

std::string forecast_as_text(const Forecast& forecast, const Look& look);
std::string replay_as_text(const service::Replay& replay, service::Day as_of, const Look& look);

// `88 % of it in August and September`, `spread over the year`: months with half as much again as the mean.
std::string busy_months(const service::Grounds& grounds);

// `learnt from 8.2 years of readings and 2 machines of its kind; its owner expects 560 h a year`.
std::string words_of(const service::Grounds& grounds, const std::string& unit);

}  // namespace cli
