// The checksum of what is kept on disk.
#include "base/checksum.h"

#include <doctest/doctest.h>

#include <set>
#include <string>

using service::Checksum;
using service::checksum_of;

namespace {

// A row with one value of each kind.
std::uint64_t row(std::int64_t number, const std::string& text, std::optional<std::int64_t> maybe) {
  Checksum sum;
  sum.add(number);
  sum.add(text);
  sum.add(maybe);
  return sum.value();
}

}  // namespace

TEST_CASE("the checksum is XXH3 with 64 bits") {
  // The empty input as the reference implementation publishes it.
  CHECK(checksum_of("") == 0x2d06800538d394c2U);
}

TEST_CASE("values are summed as bytes in an order of our own") {
  Checksum sum;
  sum.add(std::int64_t{-2});
  sum.add(std::string_view("ab"));
  sum.add(std::optional<std::int64_t>{});
  sum.add(std::optional<std::int64_t>{258});
  const std::string bytes = std::string("\xfe\xff\xff\xff\xff\xff\xff\xff", 8) + std::string("\x02\0\0\0\0\0\0\0", 8) +
                            "ab" + std::string(8, '\0') + std::string("\x01\0\0\0\0\0\0\0", 8) +
                            std::string("\x02\x01\0\0\0\0\0\0", 8);
  CHECK(sum.value() == checksum_of(bytes));
}

TEST_CASE("no bit of a value can turn unseen, whatever the length of its row") {
  for (const std::size_t length : {0U, 1U, 8U, 100U, 200U, 1000U}) {
    const std::string text(length, 'x');
    std::set<std::uint64_t> seen{row(1250, text, 7)};
    std::size_t rows = 1;
    for (unsigned bit = 0; bit < 63; ++bit) {
      seen.insert(row(1250 ^ (std::int64_t{1} << bit), text, 7));
      seen.insert(row(1250, text, 7 ^ (std::int64_t{1} << bit)));
      rows += 2;
    }
    for (std::size_t at = 0; at < length; ++at) {
      for (unsigned bit = 0; bit < 8; ++bit) {
        std::string other = text;
        other[at] = static_cast<char>(static_cast<unsigned char>(other[at]) ^ (1U << bit));
        seen.insert(row(1250, other, 7));
        ++rows;
      }
    }
    CAPTURE(length);
    CHECK(seen.size() == rows);
  }
}

TEST_CASE("a text cut elsewhere and a missing value are other rows") {
  Checksum one;
  one.add(std::string_view("ab"));
  one.add(std::string_view("c"));
  Checksum other;
  other.add(std::string_view("a"));
  other.add(std::string_view("bc"));
  CHECK(one.value() != other.value());
  CHECK(row(1, "", 0) != row(1, "", {}));
}

TEST_CASE("a sum over much is that over its bytes, however they come and wherever its first room ends") {
  for (const std::size_t size : {0U, 495U, 496U, 497U, 512U, 5000U}) {
    CAPTURE(size);
    const std::string text(size, 'x');
    Checksum sum;
    sum.add(std::uint64_t{size});  // as the length of the text would be
    sum.add(text);
    sum.add(std::string_view("ab"));
    std::string length(8, '\0');
    for (std::size_t i = 0; i < 2; ++i) length[i] = static_cast<char>((size >> (8 * i)) & 0xffU);
    std::string bytes = length;
    bytes.append(length).append(text).append("\x02\0\0\0\0\0\0\0", 8).append("ab");
    CHECK(sum.value() == checksum_of(bytes));
  }
}
