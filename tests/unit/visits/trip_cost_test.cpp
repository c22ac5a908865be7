// What a service costs over the span of days in which it may come due, and how long somebody can be at a site. The
// figures were worked out with another program's exact fractions.
#include "visits/trip_cost.h"

#include <doctest/doctest.h>

#include "unit/visits/estate.h"
#include "visits/trip_days.h"

using namespace service;
using namespace service::visits;
using namespace service::visits::trip;
using test::day;

namespace {

SpanCost span_cost(std::optional<Day> p10, std::optional<Day> p50, std::optional<Day> p90, std::string_view as_of) {
  Point point;
  point.due_on = day("2026-05-01");
  point.due_span = {p10, p50, p90};
  point.fitted = Fitted{};
  point.fitted->on = {day("2025-05-01"), day("2025-05-01")};
  const PointWorth worth{day("2026-05-01"), 365, Money{10000}, Money{30000}};
  return {point, worth, day(as_of)};
}

}  // namespace

TEST_CASE("the three-point rule takes the life of each end of the span") {
  const SpanCost cost = span_cost(day("2026-04-21"), day("2026-05-01"), day("2026-05-11"), "2026-04-01");
  const auto early = [&](std::string_view on) { return cost.early(day(on)).hundredths; };
  const auto late = [&](std::string_view on) { return cost.late(day(on)).hundredths; };
  CHECK(early("2026-04-15") == 434);
  CHECK(late("2026-04-15") == 0);
  CHECK(early("2026-04-25") == 194);
  CHECK(late("2026-04-25") == 68);
  CHECK(early("2026-05-01") == 80);
  CHECK(late("2026-05-01") == 171);
  CHECK(early("2026-05-11") == 0);
  CHECK(late("2026-05-11") == 570);
  CHECK(late("2026-05-20") == 1083);
  // What is lost already is not charged again.
  const SpanCost since = span_cost(day("2026-04-21"), day("2026-05-01"), day("2026-05-11"), "2026-04-24");
  CHECK(since.late(day("2026-05-11")).hundredths == 519);
}

TEST_CASE("without a span its one day counts, and a late end that nobody can tell is five years away") {
  const SpanCost one_day = span_cost({}, {}, {}, "2026-04-01");
  CHECK(one_day.early(day("2026-04-21")).hundredths == 274);  // 100.00 x 10 / 365
  CHECK(one_day.late(day("2026-05-02")).hundredths == 55);    // 300.00 x 731 / 399675
  CHECK(one_day.early(day("2026-05-01")).hundredths == 0);
  const SpanCost open = span_cost(day("2026-04-21"), day("2026-05-01"), {}, "2026-04-01");
  CHECK(open.early(day("2026-05-01")).hundredths == 2494);
}

TEST_CASE("a half is rounded up once, over the whole span") {
  Point point;
  point.due_on = day("2026-05-11");
  point.fitted = Fitted{};
  point.fitted->on = {day("2026-05-01"), day("2026-05-01")};
  const SpanCost cost(point, {day("2026-05-11"), 10, Money{5}, Money{}}, day("2026-05-01"));
  CHECK(cost.early(day("2026-05-10")).hundredths == 1);  // 0.5
  CHECK(cost.early(day("2026-05-08")).hundredths == 2);  // 1.5
}

TEST_CASE("what is compared falls until one day, rises from then on, and is the money to far below a penny") {
  const SpanCost cost = span_cost(day("2026-04-21"), day("2026-05-01"), day("2026-05-11"), "2026-04-01");
  bool rises = false;
  Cost before = cost.compared(day("2026-04-01"));
  for (int i = 1; i < 80; ++i) {
    const Day on = day("2026-04-01") + std::chrono::days{i};
    const Cost now = cost.compared(on);
    rises = rises || now > before;
    CHECK((now > before) == rises);
    before = now;
    const Money printed = cost.early(on) + cost.late(on);
    CHECK((now >= (printed.hundredths - 1) * one_penny));
    CHECK((now <= (printed.hundredths + 1) * one_penny));
  }
  CHECK(rises);
}

TEST_CASE("on which days somebody can be at a site, and for how long") {
  const estate::Estate place;
  const Fleet& fleet = place.world.fleet();
  WeekAsk ask{day("2026-05-03")};
  ask.days = 9;
  const auto crew_days = crew_days_of(fleet, ask);
  const auto days = trip_days(fleet, crew_days, *fleet.site("holm"), {}, 0);
  REQUIRE(days.size() == 3);  // Monday, Tuesday, and Monday again: off from the 6th to the 8th
  CHECK(days[1].on == day("2026-05-05"));
  // There at 07:53, away by 15:37, shut from 12:00 to 13:00; ten minutes of setting up.
  CHECK(days[0].cheapest().room == 240 + 157 - 10);
  CHECK(days[0].longest_stay() == 240 - 10);  // before noon
  CHECK(days[0].cheapest().trip.cost.hundredths == 6109);
  CHECK(trip_days(fleet, crew_days, *fleet.site("holm"), {}, 231).empty());
  // Shut on the first Monday; the van is away for eight hours at most.
  const auto beck = trip_days(fleet, crew_days, *fleet.site("beck"), {}, 0);
  REQUIRE(beck.size() == 2);
  CHECK(beck[0].on == day("2026-05-05"));
  CHECK(beck[0].longest_stay() == 480 - 44 - 15);
  CHECK(trip_days(fleet, crew_days, *fleet.site("beck"), {{"pressure"}, 1}, 0).empty());
  CHECK((first_day(days, day("2026-05-05"), 60) == 1));
  CHECK((first_day(days, day("2026-05-06"), 60) == 2));
  CHECK_FALSE(first_day(days, day("2026-05-12"), 60).has_value());
  CHECK_FALSE(first_day(days, day("2026-05-03"), 400).has_value());
}

TEST_CASE("a site that opens when nobody can be there has no day") {
  estate::Texts texts;
  texts.sites =
      std::string(texts.sites).replace(texts.sites.find("\"08:00-12:00\", \"13:00-17:00\""), 28, "\"06:00-07:50\"");
  const estate::Estate place(texts);
  const Fleet& fleet = place.world.fleet();
  const auto crew_days = crew_days_of(fleet, WeekAsk{day("2026-05-03")});
  CHECK(trip_days(fleet, crew_days, *fleet.site("holm"), {}, 0).empty());
}
