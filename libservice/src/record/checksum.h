// The checksum of a fact as the record keeps it.
#pragma once

#include <cstdint>

#include "service/record.h"

namespace service::record {

// Over the whole content of a fact: names, id, and how it came into the book.
std::uint64_t checksum_of(const Fact& fact);

}  // namespace service::record
