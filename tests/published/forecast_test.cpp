// The forecast's building blocks. Values marked "scipy" were computed with scipy 1.10 (gammaincc, nbinom), the others
// with an independent prototype in another language; neither shares code with the library.
#include <doctest/doctest.h>

#include <cmath>

#include "support/world.h"
#include "usage/ahead.h"
#include "usage/gamma.h"
#include "usage/kind.h"
#include "usage/levels.h"
#include "usage/profile.h"
#include "usage/spread.h"

using namespace service;
using test::amount;
using test::day;

namespace {

doctest::Approx near(double value, double tolerance) { return doctest::Approx(value).epsilon(tolerance); }

}  // namespace

TEST_CASE("the regularised upper incomplete gamma function") {
  // scipy.special.gammaincc, equal to Boost.Math in 12 digits
  CHECK(usage::upper_gamma(12.5, 10) == near(0.746825306017, 1e-11));
  CHECK(usage::upper_gamma(100, 120) == near(0.0278637398905, 1e-11));
  CHECK(usage::upper_gamma(0.4, 2) == near(0.032852804761, 1e-10));
  CHECK(usage::upper_gamma(0.001, 1) == near(0.000219608357586, 1e-10));
}

TEST_CASE("first passage of a wear limit by a gamma process") {
  // P(T <= t) = Q(a t, b D); van Noortwijk, Reliability Engineering & System Safety 94 (2009) 2-21, from memory. For
  // whole shapes the values are Poisson sums: shape 8, 10 and 12 against 10.
  CHECK(usage::upper_gamma(0.02 * 400, 10) == near(0.2202206466, 1e-9));
  CHECK(usage::upper_gamma(0.02 * 500, 10) == near(0.4579297145, 1e-9));
  CHECK(usage::upper_gamma(0.02 * 600, 10) == near(0.6967761463, 1e-9));
  double poisson = 0;  // P(N <= 9), mean 10
  double term = std::exp(-10.0);
  for (int n = 0; n <= 9; ++n) {
    poisson += term;
    term *= 10.0 / (n + 1);
  }
  CHECK(usage::upper_gamma(10, 10) == near(poisson, 1e-12));
}

TEST_CASE("usage with an uncertain level passing 100 h") {
  // left 100 h, spread 4 h, level variance 1/50: Q(L / v, 100 / v) with v = 4 + L / 50; scipy
  const auto passed = [](double mean) {
    const double v = 4 + mean / 50;
    return usage::upper_gamma(mean / v, 100 / v);
  };
  CHECK(passed(80) == near(0.1678714152, 1e-9));
  CHECK(passed(100) == near(0.4674171081, 1e-9));
  CHECK(passed(130) == near(0.8505728586, 1e-9));
}

TEST_CASE("odds of a window under one idea of the level") {
  CHECK(usage::log_odds(20, 30, 4, 5, 6) == near(-2.1573024986, 1e-9));  // scipy.stats.nbinom.logpmf(5, 5, 6 / 13.5)
  CHECK(usage::log_odds(0, 30, 4, 5, 6) == near(-4.0546510811, 1e-9));
  CHECK(usage::log_odds(37.5, 14, 6, 3.2, 2.5) == near(-3.0190813869, 1e-9));
}

TEST_CASE("how far a season may slip") {
  const auto slips = usage::usual_slips();
  const double weights[] = {.128575, .231008, .280834, .231008, .128575};
  for (std::size_t i = 0; i < slips.size(); ++i) {
    CHECK(slips[i].days == -10 + 5 * static_cast<int>(i));
    CHECK(slips.at(i).weight == near(weights[i], 1e-5));
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
  const usage::Kind kind({}, {.98, .92, 1.10, 1.03});
  CHECK(kind.unserviced_at(.5) == near(.999743, 1e-5));
  CHECK(kind.unserviced_at(.9) == near(.848504, 1e-5));
  CHECK(kind.unserviced_at(1) == near(.5, 1e-9));
  CHECK(kind.unserviced_at(1.05) == near(.321665, 1e-5));
  CHECK(kind.unserviced_at(1.2) == near(.054727, 1e-4));
  CHECK(kind.unserviced_at(1.6) == near(.03, 1e-9));
  CHECK(usage::Kind({}, {.98}, false).unserviced_at(3) == near(1, 1e-12));  // nobody writes services down
}

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

  std::vector<usage::Stretch> stretches;
  for (std::size_t i = 1; i < history.knots().size(); ++i) {
    const Knot& from = history.knots()[i - 1];
    const Knot& to = history.knots()[i];
    stretches.push_back({from.day, to.day, static_cast<double>((to.usage - from.usage).hundredths) / 100,
                         usage::days_by_bin(from.day, to.day)});
  }
  // The prototype's own constants, where ours differ.
  usage::ForecastConstants prototype;
  prototype.loose_share = 0.04;
  prototype.least_clump = 0.2;
  prototype.least_spread = 0.3;
  prototype.widening = 0.6;
  const auto alone = std::make_shared<const usage::Kind>(std::vector<usage::Trace>{{"m", stretches, {}, {}}},
                                                         usage::Lateness{}, true, prototype);
  const auto learnt = alone->of("m");
  REQUIRE(learnt.has_value());
  CHECK(learnt->profile[0] == near(.2648, 2e-3));
  CHECK(learnt->profile[20] == near(1.5572, 2e-3));
  CHECK(learnt->profile[40] == near(1.4839, 2e-3));
  CHECK(learnt->profile[60] == near(.8758, 2e-3));
  CHECK(learnt->clump == near(.2, 1e-9));
  REQUIRE(learnt->levels.now.size() == 2);
  CHECK(learnt->levels.now[0].weight == near(.8020, 5e-3));
  CHECK(learnt->levels.now[0].mean() == near(1.27710, 2e-4));
  CHECK(learnt->levels.now[0].shape == near(314.17, 2e-3));
  CHECK(learnt->levels.now[1].mean() == near(1.27798, 2e-4));
  CHECK(learnt->levels.now[1].shape == near(309.99, 2e-3));
  CHECK(learnt->levels.idle == 0);
  for (const double spread : learnt->spreads) CHECK(spread == near(.33307, 2e-3));
  CHECK(.16 * std::exp(-learnt->known_years) == near(.00796048, 1e-5));
  CHECK(100 / (100 + learnt->predicted_use) == near(.088744, 5e-3));

  const auto ahead = usage::ahead_of({*learnt, alone, history, use_state(snapshot, machine), snapshot.as_of()});
  const auto plain = ahead->odds(amount("1500"), {});
  CHECK(plain->by(day("2023-05-01")) == near(.503221, 5e-3));
  CHECK(test::text_or_none(ahead->reaches(amount("1500"), Quantile::p10)) == "2023-04-23");
  CHECK(test::text_or_none(ahead->reaches(amount("1500"), Quantile::p50)) == "2023-05-01");
  CHECK(test::text_or_none(ahead->reaches(amount("1500"), Quantile::p90)) == "2023-05-11");
  const auto odds = ahead->odds(amount("1500"), amount("250"));
  CHECK(odds->by(day("2023-05-01")) == near(.497311, 5e-3));
  const Day end = day("2028-01-20");
  CHECK(test::text_or_none(first_day_with(*odds, .1, snapshot.as_of(), end)) == "2023-04-23");
  CHECK(test::text_or_none(first_day_with(*odds, .5, snapshot.as_of(), end)) == "2023-05-02");
  CHECK(test::text_or_none(first_day_with(*odds, .9, snapshot.as_of(), end)) == "2023-05-11");

  // The same by way of the snapshot. Nobody wrote down a service here, so that none is there tells nothing.
  const auto again = learnt_from(snapshot)(
      {snapshot.fleet(), machine, *machine.first_meter(), history, use_state(snapshot, machine), snapshot.as_of()});
  CHECK(again->odds(amount("1500"), amount("250"))->by(day("2023-05-01")) ==
        again->odds(amount("1500"), {})->by(day("2023-05-01")));
  CHECK(test::text_or_none(again->reaches(amount("1500"), Quantile::p50)) == "2023-05-01");
}
