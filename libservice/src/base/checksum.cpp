#include "base/checksum.h"

#include <xxhash.h>

#include <array>

namespace service {

std::uint64_t checksum_of(std::string_view bytes) { return XXH3_64bits(bytes.data(), bytes.size()); }

// The order of bytes is ours, so that a record means the same on every machine.
void Checksum::add(std::uint64_t value) {
  std::array<char, 8> bytes{};
  for (unsigned i = 0; i < bytes.size(); ++i) bytes[i] = static_cast<char>(value >> (8 * i) & 0xFFU);
  bytes_.append(bytes.data(), bytes.size());
}

void Checksum::add(std::string_view text) {
  add(static_cast<std::uint64_t>(text.size()));
  bytes_ += text;
}

void Checksum::add(std::optional<std::int64_t> value) {
  add(std::uint64_t{value ? 1U : 0U});
  if (value) add(*value);
}

}  // namespace service
