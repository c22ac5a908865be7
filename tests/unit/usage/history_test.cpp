// What is known of a meter: readings, interpolation, and the ends of what is known.
#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "unit/usage/known.h"

using service::Basis;
using service::MeterHistory;
using test::day;
using test::text_or_none;
using test::World;
using usage_test::bought;
using usage_test::first_day_at;
using usage_test::history;
using usage_test::known;
using usage_test::two_meters;

TEST_CASE("a reading is the usage of its day") {
  World world = bought();
  world.reading("2024-01-01", "100");
  world.reading("2024-01-11", "130.55");
  CHECK(known(world, "2024-01-01") == "100");
  CHECK(known(world, "2024-01-11") == "130.55");
  CHECK(history(world).read());
}

TEST_CASE("between two readings usage is linear by day") {
  World world = bought();
  world.reading("2024-02-25", "100");
  world.reading("2024-03-06", "130");  // ten days later in a leap year, 3 h a day
  CHECK(known(world, "2024-02-26") == "103");
  CHECK(known(world, "2024-02-29") == "112");
  CHECK(known(world, "2024-03-01") == "115");
  CHECK(known(world, "2024-03-05") == "127");
}

TEST_CASE("interpolated usage is rounded to the nearest hundredth") {
  World world = bought();
  world.reading("2024-01-01", "100");
  world.reading("2024-01-04", "100.10");
  CHECK(known(world, "2024-01-02") == "100.03");  // 100 + 0.10 / 3 = 100.0333
  CHECK(known(world, "2024-01-03") == "100.07");  // 100 + 0.20 / 3 = 100.0667
}

TEST_CASE("half a hundredth is rounded away from zero") {
  World world = bought();
  world.reading("2024-01-01", "100");
  world.reading("2024-01-03", "100.01");
  CHECK(known(world, "2024-01-02") == "100.01");  // 100.005
  World longer = bought();
  longer.reading("2024-01-01", "0");
  longer.reading("2024-01-05", "0.10");
  CHECK(known(longer, "2024-01-02") == "0.03");  // 0.025
  CHECK(known(longer, "2024-01-03") == "0.05");
  CHECK(known(longer, "2024-01-04") == "0.08");  // 0.075
}

TEST_CASE("before the first known value nothing is known") {
  World world = bought();
  world.reading("2024-01-11", "100");
  CHECK(known(world, "2024-01-10") == "none");
  CHECK(known(world, "2020-01-01") == "none");
  CHECK(history(world).basis_on(day("2024-01-10")) == Basis::unknown);
}

TEST_CASE("the usage of a new or bought machine on its first day is a value to interpolate from") {
  World fresh = bought("in-service: {on: 2024-01-01, at: 0}");
  fresh.reading("2024-01-11", "100");
  CHECK(known(fresh, "2024-01-01") == "0");
  CHECK(known(fresh, "2024-01-06") == "50");
  CHECK(known(fresh, "2023-12-31") == "none");
  World used = bought("bought: {on: 2024-01-01, at: 1000}");
  used.reading("2024-01-11", "1100");
  CHECK(known(used, "2024-01-04") == "1030");
}

TEST_CASE("after the last reading the last known usage stands") {
  World world = bought();
  world.reading("2024-01-01", "100");
  world.reading("2024-01-11", "130");
  CHECK(known(world, "2024-01-12") == "130");
  CHECK(known(world, "2029-12-31") == "130");
  CHECK(history(world).basis_on(day("2024-01-12")) == Basis::last_known);
  CHECK(history(world).basis_on(day("2024-01-06")) == Basis::interpolated);
}

TEST_CASE("a machine put in service without a reading since has not been read") {
  const World world = bought("in-service: {on: 2024-01-01, at: 5}");
  CHECK_FALSE(history(world).read());
  CHECK(known(world, "2024-05-01") == "5");
}

TEST_CASE("a meter without any value is empty") {
  const World world = bought();
  CHECK(history(world).empty());
  CHECK_FALSE(history(world).read());
  CHECK(known(world, "2024-01-01") == "none");
  CHECK(first_day_at(world, "0") == "none");
}

TEST_CASE("a new machine delivered with some hours has its other meters at zero") {
  World world = bought("in-service: {on: 2024-01-01, at: 7.5}", two_meters);
  world.reading("2024-01-11", "20", "separator");
  CHECK(known(world, "2024-01-01") == "7.5");
  CHECK(known(world, "2024-01-01", "separator") == "0");
  CHECK(known(world, "2024-01-06", "separator") == "10");
}

TEST_CASE("of the other meters of a machine bought used nothing is known before they are read") {
  World world = bought("bought: {on: 2024-01-01, at: 900}", two_meters);
  CHECK(known(world, "2024-01-01") == "900");
  CHECK(known(world, "2024-02-01", "separator") == "none");
  world.reading("2024-03-01", "400", "separator");
  CHECK(known(world, "2024-02-29", "separator") == "none");
  CHECK(known(world, "2024-03-01", "separator") == "400");
}

TEST_CASE("a value that names no meter is of the machine's first meter") {
  World world = bought("bought: 2020-01-01", two_meters);
  world.reading("2024-01-01", "100");
  world.reading("2024-01-01", "33", "separator");
  CHECK(known(world, "2024-01-01") == "100");
  CHECK(known(world, "2024-01-01", "separator") == "33");
}

TEST_CASE("the value at a service is a reading, of the meter that it names") {
  World world = bought("bought: 2020-01-01", two_meters);
  world.done("oil", "2024-01-01", "100");
  world.done("oil", "2024-01-11", "120");
  world.done("oil", "2024-02-01", "50", "", "separator");
  CHECK(known(world, "2024-01-06") == "110");
  CHECK(known(world, "2024-02-01") == "120");
  CHECK(known(world, "2024-02-01", "separator") == "50");
  CHECK(history(world).read());
}

TEST_CASE("the value at a service known by its month only stands for that service and for no day") {
  World world = bought();
  world.reading("2024-01-01", "100");
  const service::FactId id = world.done("oil", "2024-02", "137").id;
  world.reading("2024-03-11", "170");          // 70 days after 1 January: 1 h a day
  CHECK(known(world, "2024-02-01") == "131");  // 31 days
  CHECK(text_or_none(history(world).usage_of(id)) == "137");
}

TEST_CASE("a value known by its month only is of the meter that was on the machine on the month's first day") {
  World world = bought();
  world.reading("2024-01-01", "5000");
  world.meter_change("2024-02-10", "5100", "0");
  const service::FactId on_the_old = world.done("oil", "2024-02", "5060").id;
  const service::FactId on_the_new = world.done("oil", "2024-03", "20").id;
  CHECK(text_or_none(history(world).usage_of(on_the_old)) == "5060");
  CHECK(text_or_none(history(world).usage_of(on_the_new)) == "5120");
}

TEST_CASE("of two readings on a day the one entered last is that day's value") {
  World world = bought();
  world.reading("2024-01-01", "100");
  world.reading("2024-01-05", "110");
  world.reading("2024-01-05", "112");
  CHECK(known(world, "2024-01-05") == "112");
  CHECK(known(world, "2024-01-03") == "106");  // half way from 100 to 112
  CHECK(history(world).contradictions().empty());
  CHECK(history(world).knots().size() == 2);
}

TEST_CASE("two equal readings on a day are no contradiction") {
  World world = bought();
  world.reading("2024-01-05", "110");
  world.reading("2024-01-05", "110");
  CHECK(known(world, "2024-01-05") == "110");
  CHECK(history(world).contradictions().empty());
}

TEST_CASE("the order in which readings were entered does not matter where their days differ") {
  World world = bought();
  world.reading("2024-01-21", "200");
  world.reading("2024-01-01", "100");
  world.reading("2024-01-11", "120");
  CHECK(known(world, "2024-01-06") == "110");
  CHECK(known(world, "2024-01-16") == "160");
  CHECK(history(world).contradictions().empty());
}

TEST_CASE("the first day on which usage had reached a level") {
  World world = bought();
  world.reading("2024-01-01", "100");
  world.reading("2024-01-11", "110");  // 1 h a day
  world.reading("2024-02-11", "110");  // and nothing for a month
  world.reading("2024-02-21", "130");  // 2 h a day
  CHECK(first_day_at(world, "105") == "2024-01-06");
  CHECK(first_day_at(world, "105.01") == "2024-01-07");
  CHECK(first_day_at(world, "110") == "2024-01-11");
  CHECK(first_day_at(world, "110.01") == "2024-02-12");
  CHECK(first_day_at(world, "112") == "2024-02-12");
  CHECK(first_day_at(world, "130") == "2024-02-21");
  CHECK(first_day_at(world, "130.01") == "none");
}

TEST_CASE("the first day at a level is the first whose own usage is there") {
  // The rounding of the one is the rounding of the other.
  World world = bought();
  world.reading("2024-01-01", "100");
  world.reading("2024-01-08", "100.09");
  const MeterHistory meter = history(world);
  for (std::int64_t level = 10'000; level <= 10'009; ++level) {
    CAPTURE(level);
    const auto reached = meter.first_day_at(service::Amount{level});
    REQUIRE(reached.has_value());
    CHECK(*meter.on(*reached) >= service::Amount{level});
    if (*reached > day("2024-01-01")) CHECK(*meter.on(*reached - std::chrono::days{1}) < service::Amount{level});
  }
}
