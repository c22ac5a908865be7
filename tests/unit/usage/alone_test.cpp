// The whole forecast of one machine that has no fellow, against an independent prototype in another language.
#include <doctest/doctest.h>

#include <cmath>

#include "support/near.h"
#include "support/world.h"
#include "usage/ahead.h"
#include "usage/pooled_model.h"

using namespace service;
using test::amount;
using test::day;
using test::near;

TEST_CASE("one machine alone of its kind, from its readings to the due day") {
  // In service new 2020-01-01, read on the 1st of each month to 2023-01-01: 60 h in each month April to October, 10 h
  // in the others; 250 h, fitted 2022-08-01 at 1250; asked on 2023-01-20.
  test::World world("  oil: {do: Oil, every: {hours: 250}}\n", "in-service: {on: 2020-01-01, at: 0}");
  int usage = 0;
  for (int month = 1; month <= 36; ++month) {
    const int of_year = (month - 1) % 12 + 1;
    usage += of_year >= 4 && of_year <= 10 ? 60 : 10;
    const auto next = std::chrono::year{2020} / std::chrono::month{1} / 1 + std::chrono::months{month};
    world.reading(to_text(Day{std::chrono::sys_days{next}}), std::to_string(usage));
  }
  REQUIRE(usage == 1410);
  const auto snapshot = world.snapshot("2023-01-20");
  const Machine& machine = *snapshot.fleet().machine("m");
  const auto histories = meter_histories(snapshot, machine);
  const MeterHistory& history = histories.at("engine");

  std::vector<usage::ReadingGap> gaps;
  for (std::size_t i = 1; i < history.knots().size(); ++i) {
    const Knot& from = history.knots()[i - 1];
    const Knot& to = history.knots()[i];
    gaps.push_back({from.day, to.day, static_cast<double>((to.usage - from.usage).hundredths) / 100,
                    usage::days_by_bin(from.day, to.day)});
  }
  // The prototype's own constants, where ours differ.
  usage::ForecastConstants prototype;
  prototype.loose_share = 0.04;
  prototype.least_dispersion = 0.2;
  prototype.least_spread = 0.3;
  prototype.widening = 0.6;
  const auto alone = std::make_shared<const usage::PooledModel>(std::vector<usage::Trace>{{"m", gaps, {}, {}}},
                                                                usage::Lateness{}, true, prototype);
  const auto learnt = alone->of("m");
  REQUIRE(learnt.has_value());
  CHECK(learnt->profile[0] == near(.2648, 2e-3));
  CHECK(learnt->profile[20] == near(1.5572, 2e-3));
  CHECK(learnt->profile[40] == near(1.4839, 2e-3));
  CHECK(learnt->profile[60] == near(.8758, 2e-3));
  CHECK(learnt->dispersion == near(.2, 1e-9));
  REQUIRE(learnt->rate.components.size() == 2);
  CHECK(learnt->rate.components[0].weight == near(.8020, 5e-3));
  CHECK(learnt->rate.components[0].mean() == near(1.27710, 2e-4));
  CHECK(learnt->rate.components[0].shape == near(314.17, 2e-3));
  CHECK(learnt->rate.components[1].mean() == near(1.27798, 2e-4));
  CHECK(learnt->rate.components[1].shape == near(309.99, 2e-3));
  CHECK(learnt->rate.idle == 0);
  for (const double spread : learnt->spreads) CHECK(spread == near(.33307, 2e-3));
  CHECK(.16 * std::exp(-learnt->known_years) == near(.00796048, 1e-5));
  CHECK(100 / (100 + learnt->predicted_use) == near(.088744, 5e-3));

  const auto ahead = usage::ahead_of({*learnt, alone, history, use_state(snapshot, machine), snapshot.as_of()});
  const auto plain = ahead->odds(amount("1500"), {});
  CHECK(plain->by(day("2023-05-01")).value == near(.503221, 5e-3));
  CHECK(test::text_or_none(ahead->reaches(amount("1500"), Quantile::p10)) == "2023-04-23");
  CHECK(test::text_or_none(ahead->reaches(amount("1500"), Quantile::p50)) == "2023-05-01");
  CHECK(test::text_or_none(ahead->reaches(amount("1500"), Quantile::p90)) == "2023-05-11");
  const auto odds = ahead->odds(amount("1500"), amount("250"));
  CHECK(odds->by(day("2023-05-01")).value == near(.497311, 5e-3));
  const Day end = day("2028-01-20");
  CHECK(test::text_or_none(first_day_with(*odds, Probability{.1}, snapshot.as_of(), end)) == "2023-04-23");
  CHECK(test::text_or_none(first_day_with(*odds, Probability{.5}, snapshot.as_of(), end)) == "2023-05-02");
  CHECK(test::text_or_none(first_day_with(*odds, Probability{.9}, snapshot.as_of(), end)) == "2023-05-11");

  // The same by way of the snapshot. Nobody wrote down a service here, so that none is there tells nothing.
  const auto again = learnt_from(snapshot)(
      {snapshot.fleet(), machine, *machine.first_meter(), history, use_state(snapshot, machine), snapshot.as_of()});
  CHECK(again->odds(amount("1500"), amount("250"))->by(day("2023-05-01")).value ==
        again->odds(amount("1500"), {})->by(day("2023-05-01")).value);
  CHECK(test::text_or_none(again->reaches(amount("1500"), Quantile::p50)) == "2023-05-01");
}
