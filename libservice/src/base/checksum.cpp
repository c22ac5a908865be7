#include "base/checksum.h"

#define XXH_INLINE_ALL  // nothing to link: whoever uses the library need not have it
#include <xxhash.h>

#include <algorithm>

#include "base/eight_bytes.h"

namespace service {

std::uint64_t checksum_of(std::string_view bytes) { return XXH3_64bits(bytes.data(), bytes.size()); }

inline void Checksum::append(std::string_view bytes) {
  if (rest_.empty() && bytes.size() <= first_.size() - size_) {
    std::copy(bytes.begin(), bytes.end(), first_.begin() + static_cast<std::ptrdiff_t>(size_));
    size_ += bytes.size();
    return;
  }
  if (rest_.empty()) rest_.assign(first_.data(), size_);
  rest_ += bytes;
}

// The order of bytes is ours, so that a record means the same on every machine.
void Checksum::add(std::uint64_t value) {
  const auto bytes = as_eight_bytes(value);
  append({bytes.data(), bytes.size()});
}

void Checksum::add(std::string_view text) {
  add(static_cast<std::uint64_t>(text.size()));
  if (!text.empty()) append(text);
}

void Checksum::add(std::optional<std::int64_t> value) {
  add(std::uint64_t{value ? 1U : 0U});
  if (value) add(*value);
}

std::uint64_t Checksum::value() const {
  return checksum_of(rest_.empty() ? std::string_view(first_.data(), size_) : std::string_view(rest_));
}

}  // namespace service
