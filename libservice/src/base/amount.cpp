// Exact decimal text, both ways. One digit reader serves amounts and measures, so both refuse the same things.
#include <limits>

#include "service/base.h"

namespace service {
namespace {

constexpr std::int64_t max_units = 1'000'000'000;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// Reads digits with at most `decimals` behind a point into units of 10^-decimals.
Parsed<std::int64_t> parse_decimal(std::string_view text, int decimals, bool may_be_negative) {
  if (text.empty()) return {{}, "is empty"};
  std::string_view rest = text;
  const bool negative = rest.front() == '-';
  if (negative) {
    if (!may_be_negative) return {{}, "is negative"};
    rest.remove_prefix(1);
  }
  if (rest.find(',') != std::string_view::npos) {
    return {{}, "has a comma; write the decimals behind a point and no marks between thousands"};
  }
  std::size_t i = 0;
  std::int64_t value = 0;
  for (; i < rest.size() && is_digit(rest[i]); ++i) {
    value = value * 10 + (rest[i] - '0');
    if (value > max_units) return {{}, "is more than 1000000000"};
  }
  if (i == 0) return {{}, "is not a plain decimal number"};
  int seen = 0;
  if (i < rest.size() && rest[i] == '.') {
    const std::size_t from = ++i;
    for (; i < rest.size() && is_digit(rest[i]); ++i) {
      if (seen < decimals) {
        value = value * 10 + (rest[i] - '0');
        ++seen;
      } else if (rest[i] != '0') {
        return {{}, decimals == 2 ? "has more than two decimals" : "has more than six decimals"};
      }
    }
    if (i == from) return {{}, "ends with its point"};
  }
  if (i != rest.size()) return {{}, "is not a plain decimal number"};
  std::int64_t limit = max_units;
  for (int k = 0; k < decimals; ++k) limit *= 10;
  for (; seen < decimals; ++seen) value *= 10;
  if (value > limit) return {{}, "is more than 1000000000"};
  return {negative ? -value : value, {}};
}

std::string decimal_text(std::int64_t value, int decimals, int at_least) {
  const bool negative = value < 0;
  std::uint64_t left = negative ? 0 - static_cast<std::uint64_t>(value) : static_cast<std::uint64_t>(value);
  std::string reversed;
  bool started = false;
  for (int k = decimals; k > 0; --k) {
    const char digit = static_cast<char>('0' + left % 10);
    left /= 10;
    started = started || digit != '0' || k <= at_least;
    if (started) reversed += digit;
  }
  if (started) reversed += '.';
  do {
    reversed += static_cast<char>('0' + left % 10);
    left /= 10;
  } while (left != 0);
  if (negative) reversed += '-';
  return {reversed.rbegin(), reversed.rend()};
}

}  // namespace

std::string hundredths_to_text(std::int64_t hundredths) { return decimal_text(hundredths, 2, 0); }
std::string to_text_tenths(Amount amount) { return decimal_text(amount.hundredths, 2, 1); }
std::string to_text(Measure measure) { return decimal_text(measure.millionths, 6, 0); }

Parsed<std::int64_t> parse_hundredths(std::string_view text) { return parse_decimal(text, 2, false); }

Parsed<Measure> parse_measure(std::string_view text) {
  const auto read = parse_decimal(text, 6, true);
  if (!read) return {{}, read.problem};
  return {Measure{*read}, {}};
}

Parsed<int> parse_count(std::string_view text) {
  if (text.find('.') != std::string_view::npos) return {{}, "is not a whole number"};
  const auto read = parse_decimal(text, 0, false);
  if (!read) return {{}, read.problem};
  if (*read > 1'000'000) return {{}, "is more than 1000000"};
  return {static_cast<int>(*read), {}};
}

}  // namespace service
