// Values that are possible and yet unlike their meter: when one is doubted, and how a doubt ends.
#include <doctest/doctest.h>

#include <string>
#include <string_view>
#include <vector>

#include "unit/usage/known.h"
#include "usage/slips.h"

using service::Doubt;
using test::amount;
using test::day;
using test::text_or_none;
using test::World;
using usage_test::bought;

namespace {

std::vector<Doubt> doubts(const World& world, std::string_view as_of = "2030-01-01") {
  const auto snapshot = world.snapshot(as_of);
  const auto& machine = *snapshot.fleet().machine("m");
  return service::standing_doubts(snapshot.fleet(), machine, *machine.first_meter(), snapshot.facts_of("m"));
}

// The values that are doubted, as the meter showed them.
std::string doubted(const World& world, std::string_view as_of = "2030-01-01") {
  std::string text;
  for (const Doubt& doubt : doubts(world, as_of)) text += service::to_text(doubt.shown) + ' ';
  return text;
}

// About 10 h a week from the first of January on, read every Monday.
World weekly(int weeks) {
  World world = bought();
  for (int week = 0; week <= weeks; ++week) {
    world.reading(service::to_text(day("2025-01-06") + std::chrono::days{7 * week}),
                  std::to_string(1000 + 10 * week + week % 3));
  }
  return world;
}

}  // namespace

TEST_CASE("an hour meter that ran over 16 h a day is doubted from its first step on") {
  World world = bought();
  world.reading("2026-01-01", "100");
  world.reading("2026-01-03", "148");  // 48 h in two days, and the first may be worked too
  CHECK(doubted(world).empty());
  world.reading("2026-01-05", "196.1");
  CHECK(doubted(world) == "196.1 ");
  const auto found = doubts(world);
  CHECK(found.front().earlier.has_value());
  CHECK(text_or_none(found.front().from) == "2026-01-03");
  CHECK(service::to_text(found.front().used) == "48.1");
  CHECK_FALSE(found.front().p50.has_value());  // two days of readings say nothing of what to expect
}

TEST_CASE("behind a value that was read without its tenths a doubt names the values that were written and that hold") {
  World world = bought("bought: {on: 2025-12-31, at: 90}");
  world.reading("2026-01-01", "100.7");
  world.reading("2026-01-02", "100");
  world.reading("2026-01-03", "200.7");
  REQUIRE(doubted(world) == "200.7 ");
  CHECK(service::to_text(doubts(world).front().shown_before) == "100.7");
  CHECK(service::to_text(doubts(world).front().used) == "100");
  World again = bought("bought: {on: 2025-12-31, at: 90}");
  again.reading("2026-01-01", "100.7");
  again.reading("2026-01-02", "100");
  again.reading("2026-01-03", "200");
  CHECK(doubted(again) == "200 ");
  World changed = bought();
  changed.reading("2026-01-01", "100.7");
  changed.meter_change("2026-01-02", "100", "5");  // read without its tenths, too
  changed.reading("2026-01-03", "85");
  CHECK(doubted(changed) == "85 ");
}

TEST_CASE("use on the bought day is measured from the value of that day") {
  World world = bought("bought: {on: 2026-01-01, at: 90}");
  world.reading("2026-01-01", "106");
  CHECK(doubted(world).empty());
  world.reading("2026-01-01", "106.1");
  CHECK(doubted(world).empty());  // in two steps
  World at_once = bought("bought: {on: 2026-01-01, at: 90}");
  at_once.reading("2026-01-01", "106.1");
  CHECK(doubted(at_once) == "106.1 ");
}

TEST_CASE("a machine that works in shifts does so again") {
  World world = bought();
  world.reading("2026-01-01", "0");
  world.reading("2026-01-02", "40", "engine").sure = true;
  world.reading("2026-01-03", "45");
  world.reading("2026-01-04", "50");
  world.reading("2026-01-05", "90");  // one of three earlier steps was so long
  CHECK(doubted(world).empty());
  World seldom = bought();
  seldom.reading("2026-01-01", "0");
  seldom.reading("2026-01-02", "40", "engine").sure = true;
  for (int i = 3; i <= 5; ++i) seldom.reading("2026-01-0" + std::to_string(i), std::to_string(42 + i));
  seldom.reading("2026-01-06", "90");  // one of four
  CHECK(doubted(seldom) == "90 ");
}

TEST_CASE("a digit swapped, doubled or misread is doubted once the machine's own readings span 120 days") {
  for (const int weeks : {17, 18}) {  // 119 and 126 days
    const char* const expected = weeks == 17 ? "" : "1890 ";
    CAPTURE(weeks);
    World world = weekly(weeks);
    // A fortnight later, where about 1198 would be right.
    world.reading(service::to_text(day("2025-01-06") + std::chrono::days{7 * weeks + 47}), "1890");
    CHECK(doubted(world) == expected);
  }
  World world = weekly(60);
  world.reading("2026-03-09", "1610");  // as usual, and misread: 1710
  CHECK(doubted(world).empty());
  World misread = weekly(60);
  misread.reading("2026-03-09", "1710");
  REQUIRE(doubted(misread) == "1710 ");
  const Doubt doubt = doubts(misread).front();
  REQUIRE(doubt.p50.has_value());
  CHECK(*doubt.p10 <= *doubt.p50);
  CHECK(*doubt.p50 <= *doubt.p90);
  CHECK(*doubt.p90 < amount("1710"));
  REQUIRE(doubt.likely.has_value());
  CHECK(*doubt.likely >= amount("1600"));
  CHECK(*doubt.likely <= amount("1630"));
}

TEST_CASE("little use is never doubted, and neither is use on the day of the reading before") {
  World world = weekly(30);
  world.reading("2026-06-01", "1301.5");
  CHECK(doubted(world).empty());
  World twice = weekly(30);
  twice.reading("2025-08-04", "1308");  // the day of the last reading: 1300 in the morning
  CHECK(doubted(twice).empty());
}

TEST_CASE("a doubt ends by --sure on it, or on another reading of the same value and day") {
  World world = weekly(60);
  world.reading("2026-03-09", "1710");
  REQUIRE(doubted(world) == "1710 ");
  World confirmed = world;
  confirmed.reading("2026-03-09", "1710").sure = true;
  CHECK(doubted(confirmed).empty());
  World next_day = world;
  next_day.reading("2026-03-10", "1710").sure = true;
  CHECK(doubted(next_day).empty());
  World read_higher = world;
  read_higher.reading("2026-03-10", "1730").sure = true;
  CHECK(doubted(read_higher).empty());
  World not_sure = world;
  not_sure.reading("2026-03-10", "1710");
  CHECK(doubted(not_sure) == "1710 ");
  World struck = world;
  struck.strike(struck.facts().back().id);
  CHECK(doubted(struck).empty());
}

TEST_CASE("a doubt ends by a later value above it that is not doubted itself, and not by an equal one") {
  World world = weekly(60);
  world.reading("2026-03-09", "1710");
  World equal = world;
  equal.reading("2026-03-16", "1710");
  CHECK(doubted(equal) == "1710 ");
  World above = world;
  above.reading("2026-03-16", "1720");
  CHECK(doubted(above).empty());
  CHECK(doubted(above, "2026-03-15") == "1710 ");  // on that day nobody had read on from it
  World worse = world;
  worse.reading("2026-03-16", "1999");
  CHECK(doubted(worse) == "1710 1999 ");
}

TEST_CASE(
    "a declared roll-over is no doubt, and use through a change of the meter is measured from reading to reading") {
  World world = bought("bought: 2020-01-01", "meters: {engine: {unit: h, rolls-over-at: 10000}}\n");
  world.reading("2026-01-01", "9990");
  world.meter_change("2026-01-11", "10000", "0");
  world.reading("2026-01-11", "40");
  CHECK(doubted(world).empty());
}

TEST_CASE("the slip behind a value is one step of the pen away and fits") {
  const auto behind = [](std::string_view written, std::string_view expected, std::string_view low,
                         std::string_view high) {
    return text_or_none(service::usage::slip_behind(
        amount(written), amount(expected), [&](service::Amount a) { return a >= amount(low) && a <= amount(high); }));
  };
  CHECK(behind("4884.3", "4786", "4783.7", "4790") == "4784.3");
  CHECK(behind("2380", "2078", "2077", "2100") == "2080");
  CHECK(behind("1291", "1212", "1215", "1225") == "1219");       // swapped
  CHECK(behind("12255", "1226", "1220", "1225.2") == "1225");    // doubled
  CHECK(behind("12263", "1226.3", "1220", "1230") == "1226.3");  // the point was missed
  CHECK(behind("5000", "1226", "1220", "1230") == "none");
}
