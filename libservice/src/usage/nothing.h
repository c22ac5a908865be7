// Of a meter of which nothing is known nothing is expected.
#pragma once

#include <memory>

#include "service/usage.h"

namespace service::usage {

std::unique_ptr<const UsageAhead> nothing_expected();

}  // namespace service::usage
