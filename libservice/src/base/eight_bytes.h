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

inline std::array<char, eight_bytes> as_eight_bytes(std::uint64_t value) {
  auto each = std::bit_cast<std::array<char, eight_bytes>>(value);
  if constexpr (std::endian::native == std::endian::big) std::reverse(each.begin(), each.end());
  return each;
}

inline void add_eight_bytes(std::string& bytes, std::uint64_t value) {
  const auto each = as_eight_bytes(value);
  bytes.append(each.data(), each.size());
}

// Taken off the front; there are as many.
inline std::uint64_t take_eight_bytes(std::string_view& bytes) {
  std::array<char, eight_bytes> each{};
  std::copy_n(bytes.data(), each.size(), each.begin());
  if constexpr (std::endian::native == std::endian::big) std::reverse(each.begin(), each.end());
  bytes.remove_prefix(eight_bytes);
  return std::bit_cast<std::uint64_t>(each);
}

}  // namespace service
