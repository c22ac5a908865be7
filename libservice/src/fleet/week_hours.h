// Weekdays and clock times: when a site is open and when a crew works.
#pragma once

#include "fleet/reader.h"

namespace service::fleet {

std::optional<Weekday> parse_weekday(std::string_view text);  // mon, monday

// "08:00-12:00", or a list of such spans; in order, none overlapping another.
std::vector<ClockSpan> read_clock_spans(const Reader& reader, const Field& field);

// {mon-thu: "07:30-16:00", fri: ["07:30-12:00", "13:00-15:00"]}
WeekHours read_week_hours(const Reader& reader, const Field& field);

}  // namespace service::fleet
