// What it costs to be late or early. The figures were worked out with another program's exact fractions.
#include "visits/point_cost.h"

#include <doctest/doctest.h>

#include "unit/visits/estate.h"

using namespace service;
using namespace service::visits;
using test::day;

namespace {

// `as_of` and `done` in days after the service was due.
std::int64_t late(std::int64_t pence, int life, int as_of, int done) {
  const Day due = day("2026-05-01");
  return late_cost({due, life, {}, Money{pence}}, due + std::chrono::days{as_of}, due + std::chrono::days{done})
      .hundredths;
}

std::int64_t early(std::int64_t pence, int life, int given_up) {
  const Day due = day("2026-05-01");
  return early_cost({due, life, Money{pence}, {}}, due - std::chrono::days{given_up}).hundredths;
}

}  // namespace

TEST_CASE("being late") {
  CHECK(late(29406, 365, 13, 14) == 56);
  CHECK(late(38000, 182, 13, 15) == 300);
  CHECK(late(90000, 365, 2, 11) == 1506);
  CHECK(late(38000, 181, 0, 1) == 140);  // the first day: two thirds of an even share, and a little
  CHECK(late(100000, 365, 0, 365) == 100000);
  CHECK(late(100000, 365, 40, 40) == 0);
  CHECK(late(100000, 365, -20, -3) == 0);
  CHECK(late(12345, 1, 0, 1) == 12345);
  CHECK(late(12345, 1, 0, 3) == 45265);          // beyond an interval by four thirds of an even share a day
  CHECK(late(100000, 300, 0, 600) == 233333);    // another 4/3
  CHECK(late(100000, 300, 0, 3000) == 1300000);  // nine times that
  CHECK(late(100'000'000'000, 30'000, 0, 29'999) == 99'995'555'593);
  CHECK(late(29406, 365, -5, 14) == late(29406, 365, 0, 14));
}

TEST_CASE("being late adds up from day to day, but for what is rounded") {
  for (int done = 1; done < 400; ++done) {
    const std::int64_t steps = late(777777, 365, 0, done - 1) + late(777777, 365, done - 1, done);
    CHECK(std::abs(late(777777, 365, 0, done) - steps) <= 1);
    CHECK(late(777777, 365, 0, done) > late(777777, 365, 0, done - 1));
  }
}

TEST_CASE("being early") {
  CHECK(early(9802, 365, 30) == 806);
  CHECK(early(9802, 365, 1) == 27);
  CHECK(early(2933, 184, 92) == 1467);
  CHECK(early(5, 10, 1) == 1);
  CHECK(early(15, 10, 1) == 2);
  CHECK(early(9802, 365, 0) == 0);
  CHECK(early(9802, 365, -4) == 0);
}

TEST_CASE("what a service is worth") {
  estate::Texts texts;
  texts.tractor +=
      "  grease: {do: Grease it, every: {months: 3}, takes: 7 min, fluids: {grease: 0.3 kg}, people: 2, "
      "follow-up: {look: {do: Look, within: {days: 2}, takes: 10 min}}, late: 5}\n"
      "  wash: {do: Wash it, every: {months: 12}, counts-from: earlier, takes: 10 min, late: 30}\n";
  estate::Estate place(texts);
  place.usual().done("loader", "grease", "2026-01-20");
  place.done("loader", "wash", "2021-03-01").done("loader", "wash", "2022-05-10");
  const auto list = due_list(place.world.snapshot("2026-05-03"), {day("2026-05-10")}, straight_line());
  std::set<std::string> no_price;
  const auto worth = [&](std::string_view name) {
    const auto point =
        std::find_if(list.points.begin(), list.points.end(), [&](const Point& p) { return p.name == name; });
    REQUIRE((point != list.points.end()));
    return worth_of(list, *point, no_price);
  };
  CHECK(worth("engine-oil").value.hundredths == 9802);
  CHECK(worth("engine-oil").late.hundredths == 29406);
  CHECK(worth("engine-oil").life_days == 365);
  CHECK(worth("gland").late.hundredths == 38000);
  CHECK(worth("gland").life_days == 182);
  CHECK(no_price.empty());
  CHECK(worth("grease").value.hundredths == 513);  // the hours of one crew, and no price for grease
  CHECK(worth("grease").late.hundredths == 500);
  CHECK((no_price == std::set<std::string>{"grease"}));
  CHECK(worth("grease/look").late.hundredths == 2199);  // of a check: by its own worth
  // A check is skipped altogether with the interval of its service, not with the two days it is given.
  CHECK(worth("grease/look").life_days == 90);
  // Done late and due by the due point before: 295 days, of an interval of a year.
  CHECK(worth("wash").life_days == 365);
}
