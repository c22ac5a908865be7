// The work ahead, in words.
#pragma once

#include <string>
#include <vector>

#include "service/workload.h"
#include "terminal/table.h"

namespace cli {

// Of rows by month: the month began before it, or goes on behind it.
bool begins_late(const service::WorkloadRow& row);
bool ends_early(const service::WorkloadRow& row);

// A row a week or month, headings first and all together last: labour, services, parts, money.
std::vector<Row> workload_rows(const service::Workload& load);

// `2.4 oil-filter-a, 11.5 L engine-oil-15w40, and 3 more`.
std::string used_words(const std::vector<service::WorkloadPart>& parts, std::size_t left_off);

// What the figures leave out: tasks that say no time, parts without a price, labour that has none.
std::vector<std::string> missing_words(const service::Workload& load);

}  // namespace cli
