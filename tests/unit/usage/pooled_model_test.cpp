// Small parts of what is learnt of a kind of machines, against an independent prototype in another language.
#include "usage/pooled_model.h"

#include <doctest/doctest.h>

#include "support/near.h"
#include "usage/ahead.h"
#include "usage/spread.h"

using namespace service;
using test::near;

TEST_CASE("how far a season may shift") {
  // A normal variable of 8 days in three nodes: 0 and 8 sqrt(3) on both sides.
  const auto shifts = usage::prior_phase_shifts();
  REQUIRE(shifts.size() == 3);
  CHECK(shifts[0].days == -14);
  CHECK(shifts[1].days == 0);
  CHECK(shifts[2].days == 14);
  CHECK(shifts[0].weight == near(1.0 / 6, 1e-12));
  CHECK(shifts[1].weight == near(2.0 / 3, 1e-12));
  CHECK(shifts[2].weight == near(1.0 / 6, 1e-12));
}

TEST_CASE("the doubt about a rate between its two lengths") {
  const usage::Spread spread{1, {0.04, 0.08}};
  CHECK(usage::doubt_at(spread, 20) == near(0.04, 1e-12));
  CHECK(usage::doubt_at(spread, 120) == near(0.04, 1e-12));
  CHECK(usage::doubt_at(spread, 242.5) == near(0.06, 1e-12));
  CHECK(usage::doubt_at(spread, 365) == near(0.08, 1e-12));
  CHECK(usage::doubt_at(spread, 900) == near(0.08, 1e-12));
}

TEST_CASE("what strays beyond the lumps") {
  // Two spans, 10 expected in each, 4 and 18 came: squares 36 + 64. Lumps of 2 explain 2 x 20 of them.
  usage::Errors errors;
  errors.scatter = {100, 20, 2};
  errors.mean_squares = 200;
  CHECK(usage::excess(errors, 2).share == near(60.0 / 200, 1e-12));
  CHECK(usage::excess(errors, 2).spans == 2);
  CHECK(usage::excess({}, 2).spans == 0);
}

TEST_CASE("a dispersion leans on another as if that had been seen in so many windows") {
  // Three windows of mean 5 with a squared error of 10 each: 2 by themselves; with two windows of 7 beside them
  // (30 + 2 x 5 x 7) / (15 + 10).
  CHECK(usage::leaning({30, 15, 3}, 7, 2) == near(4, 1e-12));
  CHECK(usage::leaning({30, 15, 3}, 7, 0) == near(2, 1e-12));
  CHECK(usage::leaning({}, 7, 2) == near(7, 1e-12));
}

TEST_CASE("odds that an element is still in beyond its interval") {
  const usage::LateServices kind({.98, .92, 1.10, 1.03});
  CHECK(kind.unserviced_at(.5) == near(.999743, 1e-5));
  CHECK(kind.unserviced_at(.9) == near(.848504, 1e-5));
  CHECK(kind.unserviced_at(1) == near(.5, 1e-9));
  CHECK(kind.unserviced_at(1.05) == near(.321665, 1e-5));
  CHECK(kind.unserviced_at(1.2) == near(.054727, 1e-4));
  CHECK(kind.unserviced_at(1.6) == near(.03, 1e-9));
  CHECK(usage::LateServices({.98}, false).unserviced_at(3) == near(1, 1e-12));  // nobody writes services down
}
