// Interval rules as regulations and public-domain service manuals state them. Each row names where the rule was read.
// "derived": dates or hours of our own that follow from the rule quoted. Law is used for the meaning of its intervals;
// nothing here is legal advice.
#include <doctest/doctest.h>

#include <array>
#include <string>

#include "support/world.h"

using service::LimbKind;
using test::limb;
using test::told;
using test::World;

namespace {

// An examination by months on a machine first seen on `done`.
World examination(const std::string& every, const std::string& more = "") {
  return World("  exam: {do: Examine, every: " + every + more + "}\n", "bought: 2000-01-01");
}

std::string due_after(World world, const std::string& done) {
  world.done("exam", done);
  return test::text_or_none(world.point("2030-01-01", "exam").due_on);
}

}  // namespace

TEST_CASE("calendar months run to the last day of the month") {
  // 14 CFR 91.409(a): within the preceding 12 calendar months. Rows derived; the 2007 row is a restatement of the
  // reading (done on any day of June 2007, good through 30 June 2008).
  const auto world = examination("{months: 12}", ", until: month-end");
  CHECK(due_after(world, "2024-03-15") == "2025-03-31");
  CHECK(due_after(world, "2023-02-28") == "2024-02-29");
  CHECK(due_after(world, "2024-03-01") == "2025-03-31");
  CHECK(due_after(world, "2024-03-31") == "2025-03-31");
  CHECK(due_after(world, "2007-06-06") == "2008-06-30");
  // 14 CFR 91.411(a)(1), 91.413(a): 24 calendar months; derived.
  const auto two_years = examination("{months: 24}", ", until: month-end");
  CHECK(due_after(two_years, "2020-07-22") == "2022-07-31");
  CHECK(due_after(two_years, "2022-02-10") == "2024-02-29");
}

TEST_CASE("a calendar month's rest is still due and the first day after it is overdue") {
  // 14 CFR 91.409(a), derived: valid through 2008-06-30, not on 2008-07-01.
  auto world = examination("{months: 12}", ", until: month-end");
  world.done("exam", "2007-06-06");
  CHECK(told(world.point("2008-06-29", "exam")) == "coming calendar 2008-06-30");
  CHECK(told(world.point("2008-06-30", "exam")) == "due calendar 2008-06-30");
  CHECK(told(world.point("2008-07-01", "exam")) == "overdue calendar 2008-06-30");
}

TEST_CASE("months that are not calendar months are exact to the day") {
  // 49 CFR 396.17(c), periodic inspection within the preceding 12 months; derived: the earlier of two units decides.
  const auto year = examination("{months: 12}");
  CHECK(due_after(year, "2024-05-10") == "2025-05-10");
  CHECK(due_after(year, "2024-01-20") == "2025-01-20");
  // LOLER 1998 (SI 1998/2307) reg. 9(3): six months for lifting persons, twelve for other equipment; derived.
  CHECK(due_after(examination("{months: 6}"), "2023-08-31") == "2024-02-29");
  CHECK(due_after(year, "2023-08-31") == "2024-08-31");
  // NFPA 110 (2010 edition) 8.4.9, every 36 months; derived.
  CHECK(due_after(examination("{months: 36}"), "2023-02-15") == "2026-02-15");
}

TEST_CASE("ninety days are not three months") {
  // 49 CFR 396.3(a)(2): at least every 90 days; derived.
  CHECK(due_after(examination("{days: 90}"), "2024-03-01") == "2024-05-30");
  CHECK(due_after(examination("{months: 3}"), "2024-03-01") == "2024-06-01");
}

TEST_CASE("a hundred hours, and the excess counts in the next hundred") {
  // 14 CFR 91.409(b): within the preceding 100 h; at most 10 h over while en route, and the excess counts.
  const std::string tasks = "  hundred: {do: Inspect, every: {hours: 100}, grace: {hours: 10}, counts-from: earlier}\n";
  struct Row {
    std::string_view done;
    std::string_view next;
    std::string_view source;
  };
  const std::array rows{
      Row{"1106", "1200", "derived: 6 h over, 94 h to the next"},
      Row{"1110", "1200", "derived: the most that is allowed"},
      Row{"1090", "1190", "derived: an early one re-bases"},
      Row{"1104", "1200", "study cards for the mechanic's test: 4 h over, 96 h to the next"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.source);
    World world(tasks, "bought: {on: 2019-01-01, at: 900}");
    world.done("hundred", "2020-01-01", "1000");
    world.done("hundred", "2020-06-01", row.done);
    CHECK(test::text_or_none(limb(world.point("2020-06-02", "hundred"), LimbKind::usage).due_at) ==
          std::string(row.next));
  }
  World world(tasks, "bought: {on: 2019-01-01, at: 900}");
  world.done("hundred", "2020-01-01", "1000");
  world.reading("2020-05-01", "1099.9");
  CHECK(world.point("2020-05-01", "hundred").standing == service::Standing::coming);
  world.reading("2020-05-02", "1100.1");
  CHECK(told(world.point("2020-05-02", "hundred")) == "due usage 2020-05-02");
  world.reading("2020-06-01", "1110.1");
  CHECK(world.point("2020-06-01", "hundred").standing == service::Standing::overdue);
}

TEST_CASE("an annual inspection stands in for the hundred hours, and not the other way round") {
  // 14 CFR 91.409(b) asks for "an annual or 100-hour" inspection; the second half from memory.
  World world(
      "  annual: {do: Annual, every: {months: 12}, until: month-end, covers: [hundred]}\n"
      "  hundred: {do: Hundred, every: {hours: 100}}\n",
      "bought: {on: 2023-01-01, at: 900}");
  world.done("annual", "2024-03-15", "1050");
  CHECK(test::text_or_none(limb(world.point("2024-03-16", "hundred"), LimbKind::usage).due_at) == "1150");
  CHECK(test::text_or_none(world.point("2024-03-16", "annual").due_on) == "2025-03-31");
  world.done("hundred", "2024-09-01", "1140");
  CHECK(test::text_or_none(world.point("2024-09-02", "annual").due_on) == "2025-03-31");
}

TEST_CASE("ten percent before or after the scheduled point counts as done on it") {
  // US Army DA PAM 750-8 (22 Aug 2005), ch. 3, DD Form 314, item (h)1 and (h)3; the dates of PS magazine 636
  // (Nov 2005): semiannual, 180 days, due 17 Apr 2006, window 30 Mar to 5 May 2006. The next due days are derived.
  struct Row {
    std::string_view done;
    std::string_view next;
  };
  for (const Row& row : {Row{"2006-05-05", "2006-10-14"}, Row{"2006-05-06", "2006-11-02"},
                         Row{"2006-03-30", "2006-10-14"}, Row{"2006-03-29", "2006-09-25"}}) {
    CAPTURE(row.done);
    World world("  half-year: {do: Service, every: {days: 180}, grace: 10%, counts-from: due}\n", "bought: 2000-01-01");
    world.done("half-year", "2005-10-19");  // 180 days before 2006-04-17
    CHECK(test::text_or_none(world.point("2006-03-01", "half-year").due_on) == "2006-04-17");
    world.done("half-year", row.done);
    CHECK(test::text_or_none(world.point("2006-05-07", "half-year").due_on) == std::string(row.next));
  }
  for (const auto& [done, next] : {std::pair{"1275", "1500"}, {"1276", "1526"}, {"1224", "1474"}, {"1225", "1500"}}) {
    CAPTURE(std::string(done));
    World world("  hours: {do: Service, every: {hours: 250}, grace: 10%, counts-from: due}\n",
                "bought: {on: 2020-01-01, at: 900}");
    world.done("hours", "2020-02-01", "1000");
    world.done("hours", "2020-08-01", done);
    CHECK(test::text_or_none(limb(world.point("2020-08-02", "hours"), LimbKind::usage).due_at) == next);
  }
}

TEST_CASE("past the ten percent it is overdue, at it not yet") {
  // DA PAM 750-8, item (h)4: due 1250, at 1275.0 not yet, at 1275.1 past the window.
  World world("  hours: {do: Service, every: {hours: 250}, grace: 10%}\n", "bought: {on: 2020-01-01, at: 900}");
  world.done("hours", "2020-02-01", "1000");
  world.reading("2020-08-01", "1275");
  CHECK(world.point("2020-08-01", "hours").standing == service::Standing::due);
  world.reading("2020-08-02", "1275.1");
  CHECK(world.point("2020-08-02", "hours").standing == service::Standing::overdue);
}

TEST_CASE("some services allow no variance at all") {
  // DA PAM 750-8, item (h)2: the equipment's own table beats the variance; done 1 h late is late. (Ours: `safety`.)
  World world("  brakes: {do: Brakes, every: {hours: 250}, safety: true}\n", "bought: {on: 2020-01-01, at: 900}",
              "grace: 10%\n");
  world.done("brakes", "2020-02-01", "1000");
  world.reading("2020-08-01", "1251");
  CHECK(world.point("2020-08-01", "brakes").standing == service::Standing::overdue);
}

TEST_CASE("ten percent of the days in the interval, on either side") {
  // PS magazine 580 (March 2001): 90 -> 9, 180 -> 18, 360 -> 36 days.
  for (const auto& [days, grace] : {std::pair{90, 9}, {180, 18}, {360, 36}}) {
    World world("  s: {do: Service, every: {days: " + std::to_string(days) + "}, grace: 10%}\n", "bought: 2000-01-01");
    world.done("s", "2005-01-01");
    CHECK(limb(world.point("2005-01-02", "s"), LimbKind::calendar).grace_days == grace);
  }
}

TEST_CASE("monthly or sixty hours, whichever occurs first") {
  // TM 5-3895-383-24, 1-12: notation M/60 HR. Dates derived.
  World world("  lube: {do: Lubricate, every: {months: 1, hours: 60}}\n", "bought: {on: 2024-01-01, at: 400}");
  world.done("lube", "2024-03-14", "500");
  World by_hours = world;
  by_hours.reading("2024-04-10", "561");
  CHECK(told(by_hours.point("2024-04-10", "lube")).starts_with("overdue usage"));
  World by_month = world;
  by_month.reading("2024-04-13", "520");
  CHECK(told(by_month.point("2024-04-13", "lube")) == "coming calendar 2024-04-14");
  CHECK(told(by_month.point("2024-04-14", "lube")) == "due calendar 2024-04-14");
}

TEST_CASE("an oil sample every 50 h or 90 days, whichever first") {
  // TM 10-3930-671-24 app. E; TM 5-3895-383-24; LO 10-3930-675-12. Dates derived.
  World world("  sample: {do: Sample, every: {hours: 50, days: 90}}\n", "bought: {on: 2024-01-01, at: 1150}");
  world.done("sample", "2024-03-14", "1200");
  const auto point = world.point("2024-03-15", "sample");
  CHECK(test::text_or_none(limb(point, LimbKind::usage).due_at) == "1250");
  CHECK(test::text_or_none(limb(point, LimbKind::calendar).due_on) == "2024-06-12");
  World reserve("  sample: {do: Sample, every: {hours: 50, days: 180}}\n", "bought: {on: 2024-01-01, at: 1150}");
  reserve.done("sample", "2024-03-14", "1200");
  CHECK(test::text_or_none(limb(reserve.point("2024-03-15", "sample"), LimbKind::calendar).due_on) == "2024-09-10");
}

TEST_CASE("a first interval of its own, once, and the plain one ever after") {
  // LO 10-3930-675-12 (1 July 2001): the first sample not before 50 h after the 100 h break-in service, then every
  // 50 h: 149 h not due, 150 h due, then 200, 250.
  const std::string tasks = "  sample: {do: Sample, every: {hours: 50}, first: {hours: 150}}\n";
  World world(tasks, "in-service: {on: 2024-01-01, at: 0}");
  world.reading("2024-03-01", "149");
  CHECK(world.point("2024-03-01", "sample").standing == service::Standing::coming);
  world.reading("2024-03-02", "150");
  CHECK(told(world.point("2024-03-02", "sample")) == "due usage 2024-03-02");
  world.done("sample", "2024-03-02", "150");
  CHECK(test::text_or_none(limb(world.point("2024-03-02", "sample"), LimbKind::usage).due_at) == "200");
  world.done("sample", "2024-04-02", "200");
  CHECK(test::text_or_none(limb(world.point("2024-04-02", "sample"), LimbKind::usage).due_at) == "250");
}

TEST_CASE("nested services: the annual includes the semiannual, the biennial both") {
  // TM 9-2320-272-24-1, 2-9: 6 months or 6000 mi, 12 or 12000, 24 or 24000.
  World world(
      "  biennial: {do: B, every: {usage: {odometer: 24000}, months: 24}, covers: [annual]}\n"
      "  annual: {do: A, every: {usage: {odometer: 12000}, months: 12}, covers: [semiannual]}\n"
      "  semiannual: {do: S, every: {usage: {odometer: 6000}, months: 6}}\n",
      "bought: {on: 2020-01-01, at: 0}", "", "meters: {odometer: {unit: mi}}\n");
  world.done("biennial", "2021-01-01", "10000");
  for (const char* task : {"semiannual", "annual", "biennial"}) {
    CHECK(service::to_text(world.point("2021-01-02", task).fitted->on) == "2021-01-01");
  }
  world.done("annual", "2022-01-01", "20000");
  CHECK(service::to_text(world.point("2022-01-02", "semiannual").fitted->on) == "2022-01-01");
  CHECK(service::to_text(world.point("2022-01-02", "annual").fitted->on) == "2022-01-01");
  CHECK(service::to_text(world.point("2022-01-02", "biennial").fitted->on) == "2021-01-01");
}

TEST_CASE("three axes race: hours, distance and months") {
  // TM 9-2350-287-20-1, 2-13: semiannual at 1500 mi or 150 h, annual at 3000 mi or 300 h, whichever first. Derived:
  // last at 4000 mi and 400 h, now 4900 mi and 551 h.
  World world("  semiannual: {do: S, every: {hours: 150, usage: {odometer: 1500}, months: 6}}\n",
              "bought: {on: 2020-01-01, at: 390}", "", "meters: {engine: {unit: h}, odometer: {unit: mi}}\n");
  world.reading("2021-01-01", "4000", "odometer");
  world.done("semiannual", "2021-01-01", "400");
  world.reading("2021-05-01", "4900", "odometer");
  world.reading("2021-05-01", "551", "engine");
  const auto point = world.point("2021-05-01", "semiannual");
  CHECK(point.standing == service::Standing::overdue);
  CHECK(point.limbs[*point.ruled_by].name == "engine");
}

TEST_CASE("the inner element with every third change of the outer one") {
  // Seen in operator's manuals only; no public-domain text found. Changes 1 to 7: due with the third and the sixth.
  World world(
      "  primary: {do: P, every: {hours: 250}}\n"
      "  safety: {do: S, every: {changes: {primary: 3}}}\n",
      "in-service: {on: 2020-01-01, at: 0}");
  int since = 0;
  for (int n = 1; n <= 7; ++n) {
    const std::string day = "2021-0" + std::to_string(n) + "-01";
    world.done("primary", day, std::to_string(250 * n));
    ++since;
    const bool due = world.point(day, "safety").standing == service::Standing::due;
    CHECK(due == (since == 3));
    if (due) {
      world.done("safety", day);
      since = 0;
    }
  }
}

TEST_CASE("a service interval in inches of water, kept as the user's own limit") {
  // 25 inH2O for a dry air cleaner: from memory, widely printed; the program has no limit of its own.
  World world("  air: {do: A, every: {months: 24, measured: {restriction: {above: 25, unit: inH2O}}}}\n",
              "in-service: {on: 2020-01-01, at: 0}");
  world.measured("restriction", "24.9", "2020-06-01", "inH2O");
  CHECK(world.point("2020-06-01", "air").standing == service::Standing::later);
  world.measured("restriction", "25", "2020-06-02", "inH2O");
  CHECK(told(world.point("2020-06-02", "air")) == "due measured 2020-06-02");
  world.measured("restriction", "25.1", "2020-06-03", "inH2O");
  CHECK(told(world.point("2020-06-03", "air")) == "overdue measured 2020-06-03");
}
