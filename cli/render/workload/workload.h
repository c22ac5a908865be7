// The work ahead: a row a week or month, and what is not in it.
#pragma once

#include <string>
#include <vector>

#include "render/shared/formats.h"
#include "service/workload.h"

namespace cli {

struct WorkloadAnswer {
  service::Workload load;
  std::vector<service::MachineUse> not_in_use;  // those that stand, and are left out
};

std::string workload_as_text(const WorkloadAnswer& answer, const Look& look);
std::string workload_as_json(const WorkloadAnswer& answer);
std::string workload_as_csv(const WorkloadAnswer& answer);  // a row a week or month, and all together

inline constexpr Format<WorkloadAnswer> workload_formats[] = {
    {"text", workload_as_text}, {"json", workload_as_json}, {"csv", workload_as_csv}};

}  // namespace cli
