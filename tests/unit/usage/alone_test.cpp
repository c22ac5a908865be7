// The whole forecast of one machine that has no fellow: beside an independent prototype in another language, in its
// first weeks, in a season that nobody saw, and where it stops again and again.
#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <string_view>

#include "support/near.h"
#include "support/world.h"

using namespace service;
using test::amount;
using test::day;
using test::near;

TEST_CASE("one machine alone of its kind, from its readings to the due day") {
  // In service new 2020-01-01, read on the 1st of each month to 2023-01-01: 60 h in each month April to October, 10 h
  // in the others; 250 h, fitted 2022-08-01 at 1250; asked on 2023-01-20.
  test::World world("  oil: {do: Oil, every: {hours: 250}}\n", "in-service: {on: 2020-01-01, at: 0}");
  int usage = 0;
  for (int month = 1; month <= 36; ++month) {
    const int of_year = (month - 1) % 12 + 1;
    usage += of_year >= 4 && of_year <= 10 ? 60 : 10;
    const auto next = std::chrono::year{2020} / std::chrono::month{1} / 1 + std::chrono::months{month};
    world.reading(to_text(Day{std::chrono::sys_days{next}}), std::to_string(usage));
  }
  REQUIRE(usage == 1410);
  const auto snapshot = world.snapshot("2023-01-20");
  const Machine& machine = *snapshot.fleet().machine("m");
  const auto histories = meter_histories(snapshot, machine);
  const MeterHistory& history = histories.at("engine");

  const auto ahead = learnt_from(snapshot)(
      {snapshot.fleet(), machine, *machine.first_meter(), history, use_state(snapshot, machine), snapshot.as_of()});
  const Day end = day("2028-01-20");
  const auto odds = ahead->odds(amount("1500"), {});
  const auto said = [&](double level) { return *first_day_with(*odds, Probability{level}, snapshot.as_of(), end); };
  // The prototype, whose spread was another one, said 2023-04-23, 05-01, 05-11.
  CHECK(std::abs(days_between(day("2023-05-01"), said(0.5))) <= 2);
  CHECK(std::abs(days_between(day("2023-04-23"), said(0.1))) <= 5);
  CHECK(std::abs(days_between(day("2023-05-11"), said(0.9))) <= 5);
  // Use lies where it lay: 60 h of 430 h in each month from April to October.
  REQUIRE(ahead->grounds() != nullptr);
  CHECK(ahead->grounds()->months[0] == near(10.0 / 470, 0.5));
  CHECK(ahead->grounds()->months[6] == near(60.0 / 470, 0.1));
  CHECK(ahead->grounds()->per_year == near(470, 0.05));

  // Nobody wrote down a service here, so that none is there tells nothing.
  CHECK(ahead->odds(amount("1500"), amount("250"))->by(day("2023-05-01")).value == odds->by(day("2023-05-01")).value);
}

namespace {

// Days from as-of to a level, p10, p50, p90.
struct Said {
  int p10;
  int p50;
  int p90;
};

Said ask(const test::World& world, std::string_view as_of, std::string_view level) {
  const auto snapshot = world.snapshot(as_of);
  const Machine& machine = *snapshot.fleet().machine("m");
  const auto histories = meter_histories(snapshot, machine);
  const auto ahead = learnt_from(snapshot)({snapshot.fleet(), machine, *machine.first_meter(), histories.at("engine"),
                                            use_state(snapshot, machine), snapshot.as_of()});
  const auto odds = ahead->odds(amount(level), {});
  const auto to = [&](double share) {
    const auto found = first_day_with(*odds, Probability{share}, snapshot.as_of(), day("2032-01-01"));
    return found ? days_between(snapshot.as_of(), *found) : 9999;
  };
  return {to(0.1), to(0.5), to(0.9)};
}

}  // namespace

TEST_CASE("a machine three weeks old is told days by what it did in them") {
  // Some 2.5 h a day for 21 days, and 17 h left: about a week, whatever other machines do in a year.
  test::World world("  oil: {do: Oil, every: {hours: 250}}\n", "in-service: {on: 2024-03-01, at: 0}");
  world.reading("2024-03-08", "19");
  world.reading("2024-03-15", "35");
  world.reading("2024-03-22", "53");
  const Said said = ask(world, "2024-03-22", "70");
  CHECK(said.p50 >= 4);
  CHECK(said.p50 <= 11);
  CHECK(said.p90 <= 40);
}

TEST_CASE("a season that nobody saw yet widens the span, and one that was seen for years does not") {
  const auto read = [](test::World& world, int months) {
    double usage = 0;
    for (int month = 1; month <= months; ++month) {
      const auto next = std::chrono::year{2020} / std::chrono::month{1} / 1 + std::chrono::months{month};
      usage += 50;
      world.reading(to_text(Day{std::chrono::sys_days{next}}), std::to_string(static_cast<int>(usage)));
    }
  };
  test::World young("  oil: {do: Oil, every: {hours: 250}}\n", "in-service: {on: 2020-01-01, at: 0}");
  read(young, 4);
  test::World old("  oil: {do: Oil, every: {hours: 250}}\n", "in-service: {on: 2020-01-01, at: 0}");
  read(old, 40);
  const Said of_young = ask(young, "2020-05-01", "400");  // 200 h on: four months
  const Said of_old = ask(old, "2023-05-01", "2200");
  CHECK(of_young.p50 == near(122, 0.15));
  CHECK(of_old.p50 == near(122, 0.1));
  CHECK(of_young.p90 - of_young.p10 > 2 * (of_old.p90 - of_old.p10));
}

TEST_CASE("a machine that stopped again and again may stop before it gets there") {
  // Both use 60 h a month when they run; one of them stood for two or three months in each year.
  const auto read = [](test::World& world, bool stops) {
    int usage = 0;
    for (int month = 0; month < 48; ++month) {
      const int of_year = (month + 3 * (month / 12)) % 12;  // in another season each year
      usage += stops && of_year >= 4 && of_year <= 6 ? 0 : 60;
      const auto next = std::chrono::year{2020} / std::chrono::month{1} / 1 + std::chrono::months{month + 1};
      world.reading(to_text(Day{std::chrono::sys_days{next}}), std::to_string(usage));
    }
    return usage;
  };
  test::World steady("  oil: {do: Oil, every: {hours: 250}}\n", "in-service: {on: 2020-01-01, at: 0}");
  const int of_steady = read(steady, false);
  test::World stopping("  oil: {do: Oil, every: {hours: 250}}\n", "in-service: {on: 2020-01-01, at: 0}");
  const int of_stopping = read(stopping, true);
  const Said one = ask(steady, "2024-01-01", std::to_string(of_steady + 300));
  const Said other = ask(stopping, "2024-01-01", std::to_string(of_stopping + 300));
  CHECK(one.p90 < 220);
  CHECK(other.p90 > one.p90 + 30);
}

TEST_CASE("some hours out of season say nothing of the season") {
  // Some 230 h in August and September and an hour in the rest of the year; then some more in May, once.
  const auto a_year = [](int in_may) {
    test::World world("  oil: {do: Oil, every: {hours: 250}}\n", "in-service: {on: 2020-01-01, at: 0}");
    int usage = 0;
    const auto read = [&](const std::string& on, int use) {
      usage += use;
      world.reading(on, std::to_string(usage));
    };
    for (int year = 2020; year < 2026; ++year) {
      read(std::to_string(year) + "-05-06", 1);
      read(std::to_string(year) + "-08-01", 0);
      read(std::to_string(year) + "-09-20", 226 + 3 * (year % 3));
    }
    read("2026-05-06", 1);
    if (in_may > 0) read("2026-06-10", in_may);
    const auto snapshot = world.snapshot("2026-06-15");
    const Machine& machine = *snapshot.fleet().machine("m");
    const auto histories = meter_histories(snapshot, machine);
    const auto ahead = learnt_from(snapshot)({snapshot.fleet(), machine, *machine.first_meter(), histories.at("engine"),
                                              use_state(snapshot, machine), snapshot.as_of()});
    REQUIRE(ahead->grounds() != nullptr);
    return ahead->grounds()->per_year;
  };
  CHECK(a_year(0) == near(230, 0.1));
  for (const int hours : {3, 7, 10}) {
    CAPTURE(hours);
    CHECK(a_year(hours) == near(230 + hours, 0.1));
  }
  CHECK(a_year(30) < 350);  // may be a sign of more to come, but not of several times as much
}
