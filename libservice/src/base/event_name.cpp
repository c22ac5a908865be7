#include "base/event_name.h"

#include <cstdint>
#include <string_view>

#include "base/checksum.h"

namespace service {
namespace {

std::string in_hexadecimal(std::uint64_t value) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string text(16, '0');
  for (auto at = text.rbegin(); at != text.rend(); ++at, value /= 16) *at = digits[value % 16];
  return text;
}

}  // namespace

// The first half names, the second half keeps the names of different things apart: 128 bits.
std::string event_name_of(const std::vector<std::string>& parts) {
  Checksum first;
  Checksum second;
  second.add(std::string_view("whichever"));
  for (const std::string& part : parts) {
    first.add(std::string_view(part));
    second.add(std::string_view(part));
  }
  return in_hexadecimal(first.value()) + in_hexadecimal(second.value()) + "@whichever";
}

}  // namespace service
