// What the work on job sheets takes, held against what is in stock.
#pragma once

#include <vector>

#include "service/job_sheet.h"

namespace service::load {

// Filled in are tasks and parts of each page. `to`: the services up to then share the stock. The snapshot holds all
// facts of the record, for the figures are the fleet's.
void hold_against_stock(const Snapshot& snapshot, Day to, const Forecaster& forecaster,
                        std::vector<MachineSheet>& pages);

}  // namespace service::load
