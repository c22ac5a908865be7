// What is known of what is fitted now: the last service, the usage then, and what cannot be known.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <string_view>

#include "unit/standing/task_t.h"

using service::Basis;
using service::LimbKind;
using service::LimbState;
using service::Standing;
using standing_test::fitted_on;
using test::limb;
using test::text_or_none;
using test::told;
using test::unknown_of;
using test::World;

namespace {

const std::string two_meters = "meters: {engine: {unit: h}, pto: {unit: h}}\n";

World task(const std::string& keys, const std::string& machine = "bought: 2020-01-01", const std::string& meters = "") {
  return World("  t: {do: Work, " + keys + "}\n", machine, "", meters);
}

struct Known {
  std::string at;
  Basis basis;
};

Known fitted(const World& world, std::string_view as_of) {
  const auto point = world.point(as_of, "t");
  REQUIRE(point.fitted.has_value());
  return {text_or_none(point.fitted->at), point.fitted->basis};
}

}  // namespace

TEST_CASE("a service with a value tells the usage at which it was fitted") {
  World world = task("every: {hours: 250}");
  const service::FactId id = world.done("t", "2026-01-01", "1000").id;
  CHECK(fitted(world, "2026-02-01").at == "1000");
  CHECK(fitted(world, "2026-02-01").basis == Basis::recorded);
  REQUIRE(world.point("2026-02-01", "t").fitted->fact.has_value());
  CHECK(*world.point("2026-02-01", "t").fitted->fact == id);
}

TEST_CASE("a service without a value takes the usage of the day between two readings") {
  World world = task("every: {hours: 250}");
  world.reading("2026-01-01", "1000");
  world.done("t", "2026-01-04");
  world.reading("2026-01-11", "1100");  // 10 h a day
  CHECK(fitted(world, "2026-02-01").at == "1030");
  CHECK(fitted(world, "2026-02-01").basis == Basis::interpolated);
}

TEST_CASE("a service without a value on the day of a reading takes that reading") {
  World world = task("every: {hours: 250}");
  world.reading("2026-01-01", "1000");
  world.done("t", "2026-01-11");
  world.reading("2026-01-11", "1100");
  CHECK(fitted(world, "2026-02-01").at == "1100");
  CHECK(fitted(world, "2026-02-01").basis == Basis::interpolated);
}

TEST_CASE("a service without a value after the last reading takes the last known usage") {
  World world = task("every: {hours: 250}");
  world.reading("2025-01-01", "500");
  world.reading("2026-01-01", "1000");
  world.done("t", "2026-01-21");
  CHECK(fitted(world, "2026-02-01").at == "1000");
  CHECK(fitted(world, "2026-02-01").basis == Basis::last_known);
}

TEST_CASE("a service before the history of the meter leaves the usage limb unknown and the others count") {
  World world = task("every: {hours: 250, months: 12}");
  world.done("t", "2025-01-01");
  world.reading("2025-06-01", "1000");
  const auto point = world.point("2025-12-20", "t");
  CHECK(told(point) == "coming calendar 2026-01-01");
  CHECK(unknown_of(point) == "usage");
  CHECK(limb(point, LimbKind::usage).state == LimbState::unknown);
  CHECK(fitted(world, "2025-12-20").at == "none");
  CHECK(fitted(world, "2025-12-20").basis == Basis::unknown);
}

TEST_CASE("a service without a value known by its month only takes the usage of the month's first day") {
  World world = task("every: {hours: 250}");
  world.reading("2026-01-01", "1000");
  world.done("t", "2026-02");
  world.reading("2026-03-01", "1059");  // 59 days: 1 h a day
  CHECK(fitted(world, "2026-04-01").at == "1031");
}

TEST_CASE("the value at a service known by its year only is the usage at fitting and no reading") {
  World world = task("every: {hours: 250}", "in-service: {on: 2023-01-01, at: 0}");
  world.done("t", "2024", "700");
  world.reading("2025-01-01", "731");  // 731 days since 2023-01-01: 1 h a day
  CHECK(fitted(world, "2025-01-01").at == "700");
  CHECK(fitted(world, "2025-01-01").basis == Basis::recorded);
  // 1 January 2024 is the 365th day.
  CHECK(text_or_none(service::meter_histories(world.snapshot("2025-01-01"), *world.fleet().machine("m"))
                         .at("engine")
                         .on(test::day("2024-01-01"))) == "365");
}

TEST_CASE("the value at a service is of the first meter unless it names another") {
  World world = task("every: {usage: {pto: 100}}", "bought: 2020-01-01", two_meters);
  world.done("t", "2026-01-01", "40", "", "pto");
  CHECK(fitted(world, "2026-01-02").at == "40");
  world.reading("2026-02-01", "140", "pto");
  CHECK(told(world.point("2026-02-01", "t")) == "due usage 2026-02-01");
}

TEST_CASE("fitted is told on the meter of the first usage limb as written, else on the machine's first meter") {
  World pto = task("every: {usage: {pto: 100, engine: 500}}", "bought: 2020-01-01", two_meters);
  World months = task("every: {months: 12}", "bought: 2020-01-01", two_meters);
  for (World* world : {&pto, &months}) {
    world->reading("2026-01-01", "1000");
    world->reading("2026-01-01", "300", "pto");
    world->done("t", "2026-01-01");
  }
  CHECK(fitted(pto, "2026-01-02").at == "300");
  CHECK(pto.point("2026-01-02", "t").fitted->meter == "pto");
  CHECK(fitted(months, "2026-01-02").at == "1000");
  CHECK(months.point("2026-01-02", "t").fitted->meter == "engine");
}

TEST_CASE("a new machine counts from the day it was put in service") {
  World world = task("every: {hours: 250, months: 12}", "in-service: {on: 2025-03-01, at: 7}");
  const auto point = world.point("2025-04-01", "t");
  REQUIRE(point.fitted.has_value());
  CHECK(point.fitted->basis == Basis::in_service);
  CHECK_FALSE(point.fitted->fact.has_value());
  CHECK(service::to_text(point.fitted->on) == "2025-03-01");
  CHECK(text_or_none(point.fitted->at) == "7");
  CHECK(text_or_none(limb(point, LimbKind::usage).due_at) == "257");
  CHECK(text_or_none(limb(point, LimbKind::calendar).due_on) == "2026-03-01");
}

TEST_CASE("a machine delivered with hours on it is new, and its other meters start at zero") {
  World world = task("every: {usage: {pto: 100}}", "in-service: {on: 2025-03-01, at: 40}", two_meters);
  world.reading("2025-06-01", "99.99", "pto");
  const auto point = world.point("2025-06-01", "t");
  CHECK(limb(point, LimbKind::usage).state == LimbState::not_reached);
  CHECK(text_or_none(limb(point, LimbKind::usage).used) == "99.99");
}

TEST_CASE("a machine has no points before its in-service or bought day, nor from the day it left") {
  for (const std::string_view start : {"in-service: 2025-03-01", "bought: 2025-03-01"}) {
    const World world = task("every: {months: 12}", std::string(start) + ", left: 2026-03-01");
    CHECK_FALSE(world.has_point("2025-02-28", "t"));
    CHECK(world.has_point("2025-03-01", "t"));
    CHECK(world.has_point("2026-02-28", "t"));
    CHECK_FALSE(world.has_point("2026-03-01", "t"));
  }
}

TEST_CASE("a used machine without a service has no record, and what cannot be computed is told") {
  World world = task("every: {hours: 250, months: 12, signs: [leak], measured: {tread: {below: 3, unit: mm}}}");
  world.reading("2026-01-01", "1000");
  const auto point = world.point("2026-01-02", "t");
  CHECK(point.standing == Standing::no_record);
  CHECK(unknown_of(point) == "usage calendar");  // a sign that nobody saw and a value that nobody measured are quiet
  CHECK_FALSE(point.ruled_by.has_value());
  CHECK_FALSE(point.due_on.has_value());
}

TEST_CASE("without a service a sign or a measured limit is judged from the day a machine was bought") {
  World world =
      task("every: {hours: 250, signs: [leak], measured: {tread: {below: 3, unit: mm}}}", "bought: 2025-01-01");
  world.sign("leak", "2024-12-31");  // before it was ours
  CHECK(world.point("2025-02-01", "t").standing == Standing::no_record);
  World seen = world;
  seen.sign("leak", "2025-02-01");
  CHECK(told(seen.point("2025-02-01", "t")) == "due sign 2025-02-01");
  CHECK(unknown_of(seen.point("2025-02-01", "t")) == "usage");
  World worn = world;
  worn.measured("tread", "2.5", "2025-02-01", "mm");
  CHECK(told(worn.point("2025-02-01", "t")) == "overdue measured 2025-02-01");
  CHECK(unknown_of(worn.point("2025-02-01", "t")) == "usage");
  World good = world;
  good.measured("tread", "8", "2025-02-01", "mm");
  CHECK(good.point("2025-02-01", "t").standing == Standing::no_record);
}

TEST_CASE("no record where all usage and calendar limbs are unknown, though the service is known") {
  World world = task("every: {hours: 250}");
  world.done("t", "2026-01-01");  // no value, and no reading ever
  const auto point = world.point("2026-02-01", "t");
  CHECK(point.standing == Standing::no_record);
  CHECK(unknown_of(point) == "usage");
  CHECK(fitted_on(world, "2026-02-01") == "2026-01-01");
}

TEST_CASE("a limb that is reached beats usage and calendar limbs that are unknown") {
  World world = task("every: {hours: 250, signs: [leak]}");
  world.done("t", "2026-01-01");
  CHECK(world.point("2026-02-01", "t").standing == Standing::no_record);
  world.sign("leak", "2026-02-01");
  const auto point = world.point("2026-02-01", "t");
  CHECK(told(point) == "due sign 2026-02-01");
  CHECK(unknown_of(point) == "usage");
}

TEST_CASE("a sign that nobody saw is quiet, also where it is the only limb") {
  World used = task("every: {signs: [leak]}");
  CHECK(unknown_of(used.point("2026-01-02", "t")).empty());
  CHECK(used.point("2026-01-02", "t").standing == Standing::no_record);  // nobody knows when it was done
  World fresh = task("every: {signs: [leak]}", "in-service: {on: 2026-01-01, at: 0}");
  CHECK(told(fresh.point("2026-01-02", "t")) == "later");
  CHECK(overdue_list(fresh.due("2026-01-02")).empty());
  CHECK_FALSE(needs_doing(fresh.due("2026-01-02")));
  fresh.sign("leak", "2026-01-02");
  CHECK(told(fresh.point("2026-01-02", "t")) == "due sign 2026-01-02");
}

TEST_CASE("a value is to be found out where it is the only limb") {
  World measured = task("every: {measured: {tread: {below: 3, unit: mm}}}");
  CHECK(unknown_of(measured.point("2026-01-02", "t")) == "measured");
  measured.measured("tread", "2.9", "2026-01-02", "mm");
  CHECK(told(measured.point("2026-01-02", "t")) == "overdue measured 2026-01-02");
  CHECK(unknown_of(measured.point("2026-01-02", "t")).empty());
}

TEST_CASE("services are ordered by the first day of their spans") {
  World world = task("every: {months: 12}");
  world.done("t", "2024-03-01");
  world.done("t", "2024");  // entered later, and its first day is earlier
  CHECK(fitted_on(world, "2024-12-31") == "2024-03-01");
  World month = task("every: {months: 12}");
  month.done("t", "2024-05");
  month.done("t", "2024-04-30");
  CHECK(fitted_on(month, "2024-12-31") == "2024-05");
}

TEST_CASE("what was seen after the first day of a service known by its month only counts") {
  // Nobody knows whether the leak came before the service or after it: the cautious end is after.
  World world = task("every: {years: 10, signs: [leak]}");
  world.done("t", "2024-05");
  world.sign("leak", "2024-05-10");
  CHECK(told(world.point("2024-05-10", "t")) == "due sign 2024-05-10");
}

TEST_CASE("several services of a task on one day are one, and a struck service is none") {
  World world = task("every: {hours: 250}");
  world.done("t", "2025-01-01", "800");
  world.done("t", "2026-01-01", "1000");
  const service::FactId again = world.done("t", "2026-01-01", "1000").id;
  CHECK(fitted(world, "2026-02-01").at == "1000");
  world.strike(again);
  CHECK(fitted(world, "2026-02-01").at == "1000");
  world.strike(world.facts()[1].id);
  CHECK(fitted(world, "2026-02-01").at == "800");
}
