// The day on which odds come to a level, found by few of them, against all halves: for machines of every sort, for odds
// that know where to look and for odds that do not.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <string>
#include <vector>

#include "support/world.h"
#include "usage/normal.h"

using namespace service;
using test::amount;
using test::day;

namespace {

// By halves, whatever the odds say of themselves.
std::optional<Day> by_halves(const ReachOdds& odds, Probability level, Day from, Day to) {
  if (to < from || odds.by(to) < level) return std::nullopt;
  Day below = from - std::chrono::days{1};
  Day at = to;
  while (days_between(below, at) > 1) {
    const Day middle = below + std::chrono::days{days_between(below, at) / 2};
    (odds.by(middle) >= level ? at : below) = middle;
  }
  return at;
}

// A number that looks drawn, from 0 to 1.
double chance(std::int64_t of) {
  std::uint64_t word = static_cast<std::uint64_t>(of) * 0x9E3779B97F4A7C15U + 0x632BE59BD9B4E019U;
  word = (word ^ (word >> 30U)) * 0xBF58476D1CE4E5B9U;
  word = (word ^ (word >> 27U)) * 0x94D049BB133111EBU;
  return static_cast<double>((word ^ (word >> 31U)) >> 11U) / 9007199254740992.0;
}

struct Sort {
  std::string name;
  int gap = 14;          // days from reading to reading
  double in_season = 3;  // hours a day, May to September
  double beyond = 3;     // in the other months
  double uneven = 1;     // how much one reading strays, as a share
  int stops_each = 0;    // of so many gaps one in which it stands
  std::string last = "2026-06-01";
};

const std::vector<Sort> sorts{
    {"steady", 14, 3, 3, 0.2},
    {"even as a clock", 7, 8, 8, 0},
    {"lumpy", 30, 1, 1, 2},
    {"seasonal", 14, 5, 0, 0.6},
    {"seasonal, long not read", 14, 5, 0.2, 0.6, 0, "2025-12-20"},
    {"seldom read", 170, 2, 1, 0.8},
    {"stops again and again", 21, 4, 4, 0.5, 5},
    {"stands now", 14, 3, 3, 0.3, 0, "2026-01-05"},
    {"hardly used", 40, 0.02, 0.01, 1.5},
};

test::World world_of(const Sort& sort, bool serviced) {
  test::World world("  oil: {do: Oil, every: {hours: 250}}\n", "in-service: {on: 2021-01-04, at: 0}");
  double hours = 0;
  double at_service = 0;
  std::int64_t n = 0;
  const Day last = day(sort.last);
  for (Day on = day("2021-01-04") + std::chrono::days{sort.gap}; on <= last; on += std::chrono::days{sort.gap}, ++n) {
    const auto month = static_cast<unsigned>(std::chrono::year_month_day{on}.month());
    const double rate = month >= 5 && month <= 9 ? sort.in_season : sort.beyond;
    const bool stands = sort.stops_each > 0 && n / 3 % sort.stops_each == 0;
    if (!stands) hours += rate * sort.gap * (1 + sort.uneven * (chance(n) - 0.5));
    if (sort.name == "stands now" && on > day("2025-11-01")) hours -= rate * sort.gap * 0.9;
    const auto shown = std::to_string(hours);
    const std::string value = shown.substr(0, shown.find('.') + 2);
    if (serviced && hours - at_service >= 250) {
      world.done("oil", to_text(on), value);
      at_service = hours;
    } else {
      world.reading(to_text(on), value);
    }
  }
  return world;
}

}  // namespace

TEST_CASE("the first day with odds is the one that halves find") {
  int found = 0;
  int days_apart = 0;
  for (const Sort& sort : sorts) {
    CAPTURE(sort.name);
    for (const bool serviced : {false, true}) {
      const test::World world = world_of(sort, serviced);
      for (const char* as_of : {"2026-06-08", "2026-08-20"}) {
        const Snapshot snapshot = world.snapshot(as_of);
        const Machine& machine = *snapshot.fleet().machine("m");
        const auto histories = meter_histories(snapshot, machine);
        const auto aheads = aheads_of(snapshot, machine, histories, learnt_from(snapshot));
        const UsageAhead& ahead = *aheads.at("engine");
        const Amount now = histories.at("engine").knots().back().usage;
        const Day end = add_months(snapshot.as_of(), horizon_months);
        for (std::int64_t n = 1; n <= 40; ++n) {
          const Amount level = now + Amount{n * n * 71};  // from less than an hour to some 1,100
          CAPTURE(n);
          for (const auto& every :
               {std::optional<Amount>{}, std::optional{amount("250")}, std::optional{amount("40")}}) {
            for (const double share : {0.1, 0.5, 0.9, 0.0001, 0.99}) {
              CAPTURE(share);
              const auto odds = ahead.odds(level, every);
              for (const Day from : {snapshot.as_of(), snapshot.as_of() + std::chrono::days{90}}) {
                const auto day = first_day_with(*odds, Probability{share}, from, end);
                CHECK((day == by_halves(*odds, Probability{share}, from, end)));
                found += day ? 1 : 0;
                if (day) days_apart = std::max(days_apart, days_between(from, *day));
              }
            }
          }
          const auto since = ahead.odds_since(snapshot.as_of() + std::chrono::days{n}, Amount{n * n * 71});
          const auto day = first_day_with(*since, Probability{0.5}, snapshot.as_of(), end);
          CHECK((day == by_halves(*since, Probability{0.5}, snapshot.as_of(), end)));
        }
      }
    }
  }
  CHECK(found > 20'000);
  CHECK(days_apart > 1'500);
}

TEST_CASE("odds are the same, whatever was asked before") {
  for (const Sort& sort : sorts) {
    CAPTURE(sort.name);
    const test::World world = world_of(sort, true);
    const Snapshot snapshot = world.snapshot("2026-06-20");
    const Machine& machine = *snapshot.fleet().machine("m");
    const auto histories = meter_histories(snapshot, machine);
    const auto forecaster = learnt_from(snapshot);
    const auto asked = aheads_of(snapshot, machine, histories, forecaster);
    const Amount now = histories.at("engine").knots().back().usage;
    for (std::int64_t n = 1; n <= 12; ++n) {
      const Amount level = now + Amount{n * n * 211};
      for (const auto& every : {std::optional<Amount>{}, std::optional{amount("250")}}) {
        const auto anew = aheads_of(snapshot, machine, histories, forecaster);
        const auto odds = anew.at("engine")->odds(level, every);
        asked.at("engine")->reaches(level, Quantile::p90);
        first_day_with(*asked.at("engine")->odds(level, every), Probability{0.3}, snapshot.as_of(), day("2030-01-01"));
        const auto same = asked.at("engine")->odds(level, every);
        for (int days = 200; days >= 0; days -= 25) {
          const Day on = snapshot.as_of() + std::chrono::days{days};
          CHECK(odds->by(on).value == same->by(on).value);
        }
      }
    }
  }
}

TEST_CASE("odds that say nothing or something wrong of where they come to a level are searched all the same") {
  class Told : public ReachOdds {
   public:
    Told(Day comes, std::optional<Day> says, bool slowly) : comes_(comes), says_(says), slowly_(slowly) {}
    Probability by(Day day) const override {
      const double days = days_between(comes_, day);
      if (slowly_) return Probability{days < -600 ? 0 : days > 600 ? 1 : 0.5 + days / 1201};
      return Probability{days < 0 ? 0.0 : 1.0};
    }
    std::optional<Day> likely(Probability) const override { return says_; }

   private:
    Day comes_;
    std::optional<Day> says_;
    bool slowly_;
  };
  const Day from = day("2026-01-01");
  const Day to = day("2031-01-01");
  for (const int comes : {-900, -1, 0, 1, 2, 40, 700, 1824, 1825, 1826, 1827, 3000}) {
    for (const auto& says : {std::optional<int>{}, std::optional{-5000}, std::optional{0}, std::optional{43},
                             std::optional{1826}, std::optional{9000}}) {
      for (const bool slowly : {false, true}) {
        const Told odds(from + std::chrono::days{comes},
                        says ? std::optional{from + std::chrono::days{*says}} : std::nullopt, slowly);
        CAPTURE(comes);
        CAPTURE(slowly);
        for (const double share : {0.1, 0.5, 0.9, 1.0}) {
          CHECK((first_day_with(odds, Probability{share}, from, to) == by_halves(odds, Probability{share}, from, to)));
        }
        CHECK(!first_day_with(odds, Probability{0.5}, to, from));
      }
    }
  }
}

TEST_CASE("deviates of a normal variable") {
  // Abramowitz & Stegun, table 26.1 and 26.6, from memory.
  const auto near = [](double odds, double deviate) {
    CHECK(std::abs(usage::deviate_of(odds) - deviate) < 6e-4);
    CHECK(std::abs(usage::deviate_of(1 - odds) + deviate) < 6e-4);
  };
  near(0.5, 0);
  near(0.6, 0.253347);
  near(0.9, 1.281552);
  near(0.975, 1.959964);
  near(0.9999, 3.719016);
  CHECK(usage::deviate_of(0) == usage::deviate_of(1e-9));
  CHECK(usage::deviate_of(1) == -usage::deviate_of(0));
}
