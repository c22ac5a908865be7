// The variance of ten percent around a scheduled service: US Army DA PAM 750-8 (22 Aug 2005), chapter 3, the paragraph
// on DD Form 314, item (h), with the examples of the Army's technical bulletins of the series TB 43-PS.
//
// derived: the rule was read, the days or hours are ours.
#include <doctest/doctest.h>

#include <array>
#include <string>
#include <string_view>

#include "support/world.h"

using service::LimbKind;
using service::Standing;
using test::limb;
using test::World;

namespace {

struct Row {
  std::string_view done;
  std::string_view next;
  std::string_view what;
};

// Done at 1000 h, so that the next is due at 1250 h.
World hours(const std::string& keys, const std::string& fleet = "") {
  World world("  service: {do: Service, every: {hours: 250}" + keys + "}\n", "bought: {on: 2020-01-01, at: 900}",
              fleet);
  world.done("service", "2020-02-01", "1000");
  return world;
}

// The last one so that the next, 180 days later, is due on 17 April 2006.
World half_year() {
  World world("  service: {do: Service, every: {days: 180}, grace: 10%, counts-from: due}\n", "bought: 2000-01-01");
  world.done("service", "2005-10-19");
  return world;
}

Standing standing_at(World world, std::string_view hours) {
  world.reading("2020-08-01", hours);
  return world.point("2020-08-01", "service").standing;
}

}  // namespace

TEST_CASE("ten percent of the days in the interval") {
  // TB 43-PS-580 (March 2001): quarterly 90 days and 9, semiannual 180 and 18, annual 360 and 36.
  for (const auto& [days, grace] : {std::pair{90, 9}, {180, 18}, {360, 36}}) {
    World world("  s: {do: Service, every: {days: " + std::to_string(days) + "}, grace: 10%}\n", "bought: 2000-01-01");
    world.done("s", "2005-01-01");
    CHECK(limb(world.point("2005-01-02", "s"), LimbKind::calendar).grace_days == grace);
  }
}

TEST_CASE("a semiannual service due on 17 April 2006 may be done until 5 May") {
  // TB 43-PS-636 (Nov 2005); that it is late the day after follows from item (h)4.
  const World world = half_year();
  CHECK(test::text_or_none(world.point("2006-03-01", "service").due_on) == "2006-04-17");
  CHECK(world.point("2006-05-05", "service").standing == Standing::due);
  CHECK(world.point("2006-05-06", "service").standing == Standing::overdue);
}

TEST_CASE("inside the window the next is counted from the scheduled day, outside from the actual one") {
  // Item (h)3; the window from 30 March to 5 May is that of TB 43-PS-636. The next days are derived.
  constexpr std::array days{
      Row{"2006-05-05", "2006-10-14", "last day of the window"},
      Row{"2006-05-06", "2006-11-02", "a day late"},
      Row{"2006-03-30", "2006-10-14", "first day of the window"},
      Row{"2006-03-29", "2006-09-25", "a day early"},
  };
  for (const Row& row : days) {
    CAPTURE(row.what);
    World world = half_year();
    world.done("service", row.done);
    CHECK(test::text_or_none(world.point("2006-05-07", "service").due_on) == std::string(row.next));
  }
}

TEST_CASE("the same method for hours") {
  // Items (h)1 and (h)3; hours derived: due at 1250, window 1225 to 1275.
  constexpr std::array rows{
      Row{"1275", "1500", "end of the window"},
      Row{"1276", "1526", "an hour late"},
      Row{"1225", "1500", "start of the window"},
      Row{"1224", "1474", "an hour early"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    World world = hours(", grace: 10%, counts-from: due");
    world.done("service", "2020-08-01", row.done);
    CHECK(test::text_or_none(limb(world.point("2020-08-02", "service"), LimbKind::usage).due_at) ==
          std::string(row.next));
  }
}

TEST_CASE("past the ten percent it is overdue, at it not yet") {
  // Item (h)4; hours derived.
  const World world = hours(", grace: 10%");
  CHECK(standing_at(world, "1275") == Standing::due);
  CHECK(standing_at(world, "1275.1") == Standing::overdue);
}

TEST_CASE("the equipment's own table beats the variance, and may allow none") {
  // Item (h)2; hours derived. The variance is the fleet's, the task says its own.
  CHECK(standing_at(hours("", "grace: 10%\n"), "1251") == Standing::due);
  CHECK(standing_at(hours(", grace: {hours: 0}", "grace: 10%\n"), "1251") == Standing::overdue);
}
