// What is left of a machine's book as bytes, to be kept.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "service/machine_book.h"

namespace service {

// The same state is the same bytes, whatever it was made by.
std::string packed(const Condensed& condensed);

// Nothing where the bytes are of another format, do not agree with their checksum, or tell of other meters than the
// machine has. Bytes of any kind may be given.
std::optional<Condensed> unpacked(std::string_view bytes, const Machine& machine);

}  // namespace service
