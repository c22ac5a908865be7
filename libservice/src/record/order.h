// Puts facts into the one order. A fact is a large value, so each is moved once rather than at every comparison.
#pragma once

#include <vector>

#include "service/record.h"

namespace service::record {

void put_in_order(std::vector<Fact>& facts);

}  // namespace service::record
