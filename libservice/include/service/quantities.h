// Quantities, exact, and how they are read and written. No floating point takes part in any decision.
#pragma once

#include <chrono>
#include <compare>
#include <cstdint>
#include <ratio>
#include <string>
#include <string_view>
#include <utility>

#include "service/parsed.h"

#pragma GCC visibility push(default)

namespace service {

// Hundredths of an hour as a duration, for the places where a meter's hours meet the clock's.
using Hours = std::chrono::duration<std::int64_t, std::ratio<36>>;

// An exact quantity, in hundredths of its unit. Quantities of different kinds neither add up nor stand in for each
// other. Values read from outside are never negative and at most 1,000,000,000 units, so sums and products with a
// percentage fit.
template <class Kind>
struct Exact {
  std::int64_t hundredths = 0;

  static constexpr Exact units(std::int64_t count) { return {count * 100}; }

  friend constexpr auto operator<=>(Exact, Exact) = default;
  friend constexpr Exact operator+(Exact a, Exact b) { return {a.hundredths + b.hundredths}; }
  friend constexpr Exact operator-(Exact a, Exact b) { return {a.hundredths - b.hundredths}; }
  constexpr Exact operator-() const { return {-hundredths}; }
};

using Amount = Exact<struct UsageKind>;           // usage, or a value shown by a meter, in the meter's unit
using PartAmount = Exact<struct PartAmountKind>;  // of a part or fluid, in its unit: pieces, L, kg
using Money = Exact<struct MoneyKind>;            // in the fleet's currency
using Distance = Exact<struct DistanceKind>;      // km
using Speed = Exact<struct SpeedKind>;            // km/h
using Factor = Exact<struct FactorKind>;          // a multiple: 1.3 is 130

// The amount on an hour meter that a span of clock time is.
constexpr Amount on_hour_meter(Hours hours) { return {hours.count()}; }

// `1250`, `1250.5`, `1250.25`, `-3`: as few decimals as are exact.
std::string hundredths_to_text(std::int64_t hundredths);
template <class Kind>
std::string to_text(Exact<Kind> quantity) {
  return hundredths_to_text(quantity.hundredths);
}

// With at least one decimal (`1250.0`, `11.4`, `0.25`), as people write hours.
std::string to_text_tenths(Amount amount);

// Something measured: restriction, tread depth, a temperature.
struct Measure {
  std::int64_t millionths = 0;
  friend constexpr auto operator<=>(Measure, Measure) = default;
};

std::string to_text(Measure measure);

// --- Strict readers, see parsed.h ---

Parsed<std::int64_t> parse_hundredths(std::string_view text);  // at most two decimals
Parsed<Measure> parse_measure(std::string_view text);          // at most six decimals, may be negative
Parsed<int> parse_count(std::string_view text);                // 0 to 1,000,000

// Any exact quantity, as parse_hundredths.
template <class Quantity>
Parsed<Quantity> parse_exact(std::string_view text) {
  auto read = parse_hundredths(text);
  if (!read) return {{}, std::move(read.problem)};
  return {Quantity{*read}, {}};
}
inline Parsed<Amount> parse_amount(std::string_view text) { return parse_exact<Amount>(text); }

}  // namespace service

#pragma GCC visibility pop
