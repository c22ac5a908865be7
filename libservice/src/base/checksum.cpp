#include <bit>
#include <cstring>

#include "service/base.h"

namespace service {

// Each step is a bijection of the state and, for a given state, of the value: two inputs that differ in one value can
// never meet again.
void Checksum::add(std::uint64_t value) {
  state_ ^= value;
  state_ *= 0xff51afd7ed558ccdU;
  state_ ^= state_ >> 32;
}

// The first byte is the lowest, so that a record means the same on machines of either byte order.
void Checksum::add(std::string_view text) {
  add(static_cast<std::uint64_t>(text.size()));
  for (std::size_t from = 0; from < text.size(); from += 8) {
    std::uint64_t word = 0;
    const std::string_view part = text.substr(from, 8);
    if constexpr (std::endian::native == std::endian::little) {
      std::memcpy(&word, part.data(), part.size());
    } else {
      for (std::size_t i = 0; i < part.size(); ++i) {
        word |= static_cast<std::uint64_t>(static_cast<unsigned char>(part[i])) << (8 * i);
      }
    }
    add(word);
  }
}

void Checksum::add(std::optional<std::int64_t> value) {
  add(std::uint64_t{value ? 1U : 0U});
  if (value) add(*value);
}

std::uint64_t Checksum::value() const {
  std::uint64_t mixed = state_;
  mixed ^= mixed >> 33;
  mixed *= 0xc4ceb9fe1a85ec53U;
  mixed ^= mixed >> 29;
  return mixed;
}

}  // namespace service
