// Small parts of what is learnt of a kind of machines, against an independent prototype in another language.
#include "usage/pooled_model.h"

#include <doctest/doctest.h>

#include "support/near.h"
#include "usage/ahead.h"
#include "usage/spread.h"

using namespace service;
using test::near;

TEST_CASE("how far a season may shift") {
  const auto shifts = usage::prior_phase_shifts();
  const double weights[] = {.128575, .231008, .280834, .231008, .128575};
  for (std::size_t i = 0; i < shifts.size(); ++i) {
    CHECK(shifts[i].days == -10 + 5 * static_cast<int>(i));
    CHECK(shifts.at(i).weight == near(weights[i], 1e-5));
  }
}

TEST_CASE("spread between its three lengths") {
  CHECK(usage::spread_at({4, 6, 11}, 75) == near(5.229377, 1e-6));
  CHECK(usage::spread_at({4, 6, 11}, 30) == near(4, 1e-12));
  CHECK(usage::spread_at({4, 6, 11}, 120) == near(6, 1e-12));
  CHECK(usage::spread_at({4, 6, 11}, 3) == near(4, 1e-12));
  CHECK(usage::spread_at({4, 6, 11}, 900) == near(11, 1e-12));
}

TEST_CASE("odds that an element is still in beyond its interval") {
  const usage::PooledModel kind({}, {.98, .92, 1.10, 1.03});
  CHECK(kind.unserviced_at(.5) == near(.999743, 1e-5));
  CHECK(kind.unserviced_at(.9) == near(.848504, 1e-5));
  CHECK(kind.unserviced_at(1) == near(.5, 1e-9));
  CHECK(kind.unserviced_at(1.05) == near(.321665, 1e-5));
  CHECK(kind.unserviced_at(1.2) == near(.054727, 1e-4));
  CHECK(kind.unserviced_at(1.6) == near(.03, 1e-9));
  CHECK(usage::PooledModel({}, {.98}, false).unserviced_at(3) == near(1, 1e-12));  // nobody writes services down
}
