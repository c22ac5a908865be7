// The work ahead: a row a week or month, and what is not in it.
#pragma once

#include <string>
#include <vector>

#include "render/shared/formats.h"
#include "service/workload.h"

namespace cli {

std::string workload_as_text(const service::Workload& load, const Look& look);
std::string workload_as_json(const service::Workload& load);
std::string workload_as_csv(const service::Workload& load);  // a row a week or month, and all together

inline constexpr Format<service::Workload> workload_formats[] = {
    {"text", workload_as_text}, {"json", workload_as_json}, {"csv", workload_as_csv}};

}  // namespace cli
