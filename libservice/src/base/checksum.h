// The one checksum of what is kept on disk: XXH3, 64 bits. It guards against bad disks, not against forgers: damage
// of any kind goes unseen once in 2^64.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace service {

std::uint64_t checksum_of(std::string_view bytes);

// The same over values. They are written one behind the other in one way only, so that no two lists of values are the
// same bytes: a number as eight, the lowest first; a text behind its length; what may be missing behind whether it is
// there.
class Checksum {
 public:
  void add(std::uint64_t value);
  void add(std::int64_t value) { add(static_cast<std::uint64_t>(value)); }
  void add(std::string_view text);
  void add(std::optional<std::int64_t> value);
  std::uint64_t value() const;

 private:
  void append(std::string_view bytes);

  // There is one of these a row that is read or written, so a usual row takes no memory of its own.
  std::array<char, 512> first_;
  std::size_t size_ = 0;  // of what is there
  std::string rest_;      // all of it, where that is more
};

}  // namespace service
