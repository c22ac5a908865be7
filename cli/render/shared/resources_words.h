// What a service takes, in words: time, people, parts, fluids.
#pragma once

#include <string>
#include <vector>

#include "service/part_lack.h"
#include "service/workload.h"

namespace cli {

std::string hours_words(double hours);                                      // `31.2 h`
std::string quantity(service::PartAmount amount, const std::string& unit);  // `12`, `11.5 L`; `piece` is not said
std::string time_words(const service::Resources& resources);  // `2 h 30 min`, `5 h x 2 people`, `time not said`
std::vector<std::string> part_words(const service::Resources& resources);   // one a part: `2 knives`
std::vector<std::string> fluid_words(const service::Resources& resources);  // one a fluid: `28 L engine-oil-15w40`
std::string parts_words(const service::Resources& resources);  // `oil-filter-combine, 28 L engine-oil-15w40`
std::string odds_words(service::Probability odds);             // `83 %`, `under 1 %`, `over 99 %`

// By when to order what is short: `2026-07-01`, `today`, `today, late by 7 days`; empty where nothing is.
std::string order_words(std::optional<service::Day> order_by, int late_days, service::Day as_of);

// Of a part whose stock nobody told.
inline constexpr const char* not_counted = "not counted";

// `1 not in stock, order by 2026-07-01`, `1 not in stock, not there before 2026-06-22: order today, late by 7 days`.
std::string lack_words(const service::PartLack& lack, service::Day as_of);

// `two people`, `3 people`: where it is not for one alone; else empty.
std::string people_words(const service::Point& point);

// The remarks of a point (`words.h`), and that it is not for one alone.
std::vector<std::string> list_remarks(const service::Point& point);

// `stands until 2026-11-01`, of a machine that is left out for it.
std::string stands_words(const service::UseState& state);

// What is left out, a line a machine: points of which nothing can be said, machines that stand.
// `command`: how printed commands begin.
std::vector<std::string> left_out_lines(const std::vector<service::PointName>& unknown,
                                        const std::vector<service::MachineUse>& not_in_use, const std::string& command);

// The same below a heading.
std::string left_out(const std::vector<service::PointName>& unknown, const std::vector<service::MachineUse>& not_in_use,
                     const std::string& command);

}  // namespace cli
