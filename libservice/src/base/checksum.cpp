#include "base/checksum.h"

#define XXH_INLINE_ALL  // nothing to link: whoever uses the library need not have it
#include <xxhash.h>

#include "base/eight_bytes.h"

namespace service {

std::uint64_t checksum_of(std::string_view bytes) { return XXH3_64bits(bytes.data(), bytes.size()); }

Checksum::Checksum() {
  constexpr std::size_t a_usual_row = 500;
  bytes_.reserve(a_usual_row);
}

// The order of bytes is ours, so that a record means the same on every machine.
void Checksum::add(std::uint64_t value) { add_eight_bytes(bytes_, value); }

void Checksum::add(std::string_view text) {
  add(static_cast<std::uint64_t>(text.size()));
  bytes_ += text;
}

void Checksum::add(std::optional<std::int64_t> value) {
  add(std::uint64_t{value ? 1U : 0U});
  if (value) add(*value);
}

}  // namespace service
