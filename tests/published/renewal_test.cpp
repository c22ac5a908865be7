// The mean number of services to come, by simulation, against renewal theory.
#include <doctest/doctest.h>

#include <cmath>

#include "support/renewals.h"

using test::Renewals;
using test::renewals;

TEST_CASE("Erlang lives of two stages: rate t / 2 - 1/4 + exp(-2 rate t) / 4") {
  // D. R. Cox, Renewal Theory (1962), the renewal function for special Erlangian lives of two stages; from memory, and
  // without the number of its equation. It follows from h*(s) = f*(s) / (1 - f*(s)) with f*(s) = (rate / (rate + s))^2.
  // The quarter is what a constant rate gets wrong, and is far outside of the simulation's error. Two jobs fall on a
  // day once in 5,000 days.
  constexpr double rate = 0.02;
  for (const int days : {100, 400, 800}) {
    CAPTURE(days);
    const double t = rate * days;
    const double expected = t / 2 - 0.25 + 0.25 * std::exp(-2 * t);
    const Renewals got = renewals(2, rate, days);
    CHECK(std::abs(got.mean - expected) < 4 * got.error + 0.01 * expected);
    CHECK(got.error < 0.06);
    CHECK(4 * got.error + 0.01 * expected < 0.25);
  }
}

TEST_CASE("after long enough: t / mean + (variance - mean^2) / (2 mean^2)") {
  // The asymptote of the renewal function: W. L. Smith (1954), and Cox 1962; from memory. Of three stages the mean is
  // 3 / rate and the variance 3 / rate^2, so that a third of a service is missing.
  constexpr double rate = 0.02;
  constexpr int days = 600;
  constexpr double mean = 3 / rate;
  constexpr double variance = 3 / (rate * rate);
  constexpr double shift = (variance - mean * mean) / (2 * mean * mean);
  const Renewals got = renewals(3, rate, days);
  const double expected = days / mean + shift;
  CHECK(std::abs(got.mean - expected) < 4 * got.error + 0.01 * expected);
  CHECK(4 * got.error + 0.01 * expected < -shift);
}
