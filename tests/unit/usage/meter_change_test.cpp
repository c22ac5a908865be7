// What is known of a meter that was changed or rolled over.
#include <doctest/doctest.h>

#include <string>

#include "unit/usage/known.h"

using test::text_or_none;
using test::World;
using usage_test::bought;
using usage_test::history;
using usage_test::known;
using usage_test::two_meters;

TEST_CASE("a change of the meter starts a segment and usage goes on") {
  World world = bought();
  world.reading("2024-01-01", "100");
  world.meter_change("2024-01-05", "110", "5");
  world.reading("2024-01-09", "15");
  CHECK(known(world, "2024-01-05") == "110");
  CHECK(known(world, "2024-01-03") == "105");  // half way to what the old meter showed last
  CHECK(known(world, "2024-01-07") == "115");
  CHECK(known(world, "2024-01-09") == "120");  // 110 + (15 - 5)
  CHECK(history(world).contradictions().empty());
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
  CHECK(history(world).contradictions().empty());
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
  CHECK(history(world).contradictions().empty());
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
