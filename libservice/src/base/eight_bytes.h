// A number as eight bytes, the lowest first: how all that is kept on disk or summed up writes one.
#pragma once

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>
#include <string>
#include <string_view>

namespace service {

inline constexpr std::size_t eight_bytes = 8;

inline void add_eight_bytes(std::string& bytes, std::uint64_t value) {
  auto each = std::bit_cast<std::array<char, eight_bytes>>(value);
  if constexpr (std::endian::native == std::endian::big) std::reverse(each.begin(), each.end());
  bytes.append(each.data(), each.size());
}

// Taken off the front; there are as many.
inline std::uint64_t take_eight_bytes(std::string_view& bytes) {
  std::uint64_t value = 0;
  for (std::size_t i = 0; i < eight_bytes; ++i) value |= std::uint64_t{static_cast<std::uint8_t>(bytes[i])} << (8 * i);
  bytes.remove_prefix(eight_bytes);
  return value;
}

}  // namespace service
