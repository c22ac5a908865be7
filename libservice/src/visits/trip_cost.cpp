#include "visits/trip_cost.h"

#include <algorithm>

namespace service::visits::trip {
namespace {

// The three-point rule: tenths that the early end, the middle and the late end of a span count.
constexpr std::array<int, 3> weights{3, 4, 3};
constexpr int all_weights = 10;

// A late end that is more than five years away is taken as five years and a day.
constexpr std::chrono::days beyond{5 * 365 + 2};

// What a day away from the wished one counts: far below all money, so that it settles only what costs the same.
constexpr Cost settling = 16;

std::array<Day, 3> ends_of(const Point& point, Day as_of) {
  const Day middle = point.due_span.p50.value_or(*point.due_on);
  return {point.due_span.p10.value_or(middle), middle,
          point.due_span.p50 && !point.due_span.p90 ? std::max(middle, as_of + beyond)
                                                    : point.due_span.p90.value_or(middle)};
}

using Shares = std::array<Fraction, 3>;

// (3 a + 4 b + 3 c) / 10, a half up. Whole parts are taken apart first, so what is left is below the product of the
// denominators: lives of up to eight hundred years fit.
std::int64_t weighted(const Shares& shares) {
  std::int64_t whole = 0;
  Fraction rest;
  for (std::size_t i = 0; i < shares.size(); ++i) {
    const Wide numerator = shares[i].numerator * weights[i];
    const Wide denominator = shares[i].denominator * all_weights;
    whole += static_cast<std::int64_t>(numerator / denominator);
    rest.numerator = rest.numerator * denominator + numerator % denominator * rest.denominator;
    rest.denominator *= denominator;
  }
  return whole + half_up(rest);
}

}  // namespace

SpanCost::SpanCost(const Point& point, const PointWorth& worth, Day as_of)
    : worths_{worth, worth, worth}, as_of_(as_of), wished_(std::max(worth.wanted_on(), as_of)) {
  const auto ends = ends_of(point, as_of);
  for (std::size_t i = 0; i < ends.size(); ++i) {
    worths_[i].due_on = ends[i];
    // What has to be done before its machine is back is late from then on, if it comes due before.
    if (worth.late_from && *worth.late_from <= ends[i]) worths_[i].late_from.reset();
    // That of a check is its service's, whenever the check itself comes due.
    if (point.follow_up == nullptr) worths_[i].life_days = interval_days_of(point, ends[i]);
  }
}

Money SpanCost::early(Day done_on) const {
  Shares shares;
  for (std::size_t i = 0; i < worths_.size(); ++i) shares[i] = early_share(worths_[i], done_on);
  return {weighted(shares)};
}

Money SpanCost::late(Day done_on) const {
  Shares shares;
  for (std::size_t i = 0; i < worths_.size(); ++i) shares[i] = late_share(worths_[i], as_of_, done_on);
  return {weighted(shares)};
}

Cost SpanCost::compared(Day done_on) const {
  constexpr Wide parts = one_penny / all_weights;
  Cost cost = settling * std::abs(days_between(wished_, done_on));
  for (std::size_t i = 0; i < worths_.size(); ++i) {
    for (const Fraction& share : {early_share(worths_[i], done_on), late_share(worths_[i], as_of_, done_on)}) {
      cost += weights[i] * (share.numerator * parts / share.denominator);
    }
  }
  return cost;
}

}  // namespace service::visits::trip
