// What is known of a meter: readings, interpolation, changes of the meter, and the ends of what is known.
#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "support/world.h"

using service::Basis;
using service::MeterHistory;
using test::day;
using test::text_or_none;
using test::World;

namespace {

const std::string oil = "  oil: {do: Oil, every: {hours: 250}}\n";
const std::string two_meters = "meters: {engine: {unit: h}, separator: {unit: h}}\n";

World bought(const std::string& start = "bought: 2020-01-01", const std::string& meters = "") {
  return World(oil, start, "", meters);
}

MeterHistory history(const World& world, std::string_view as_of = "2030-01-01", std::string_view meter = "engine") {
  const auto all = service::meter_histories(world.snapshot(as_of), *world.fleet().machine("m"));
  const auto found = all.find(meter);
  const bool has_the_meter = found != all.end();
  REQUIRE(has_the_meter);
  return found->second;
}

std::string known(const World& world, std::string_view on, std::string_view meter = "engine") {
  return text_or_none(history(world, "2030-01-01", meter).on(day(on)));
}

std::string first_day_at(const World& world, std::string_view level) {
  return text_or_none(history(world).first_day_at(test::amount(level)));
}

}  // namespace

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
  CHECK(history(world).doubts().empty());
  CHECK(history(world).knots().size() == 2);
}

TEST_CASE("two equal readings on a day are no contradiction") {
  World world = bought();
  world.reading("2024-01-05", "110");
  world.reading("2024-01-05", "110");
  CHECK(known(world, "2024-01-05") == "110");
  CHECK(history(world).doubts().empty());
}

TEST_CASE("the order in which readings were entered does not matter where their days differ") {
  World world = bought();
  world.reading("2024-01-21", "200");
  world.reading("2024-01-01", "100");
  world.reading("2024-01-11", "120");
  CHECK(known(world, "2024-01-06") == "110");
  CHECK(known(world, "2024-01-16") == "160");
  CHECK(history(world).doubts().empty());
}

TEST_CASE("a change of the meter starts a segment and usage goes on") {
  World world = bought();
  world.reading("2024-01-01", "100");
  world.meter_change("2024-01-05", "110", "5");
  world.reading("2024-01-09", "15");
  CHECK(known(world, "2024-01-05") == "110");
  CHECK(known(world, "2024-01-03") == "105");  // half way to what the old meter showed last
  CHECK(known(world, "2024-01-07") == "115");
  CHECK(known(world, "2024-01-09") == "120");  // 110 + (15 - 5)
  CHECK(history(world).doubts().empty());
}

TEST_CASE("a meter that was changed for one which shows more does not add use") {
  World world = bought();
  world.reading("2024-01-01", "100");
  world.meter_change("2024-01-01", "100", "4000");
  world.reading("2024-01-11", "4010");
  CHECK(known(world, "2024-01-11") == "110");
}

TEST_CASE("use goes on through several changes of the meter") {
  World world = bought("in-service: {on: 2024-01-01, at: 0}");
  world.meter_change("2024-02-01", "300", "0");
  world.reading("2024-03-01", "50");
  world.meter_change("2024-04-01", "80", "10");
  world.reading("2024-05-01", "30");
  CHECK(known(world, "2024-03-01") == "350");  // 300 + 50
  CHECK(known(world, "2024-05-01") == "400");  // 300 + 80 + (30 - 10)
}

TEST_CASE("a meter that rolled over goes on counting") {
  World world = bought("bought: {on: 2024-01-01, at: 9950}", "meters: {engine: {unit: h, rolls-over-at: 10000}}\n");
  world.meter_change("2024-02-10", "10000", "0");
  world.reading("2024-02-10", "12");
  CHECK(known(world, "2024-02-10") == "10012");
  CHECK(known(world, "2024-01-21") == "9981");  // half of the 40 days: 9950 + 62 / 2
  CHECK(history(world).doubts().empty());
}

TEST_CASE("a change of one meter leaves the others alone") {
  World world = bought("in-service: {on: 2024-01-01, at: 0}", two_meters);
  world.reading("2024-02-01", "100");
  world.reading("2024-02-01", "40", "separator");
  world.meter_change("2024-02-02", "40", "0", "separator");
  world.reading("2024-03-01", "130");
  world.reading("2024-03-01", "10", "separator");
  CHECK(known(world, "2024-03-01") == "130");
  CHECK(known(world, "2024-03-01", "separator") == "50");
}

TEST_CASE("a change of the meter that was entered in two books counts once") {
  World world = bought();
  world.reading("2024-01-01", "100");
  world.meter_change("2024-01-05", "110", "0");
  world.meter_change("2024-01-05", "110", "0");
  world.reading("2024-01-09", "10");
  CHECK(known(world, "2024-01-09") == "120");
  CHECK(history(world).doubts().empty());
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

TEST_CASE("a level is told as the meter now on the machine shows it") {
  // Replaced at 4250.5 by a new one at 0: usage 5000 is 749.5 on it.
  World world("  t: {do: T, every: {hours: 1000}}\n", "bought: {on: 2020-01-01, at: 4000}");
  world.done("t", "2020-01-01", "4000");
  world.meter_change("2024-01-10", "4250.5", "0");
  world.reading("2024-02-01", "30");
  CHECK(test::text_or_none(test::limb(world.point("2024-02-01", "t"), service::LimbKind::usage).due_at) == "5000");
  CHECK(test::text_or_none(test::limb(world.point("2024-02-01", "t"), service::LimbKind::usage).due_shown) == "749.5");
  // Rolls over at 10000: 10100 of usage will be 100 on the glass.
  World round("  t: {do: T, every: {hours: 250}}\n",
              "bought: {on: 2020-01-01, at: 9850}, meters: {engine: {unit: h, rolls-over-at: 10000}}");
  round.done("t", "2020-01-02", "9850");
  CHECK(test::text_or_none(test::limb(round.point("2020-01-03", "t"), service::LimbKind::usage).due_shown) == "100");
}
