// Interval tables of service manuals that are in the public domain. Each check says where it was read.
//
// derived: the table was read, the days and the values of the meters are ours.
#include <doctest/doctest.h>

#include <array>
#include <string>
#include <string_view>

#include "support/world.h"

using service::LimbKind;
using service::Standing;
using test::limb;
using test::told;
using test::World;

namespace {

// Where and when a point of several limbs comes due: "16000 2021-07-01".
std::string due_points(const World& world, std::string_view as_of, std::string_view task) {
  std::string text;
  for (const auto& limb : world.point(as_of, task).limbs) {
    if (!text.empty()) text += ' ';
    text += limb.kind == LimbKind::calendar ? test::text_or_none(limb.due_on) : test::text_or_none(limb.due_at);
  }
  return text;
}

// Semiannual by `miles` or six months, annual by twice as much and biennial by four times.
World nested(int miles) {
  const auto every = [&](int times) {
    return "every: {usage: {odometer: " + std::to_string(times * miles) + "}, months: " + std::to_string(times * 6) +
           "}";
  };
  return World("  biennial: {do: B, " + every(4) + ", covers: [annual]}\n  annual: {do: A, " + every(2) +
                   ", covers: [semiannual]}\n  semiannual: {do: S, " + every(1) + "}\n",
               "bought: {on: 2020-01-01, at: 0}", "", "meters: {odometer: {unit: mi}}\n");
}

}  // namespace

TEST_CASE("monthly or sixty hours, whichever occurs first") {
  // TM 5-3895-383-24, 1-12, and TM 10-3930-671-24 app. E: the notation M/60 HR; derived.
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

TEST_CASE("an oil sample every 50 h or 90 days, 180 days in reserve, whichever first") {
  // TM 10-3930-671-24 app. E; TM 5-3895-383-24; LO 10-3930-675-12 (1 July 2001); derived.
  for (const auto& [days, due] : {std::pair{"90", "2024-06-12"}, {"180", "2024-09-10"}}) {
    World world("  sample: {do: Sample, every: {hours: 50, days: " + std::string(days) + "}}\n",
                "bought: {on: 2024-01-01, at: 1150}");
    world.done("sample", "2024-03-14", "1200");
    CHECK(due_points(world, "2024-03-15", "sample") == "1250 " + std::string(due));
  }
}

TEST_CASE("the first sample not before fifty hours after the service at a hundred, then every fifty") {
  World world("  sample: {do: Sample, every: {hours: 50}, first: {hours: 150}}\n",
              "in-service: {on: 2024-01-01, at: 0}");
  // LO 10-3930-675-12 (1 July 2001) says "not before", so that before 150 h it must not be due.
  world.reading("2024-03-01", "149.9");
  CHECK(world.point("2024-03-01", "sample").standing == Standing::coming);
  // Derived: "not before" names no point at which it is due; that it is due as soon as it may be taken is our reading.
  world.reading("2024-03-02", "150");
  CHECK(told(world.point("2024-03-02", "sample")) == "due usage 2024-03-02");
  // Every 50 h from then on: the same order; the hours at which it was done are derived.
  world.done("sample", "2024-03-02", "150");
  CHECK(due_points(world, "2024-03-02", "sample") == "200");
  world.done("sample", "2024-04-02", "200");
  CHECK(due_points(world, "2024-04-02", "sample") == "250");
}

TEST_CASE("semiannual, annual and biennial services by miles or months") {
  struct Row {
    int miles;
    std::string_view semiannual;
    std::string_view annual;
    std::string_view biennial;
    std::string_view source;
  };
  constexpr std::array rows{
      Row{6000, "16000 2021-07-01", "22000 2022-01-01", "34000 2023-01-01",
          "TM 9-2320-272-24-1, 2-9: 6,000, 12,000 and 24,000 mi or 6, 12 and 24 months"},
      Row{3000, "13000 2021-07-01", "16000 2022-01-01", "22000 2023-01-01",
          "TM 9-2320-387-24-1, 2-9: 3,000, 6,000 and 12,000 mi or 6, 12 and 24 months"},
  };
  // All three were done on 1 January 2021 at 10,000 mi, a day and a value of ours.
  for (const Row& row : rows) {
    CAPTURE(row.source);
    World world = nested(row.miles);
    for (const char* task : {"semiannual", "annual", "biennial"}) world.done(task, "2021-01-01", "10000");
    CHECK(due_points(world, "2021-01-02", "semiannual") == std::string(row.semiannual));
    CHECK(due_points(world, "2021-01-02", "annual") == std::string(row.annual));
    CHECK(due_points(world, "2021-01-02", "biennial") == std::string(row.biennial));
  }
}

TEST_CASE("the annual service includes the semiannual, the biennial both") {
  // TM 9-2320-272-24-1, 2-9; days and values derived.
  World world = nested(6000);
  world.done("biennial", "2021-01-01", "10000");
  CHECK(due_points(world, "2021-01-02", "semiannual") == "16000 2021-07-01");
  CHECK(due_points(world, "2021-01-02", "annual") == "22000 2022-01-01");
  CHECK(due_points(world, "2021-01-02", "biennial") == "34000 2023-01-01");
  world.done("annual", "2021-12-01", "20000");
  CHECK(due_points(world, "2021-12-02", "semiannual") == "26000 2022-06-01");
  CHECK(due_points(world, "2021-12-02", "annual") == "32000 2022-12-01");
  CHECK(due_points(world, "2021-12-02", "biennial") == "34000 2023-01-01");
}

TEST_CASE("semiannual at 1,500 mi or 150 h, annual at 3,000 mi or 300 h, whichever first") {
  // TM 9-2350-287-20-1, 2-13; last at 4,000 mi and 400 h, now 4,900 mi and 551 h: derived.
  World world(
      "  annual: {do: A, every: {hours: 300, usage: {odometer: 3000}}}\n"
      "  semiannual: {do: S, every: {hours: 150, usage: {odometer: 1500}}}\n",
      "bought: {on: 2020-01-01, at: 390}", "", "meters: {engine: {unit: h}, odometer: {unit: mi}}\n");
  world.reading("2021-01-01", "4000", "odometer");
  for (const char* task : {"annual", "semiannual"}) world.done(task, "2021-01-01", "400");
  CHECK(due_points(world, "2021-01-02", "semiannual") == "550 5500");
  CHECK(due_points(world, "2021-01-02", "annual") == "700 7000");
  world.reading("2021-05-01", "4900", "odometer");
  world.reading("2021-05-01", "551", "engine");
  const auto semiannual = world.point("2021-05-01", "semiannual");
  CHECK(semiannual.standing == Standing::overdue);
  CHECK(semiannual.limbs[*semiannual.ruled_by].name == "engine");
  CHECK_FALSE(reached(limb(world.point("2021-05-01", "annual"), LimbKind::usage)));
  // By miles first: 3,000 mi with fewer than 300 h.
  world.reading("2021-09-01", "7000", "odometer");
  world.reading("2021-09-01", "690", "engine");
  const auto annual = world.point("2021-09-01", "annual");
  CHECK(annual.standing == Standing::due);
  CHECK(annual.limbs[*annual.ruled_by].name == "odometer");
}

TEST_CASE("oil and filters by hours, miles or months, whichever first") {
  // TM 9-2350-247-20-1 WP 0128, without oil analysis: each 150 h, 1,500 mi or semiannually; derived.
  World world("  oil: {do: Oil, every: {hours: 150, usage: {odometer: 1500}, months: 6}}\n",
              "bought: {on: 2020-01-01, at: 390}", "", "meters: {engine: {unit: h}, odometer: {unit: mi}}\n");
  world.reading("2021-01-01", "4000", "odometer");
  world.done("oil", "2021-01-01", "400");
  CHECK(due_points(world, "2021-01-02", "oil") == "550 5500 2021-07-01");
  struct Row {
    std::string_view day;
    std::string_view hours;
    std::string_view miles;
    std::string_view ruled_by;
  };
  for (const Row& row : {Row{"2021-05-01", "550", "4900", "engine"}, Row{"2021-05-01", "500", "5500", "odometer"},
                         Row{"2021-07-01", "500", "4900", ""}}) {
    CAPTURE(row.ruled_by);
    World now = world;
    now.reading(row.day, row.hours, "engine");
    now.reading(row.day, row.miles, "odometer");
    const auto point = now.point(row.day, "oil");
    CHECK(point.standing == Standing::due);
    const auto& ruling = point.limbs[*point.ruled_by];
    CHECK((ruling.kind == LimbKind::calendar ? "" : ruling.name) == std::string(row.ruled_by));
  }
}
