// Interval rules as regulations state them. Each check says where it was read; law is used for the meaning of its
// intervals, and nothing here is legal advice.
//
// secondary: read where the rule is restated, not in the rule itself. derived: the rule was read, the days or hours are
// ours. from memory: not found in print.
#include <doctest/doctest.h>

#include <algorithm>
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

struct Row {
  std::string_view done;
  std::string_view next;
  std::string_view source;
};

// An examination by the calendar on a machine bought long ago.
World examination(const std::string& every, const std::string& more = "") {
  return World("  exam: {do: Examine, every: " + every + more + "}\n", "bought: 2000-01-01");
}

std::string due_after(World world, std::string_view done) {
  world.done("exam", done);
  return test::text_or_none(world.point("2030-01-01", "exam").due_on);
}

const std::string hundred_hours =
    "  hundred: {do: Inspect, every: {hours: 100}, grace: {hours: 10}, counts-from: earlier}\n";

// A machine inspected at so many hours.
World inspected(std::string_view at) {
  World world(hundred_hours, "bought: {on: 2019-01-01, at: 900}");
  world.done("hundred", "2020-01-01", at);
  return world;
}

std::string next_of(const World& world) {
  return test::text_or_none(limb(world.point("2020-06-02", "hundred"), LimbKind::usage).due_at);
}

}  // namespace

TEST_CASE("twelve calendar months run to the last day of the month") {
  const auto world = examination("{months: 12}", ", until: month-end");
  constexpr std::array rows{
      Row{"2024-03-15", "2025-03-31", "14 CFR 91.409(a), derived"},
      Row{"2023-02-28", "2024-02-29", "14 CFR 91.409(a), derived"},
      Row{"2024-03-01", "2025-03-31", "14 CFR 91.409(a), derived"},
      Row{"2024-03-31", "2025-03-31", "14 CFR 91.409(a), derived"},
      Row{"2007-06-06", "2008-06-30",
          "a restatement of the FAA reading, seen in an aviation article of 2007 (secondary)"},
      Row{"2024-07-12", "2025-07-31",
          "FAA airman knowledge test question, from memory: 12 July, to 31 July of the next year; the year is ours"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.source);
    CHECK(due_after(world, row.done) == std::string(row.next));
  }
}

TEST_CASE("twenty-four calendar months run to the last day of the month") {
  const auto world = examination("{months: 24}", ", until: month-end");
  CHECK(due_after(world, "2020-07-22") == "2022-07-31");  // 14 CFR 91.411(a)(1), derived
  CHECK(due_after(world, "2022-02-10") == "2024-02-29");  // 14 CFR 91.413(a), derived
}

TEST_CASE("the rest of a calendar month is still in time, and the first day after it is not") {
  // A restatement of the FAA reading, seen in an aviation article of 2007 (secondary): done on 6 June 2007, valid
  // through 30 June 2008, no longer on 1 July.
  auto world = examination("{months: 12}", ", until: month-end");
  world.done("exam", "2007-06-06");
  CHECK(told(world.point("2008-06-30", "exam")) == "due calendar 2008-06-30");
  CHECK(told(world.point("2008-07-01", "exam")) == "overdue calendar 2008-06-30");
}

TEST_CASE("months that are not calendar months are exact to the day") {
  const auto year = examination("{months: 12}");
  CHECK(due_after(year, "2024-05-10") == "2025-05-10");  // 49 CFR 396.17(c), derived
  // LOLER 1998 (SI 1998/2307) reg. 9(3)(a)(i): six months for equipment that lifts persons; derived.
  CHECK(due_after(examination("{months: 6}"), "2023-08-31") == "2024-02-29");
  // LOLER 1998 reg. 9(3)(a)(ii): twelve months for other equipment; secondary, derived.
  CHECK(due_after(year, "2023-08-31") == "2024-08-31");
  // NFPA 110 (2010 edition) 8.4.9, every 36 months; secondary, derived.
  CHECK(due_after(examination("{months: 36}"), "2023-02-15") == "2026-02-15");
}

TEST_CASE("of a tractor and its semitrailer the one inspected earlier decides") {
  // 49 CFR 396.17(a): every unit of a combination is inspected, (c) within the preceding 12 months; days derived.
  service::FleetFiles files;
  files.texts["fleet.yaml"] =
      "fleet: Test\nmachines:\n"
      "  tractor: {schedule: kind, bought: 2020-01-01}\n"
      "  semitrailer: {schedule: kind, bought: 2020-01-01}\n";
  files.texts["schedules/kind.yaml"] = "schedule: kind\ntasks:\n  exam: {do: Inspect, every: {months: 12}}\n";
  World world(files);
  world.done("exam", "2024-05-10").machine = "tractor";
  world.done("exam", "2024-01-20").machine = "semitrailer";
  const auto list = world.due("2024-06-01");
  REQUIRE(list.points.size() == 2);
  const auto& earliest = *std::min_element(list.points.begin(), list.points.end(),
                                           [](const auto& a, const auto& b) { return a.due_on < b.due_on; });
  CHECK(test::text_or_none(earliest.due_on) == "2025-01-20");
  CHECK(earliest.machine->key == "semitrailer");
  CHECK(list.points.front().machine->key == "semitrailer");  // and so the list begins with it
  // The day after, the combination is no longer in order, though the tractor is.
  const auto later = world.due("2025-01-21");
  CHECK(told(later.points.at(0)) == "overdue calendar 2025-01-20");
  CHECK(told(later.points.at(1)) == "later calendar 2025-05-10");
}

TEST_CASE("ninety days are ninety days") {
  // 49 CFR 396.3(a)(2) (1993 edition): at least every 90 days; derived. Three months would end on 1 June.
  CHECK(due_after(examination("{days: 90}"), "2024-03-01") == "2024-05-30");
}

TEST_CASE("what a hundred hours were exceeded by counts in the next hundred") {
  struct Hours {
    std::string_view before;
    std::string_view due;
    std::string_view done;
    std::string_view next;
    std::string_view source;
  };
  constexpr std::array rows{
      Hours{"3202.5", "3302.5", "3309.5", "3402.5",
            "FAA airman knowledge test question, from memory: due at 3302.5 h, done at 3309.5 h"},
      Hours{"1000", "1100", "1106", "1200",
            "worked example in a restatement (secondary): after 106 h the next in 94 h"},
      Hours{"1000", "1100", "1110", "1200", "14 CFR 91.409(b), derived: 10 h over, the most that is allowed"},
      Hours{"1000", "1100", "1090", "1190",
            "14 CFR 91.409(b), derived: from an early one the hundred hours start anew"},
  };
  for (const Hours& row : rows) {
    CAPTURE(row.source);
    World world = inspected(row.before);
    CHECK(next_of(world) == std::string(row.due));
    world.done("hundred", "2020-06-01", row.done);
    CHECK(next_of(world) == std::string(row.next));
  }
}

TEST_CASE("a hundred hours may be exceeded by ten at most") {
  // 14 CFR 91.409(b); hours derived. That it is only while flying to the place of inspection is for the pilot to know.
  World world = inspected("1000");
  world.reading("2020-05-01", "1099.9");
  CHECK(world.point("2020-05-01", "hundred").standing == Standing::coming);
  world.reading("2020-05-02", "1100.1");
  CHECK(told(world.point("2020-05-02", "hundred")) == "due usage 2020-05-02");
  world.reading("2020-05-31", "1110");
  CHECK(world.point("2020-05-31", "hundred").standing == Standing::due);
  world.reading("2020-06-01", "1110.1");
  CHECK(world.point("2020-06-01", "hundred").standing == Standing::overdue);
}

TEST_CASE("an annual inspection stands in for the hundred hours, and not the other way round") {
  World world(
      "  annual: {do: Annual, every: {months: 12}, until: month-end, covers: [hundred]}\n"
      "  hundred: {do: Hundred, every: {hours: 100}}\n",
      "bought: {on: 2023-01-01, at: 900}");
  // 14 CFR 91.409(b) asks for an annual or a 100-hour inspection; day and hours derived.
  world.done("annual", "2024-03-15", "1050");
  CHECK(test::text_or_none(limb(world.point("2024-03-16", "hundred"), LimbKind::usage).due_at) == "1150");
  CHECK(test::text_or_none(world.point("2024-03-16", "annual").due_on) == "2025-03-31");
  // That (a) asks for an annual one and nothing less: from memory.
  world.done("hundred", "2024-09-01", "1140");
  CHECK(test::text_or_none(world.point("2024-09-02", "annual").due_on) == "2025-03-31");
}
