// The work ahead: a row a week or month, and what is not in it.
#pragma once

#include <array>
#include <string>

#include "render/shared/formats.h"
#include "service/workload.h"

namespace cli {

std::string workload_as_text(const service::Workload& load, const Look& look);
std::string workload_as_json(const service::Workload& load);
std::string workload_as_csv(const service::Workload& load);

inline constexpr std::array workload_formats{Format<service::Workload>{"text", workload_as_text},
                                             Format<service::Workload>{"json", workload_as_json},
                                             Format<service::Workload>{"csv", workload_as_csv}};

}  // namespace cli
