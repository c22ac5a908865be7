// Labour, parts and money of the months ahead for people.
#pragma once

#include <string>

#include "service/workload.h"
#include "terminal/look.h"

namespace cli {

std::string workload_as_text(const service::Workload& load, const Look& look);

}  // namespace cli
