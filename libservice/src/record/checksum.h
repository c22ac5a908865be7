// A 64-bit checksum over values. Every change of a single value of eight bytes changes it for certain; other damage
// goes unseen once in 2^64. It guards against bad disks, not against forgers.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "service/record.h"

namespace service::record {

class Checksum {
 public:
  void add(std::uint64_t value);
  void add(std::int64_t value) { add(static_cast<std::uint64_t>(value)); }
  void add(std::string_view text);  // its length too, so that no text can be cut elsewhere and look the same
  void add(std::optional<std::int64_t> value);
  std::uint64_t value() const;

 private:
  std::uint64_t state_ = 0x9e3779b97f4a7c15U;
};

// Over the whole content of a fact: names, id, and how it came into the book.
std::uint64_t checksum_of(const Fact& fact);

}  // namespace service::record
