// What bounds tell of odds, against the odds themselves.
#include <doctest/doctest.h>

#include <memory>

#include "support/world.h"

using namespace service;
using test::amount;
using test::day;

TEST_CASE("odds that bounds tell to be below even ones are") {
  // A machine that works in summer alone, read each fortnight; levels near and far, days near and far.
  test::World world("  oil: {do: Oil, every: {hours: 250}}\n", "bought: 2022-01-01");
  std::int64_t hours = 1000;
  for (Day on = day("2022-01-03"); on <= day("2026-06-01"); on += std::chrono::days{14}) {
    const auto month = static_cast<unsigned>(std::chrono::year_month_day{on}.month());
    if (month >= 5 && month <= 9) hours += 20 + (on.time_since_epoch().count() * 7919) % 45;
    world.reading(to_text(on), std::to_string(hours));
  }
  const Snapshot snapshot = world.snapshot("2026-06-15");
  const Machine& machine = *snapshot.fleet().machine("m");
  const auto histories = meter_histories(snapshot, machine);
  const auto aheads = aheads_of(snapshot, machine, histories, learnt_from(snapshot));
  const UsageAhead& ahead = *aheads.at("engine");
  int told = 0;
  int even = 0;
  int not_come = 0;
  for (std::int64_t left = 1; left < 900; left += 7) {
    for (const std::optional<Amount> every : {std::optional<Amount>{}, std::optional{amount("250")}}) {
      const auto odds = ahead.odds(Amount{(hours + left) * 100}, every);
      for (Day on = day("2026-06-16"); on < day("2028-06-01"); on += std::chrono::days{9}) {
        CAPTURE(left);
        CAPTURE(to_text(on));
        const bool below = !odds->may_be_even(on);
        if (below) CHECK(odds->by(on).value < 0.5);
        told += below ? 1 : 0;
        even += odds->by(on) >= Probability{0.5} ? 1 : 0;
        const Amount level{(hours + left) * 100};
        if (!ahead.may_have_come_to(level, on)) {
          CHECK(*ahead.on(on, Quantile::p50) < level);
          ++not_come;
        }
      }
    }
  }
  CHECK(told > 1000);
  CHECK(even > 1000);
  CHECK(not_come > 1000);
}
