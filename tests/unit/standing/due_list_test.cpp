// The due list as a whole: the horizon, estimates, the order of points, and what a new fact changed.
#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "support/world.h"

using service::DueList;
using service::LimbKind;
using service::LimbState;
using service::Point;
using service::Standing;
using test::day;
using test::limb;
using test::text_or_none;
using test::told;
using test::World;

namespace {

// 1 h a day. Due at 1400, which is expected 35 days after the last reading: on 2026-02-05.
World hour_a_day(const std::string& keys = "") {
  World world("  t: {do: Work, every: {hours: 100}" + keys + "}\n", "bought: {on: 2020-01-01, at: 0}");
  world.reading("2025-01-01", "1000");
  world.done("t", "2025-10-28", "1300");  // 300 days
  world.reading("2026-01-01", "1365");    // 365 days
  return world;
}

World tasks(const std::string& text, const std::string& start = "bought: 2020-01-01") { return World(text, start); }

std::string names(const DueList& list) {
  std::string text;
  for (const Point& point : list.points) text += (text.empty() ? "" : " ") + point.name;
  return text;
}

std::string changes(const DueList& before, const DueList& after) {
  std::string text;
  for (const auto& change : service::difference(before, after)) {
    text +=
        (change.before ? told(*change.before) : "new") + " -> " + (change.after ? told(*change.after) : "gone") + "\n";
  }
  return text;
}

}  // namespace

TEST_CASE("the horizon includes its last day") {
  World world = tasks("  t: {do: Work, every: {months: 12}}\n");
  world.done("t", "2025-03-31");                                       // due 2026-03-31
  CHECK(world.point("2026-02-28", "t").standing == Standing::later);   // 31 days
  CHECK(world.point("2026-03-01", "t").standing == Standing::coming);  // 30 days
  const auto snapshot = world.snapshot("2026-01-01");
  CHECK(service::due_list(snapshot, day("2026-03-30")).points.front().standing == Standing::later);
  CHECK(service::due_list(snapshot, day("2026-03-31")).points.front().standing == Standing::coming);
}

TEST_CASE("usage is coming where the expected day is within the horizon") {
  const World world = hour_a_day();
  CHECK(told(world.point("2026-01-05", "t")) == "later usage 2026-02-05");  // 31 days
  CHECK(told(world.point("2026-01-06", "t")) == "coming usage 2026-02-05");
  CHECK(told(world.point("2026-02-04", "t")) == "coming usage 2026-02-05");
  CHECK_FALSE(world.point("2026-02-04", "t").by_estimate);
}

TEST_CASE("where only the estimate of today's usage reaches the limit the point is due, marked, and never overdue") {
  const World world = hour_a_day();
  for (const std::string_view as_of : {"2026-02-05", "2026-02-06", "2026-12-31"}) {
    CAPTURE(as_of);
    const auto point = world.point(as_of, "t");
    CHECK(point.standing == Standing::due);
    CHECK(point.by_estimate);
    CHECK(limb(point, LimbKind::usage).state == LimbState::not_reached);
  }
  const auto hours = limb(world.point("2026-02-06", "t"), LimbKind::usage);
  CHECK(text_or_none(hours.used) == "65");             // 1365 - 1300, by facts
  CHECK(text_or_none(hours.estimated_used) == "101");  // and 36 more by estimate
  CHECK(text_or_none(hours.left) == "35");
  CHECK(text_or_none(hours.estimated_left) == "-1");
}

TEST_CASE("what is reached by facts has an estimate of today beside it, and what is known for today has none") {
  World world = hour_a_day();
  CHECK(text_or_none(limb(world.point("2026-01-01", "t"), LimbKind::usage).estimated_used) == "none");
  world.reading("2026-02-10", "1401");
  const auto read = limb(world.point("2026-02-10", "t"), LimbKind::usage);
  CHECK(text_or_none(read.left) == "-1");
  CHECK(text_or_none(read.estimated_left) == "none");
  const auto later = limb(world.point("2026-02-20", "t"), LimbKind::usage);
  CHECK(text_or_none(later.left) == "-1");
  CHECK(text_or_none(later.used) == "101");
  // From there on by the mean of the last 365 days: 361 h, so 9.89 in ten.
  CHECK(text_or_none(later.estimated_left) == "-10.89");
  CHECK(text_or_none(later.estimated_used) == "110.89");
}

TEST_CASE("by estimate, too, grace ends where it ends") {
  const World world = hour_a_day(", grace: 10%");  // 10 h: up to 1410, expected on 2026-02-15
  CHECK(world.point("2026-02-15", "t").by_estimate);
  CHECK_FALSE(world.point("2026-02-15", "t").past_grace_by_estimate);
  CHECK(world.point("2026-02-16", "t").past_grace_by_estimate);
  CHECK(world.point("2026-02-16", "t").standing == Standing::due);
}

TEST_CASE("a reading turns the estimate into a fact, either way") {
  World more = hour_a_day();
  more.reading("2026-02-10", "1401");
  CHECK(more.point("2026-02-10", "t").standing == Standing::overdue);
  CHECK_FALSE(more.point("2026-02-10", "t").by_estimate);
  World less = hour_a_day();
  less.reading("2026-02-10", "1370");
  CHECK_FALSE(less.point("2026-02-10", "t").by_estimate);
  CHECK(limb(less.point("2026-02-10", "t"), LimbKind::usage).state == LimbState::not_reached);
}

TEST_CASE("a limb reached by facts comes before one reached by estimate, and overdue before both") {
  World world("  t: {do: Work, every: {hours: 100, days: 100}}\n", "bought: {on: 2020-01-01, at: 0}");
  world.reading("2025-01-01", "1000");
  world.done("t", "2025-10-31", "1303");  // 303 days; the days end on 2026-02-08
  world.reading("2026-01-01", "1365");    // 1403 expected on 2026-02-08
  const auto both = world.point("2026-02-08", "t");
  CHECK(told(both) == "due calendar 2026-02-08");
  CHECK_FALSE(both.by_estimate);
  CHECK(limb(both, LimbKind::usage).by_estimate);
  CHECK(told(world.point("2026-02-09", "t")) == "overdue calendar 2026-02-08");
}

TEST_CASE("the due span of a straight line is one day, beyond five years only where a calendar limb names it") {
  const World world = hour_a_day();
  const auto span = world.point("2026-01-05", "t").due_span;
  CHECK(text_or_none(span.p10) == "2026-02-05");
  CHECK(text_or_none(span.p50) == "2026-02-05");
  CHECK(text_or_none(span.p90) == "2026-02-05");
  World far = tasks("  t: {do: Work, every: {years: 6}}\n");
  far.done("t", "2026-01-01");
  CHECK(text_or_none(far.point("2026-01-02", "t").due_span.p10) == "2032-01-01");
  CHECK(text_or_none(far.point("2026-01-02", "t").due_on) == "2032-01-01");
  World slow = tasks("  t: {do: Work, every: {hours: 100000}}\n");
  slow.done("t", "2026-01-01", "1");
  slow.reading("2026-02-01", "2");
  CHECK(text_or_none(slow.point("2026-02-02", "t").due_on) == "none");
}

TEST_CASE("what is not reached by facts is expected today at the earliest") {
  CHECK(text_or_none(hour_a_day().point("2026-02-10", "t").due_span.p50) == "2026-02-10");
  World world = tasks("  t: {do: Work, every: {months: 1}}\n");
  world.done("t", "2026-01-01");
  CHECK(text_or_none(world.point("2026-02-10", "t").due_span.p50) == "2026-02-01");  // by facts
}

TEST_CASE("points come worst first: overdue, due by facts, due by estimate, no record, coming, later") {
  World world(
      "  later: {do: A, every: {years: 9}}\n"
      "  coming: {do: B, every: {months: 25}}\n"
      "  never: {do: C, every: {months: 1}}\n"
      "  guess: {do: D, every: {hours: 100}}\n"
      "  due: {do: E, every: {months: 24}}\n"
      "  overdue: {do: F, every: {months: 23}}\n",
      "bought: {on: 2020-01-01, at: 0}");
  for (const std::string_view task : {"later", "coming", "due", "overdue"}) world.done(task, "2024-02-10");
  world.reading("2025-01-01", "1000");
  world.done("guess", "2025-10-28", "1300");
  world.reading("2026-01-01", "1365");
  CHECK(names(world.due("2026-02-10")) == "overdue due guess never coming later");
}

TEST_CASE("among equals the earliest due day comes first, then the order of the fleet file") {
  World world = tasks(
      "  c: {do: C, every: {months: 3}}\n"
      "  b: {do: B, every: {months: 1}}\n"
      "  a: {do: A, every: {months: 3}}\n");
  for (const std::string_view task : {"a", "b", "c"}) world.done(task, "2024-01-01");
  CHECK(names(world.due("2025-01-01")) == "b c a");
}

TEST_CASE("within a standing what never waits comes first, what is put off last, facts before estimates") {
  World world(
      "  b-wait: {do: A, every: {months: 1}}\n"
      "  c-late: {do: B, every: {months: 3}}\n"
      "  d-exam: {do: C, every: {months: 5}, by-whom: competent-person}\n"
      "  e-safe: {do: D, every: {months: 4}, safety: true, follow-up: {look: {do: Look, within: {days: 150}}}}\n"
      "  f-guess: {do: E, every: {hours: 100}}\n"
      "  g-sure: {do: F, every: {months: 10}, grace: {days: 60}}\n"
      "  h-guess-safe: {do: G, every: {hours: 100}, safety: true}\n"
      "  i-none: {do: H, every: {months: 1}}\n"
      "  j-none-safe: {do: I, every: {months: 1}, safety: true}\n",
      "bought: {on: 2020-01-01, at: 0}");
  world.reading("2025-01-01", "1000");
  for (const std::string_view task : {"b-wait", "c-late", "e-safe", "g-sure"}) world.done(task, "2025-04-01");
  world.done("d-exam", "2025-04-01").by = "Inspector";
  for (const std::string_view task : {"f-guess", "h-guess-safe"}) world.done(task, "2025-10-28", "1300");
  world.reading("2026-01-01", "1365");
  world.put_off("b-wait", "2026-02-01", "2026-03-01");
  CHECK(names(world.due("2026-02-10")) ==
        "e-safe e-safe/look d-exam c-late b-wait h-guess-safe g-sure f-guess j-none-safe i-none");
}

TEST_CASE("a check that follows a safety task is one; after an examination it is anybody's") {
  World world(
      "  safe: {do: A, every: {months: 4}, safety: true, follow-up: {look: {do: Look, within: {days: 10}}}}\n"
      "  exam: {do: B, every: {months: 4}, by-whom: competent-person, follow-up: {look: {do: Look, within: {days: "
      "10}}}}\n",
      "bought: {on: 2020-01-01, at: 0}");
  world.done("safe", "2026-01-01");
  world.done("exam", "2026-01-01").by = "Inspector";
  const auto told_of = [&](std::string_view name) {
    const Point point = world.point("2026-02-10", name);
    return std::string(is_safety(point) ? "safety " : "") + (by_competent_person(point) ? "examination " : "") +
           (never_waits(point) ? "never waits" : "may wait");
  };
  CHECK(told_of("safe") == "safety never waits");
  CHECK(told_of("safe/look") == "safety never waits");
  CHECK(told_of("exam") == "examination never waits");
  CHECK(told_of("exam/look") == "may wait");
}

TEST_CASE("before a machine works again, what never waits and is not well is named, and nothing else") {
  World world(
      "  a-well: {do: A, every: {months: 24}, safety: true}\n"
      "  b-overdue: {do: B, every: {months: 1}, safety: true}\n"
      "  c-exam-none: {do: C, every: {months: 1}, by-whom: competent-person}\n"
      "  d-half: {do: D, every: {hours: 100, months: 24}, safety: true}\n"
      "  e-guess: {do: E, every: {hours: 100}, safety: true}\n"
      "  f-oil: {do: F, every: {months: 1}}\n",
      "bought: {on: 2025-01-01, at: 1000}");
  for (const std::string_view task : {"a-well", "b-overdue", "f-oil"}) world.done(task, "2026-01-01");
  world.done("d-half", "2024-12-01");
  world.done("e-guess", "2025-10-28", "1300");
  world.reading("2026-01-01", "1365");
  const auto list = world.due("2026-02-10");
  std::string named;
  for (const Point* point : service::before_work(list, *list.points.front().machine).points) named += point->name + ' ';
  CHECK(named == "b-overdue e-guess c-exam-none d-half ");
}

TEST_CASE("every point is in the list, what is due later and the checks owed included") {
  World world(
      "  oil:\n    do: Oil\n    every: {years: 9}\n    follow-up: {leaks: {do: Look, within: {days: 900}}}\n"
      "  belt: {do: Belt, every: {years: 9}, positions: [front, rear]}\n",
      "in-service: {on: 2025-01-01, at: 0}");
  world.done("oil", "2025-02-01", "10");
  const auto list = world.due("2025-02-02");
  CHECK(list.points.size() == 4);
  for (const Point& point : list.points) CHECK(point.standing == Standing::later);
  CHECK(list.machines == 1);
}

TEST_CASE("a service changes its point and no other") {
  World world = tasks("  a: {do: A, every: {months: 1}}\n  b: {do: B, every: {months: 1}}\n");
  world.done("a", "2025-11-01");
  world.done("b", "2025-11-01");
  const World before = world;
  world.done("a", "2026-01-01");
  CHECK(changes(before.due("2026-01-01"), world.due("2026-01-01")) ==
        "overdue calendar 2025-12-01 -> later calendar 2026-02-01\n");
}

TEST_CASE("nothing new is no change") {
  const World world = hour_a_day();
  CHECK(changes(world.due("2026-02-10"), world.due("2026-02-10")).empty());
}

TEST_CASE("an expected day that a reading moves is no change, and a limit that it reaches is") {
  World world = hour_a_day();
  const World before = world;
  world.reading("2026-01-05", "1366");
  // 362 h in the last 365 days: 34 h take 35 days.
  REQUIRE(text_or_none(world.point("2026-01-05", "t").due_on) == "2026-02-09");
  CHECK(changes(before.due("2026-01-05"), world.due("2026-01-05")).empty());
  world.reading("2026-01-05", "1400");
  CHECK(changes(before.due("2026-01-05"), world.due("2026-01-05")) ==
        "later usage 2026-02-05 -> due usage 2026-01-05\n");
}

TEST_CASE("a mark that goes away, a fitting and a due day by facts that move are changes") {
  World world = hour_a_day();
  World read = world;
  read.reading("2026-02-10", "1400");
  // Due before and after, first by estimate.
  const std::string mark = changes(world.due("2026-02-10"), read.due("2026-02-10"));
  CHECK(mark.starts_with("due by-estimate usage"));
  CHECK(mark.ends_with(" -> due usage 2026-02-10\n"));
  World refitted = world;
  refitted.done("t", "2025-10-29", "1301");
  CHECK(service::difference(world.due("2026-01-02"), refitted.due("2026-01-02")).size() == 1);
  World late = world;
  late.reading("2026-02-10", "1410");
  World earlier = late;
  earlier.reading("2026-01-11", "1401");
  CHECK(changes(late.due("2026-02-10"), earlier.due("2026-02-10")).find("overdue usage 2026-01-11") !=
        std::string::npos);
}

TEST_CASE("a check that a service owes is new, and gone when it is done") {
  World world("  oil:\n    do: Oil\n    every: {years: 9}\n    follow-up: {leaks: {do: Look, within: {days: 3}}}\n",
              "in-service: {on: 2025-01-01, at: 0}");
  const World before = world;
  world.done("oil", "2025-02-01", "10");
  const World between = world;
  world.done("oil/leaks", "2025-02-01", "10");
  CHECK(changes(before.due("2025-02-01"), between.due("2025-02-01")).find("new -> coming calendar 2025-02-04") !=
        std::string::npos);
  CHECK(changes(between.due("2025-02-01"), world.due("2025-02-01")) == "coming calendar 2025-02-04 -> gone\n");
}
