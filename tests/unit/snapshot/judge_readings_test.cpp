// Readings at the door: what can be true beside what is known, and what a refusal tells.
#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "unit/snapshot/judge_support.h"

using test::Bench;
using test::day;
using test::hours;
using test::oil;
using test::tells;
using test::text_or_none;
using test::usage_after;
using test::verdict;

TEST_CASE("a reading that goes on from the last one is accepted and stamped") {
  Bench bench = hours();
  bench.known.reading("2026-01-01", "100");
  bench.entry.reading("2026-02-01", "150");
  const auto judgement = bench.judge();
  REQUIRE(verdict(judgement) == "1 accepted, 0 refused");
  const service::Fact& fact = judgement.accepted.front();
  CHECK(fact.id == service::FactId{Bench::stamp().command, 1});
  CHECK(fact.entered == 5'000'000);
  CHECK(fact.entered_by == "ann");
  CHECK(fact.origin == "reading");
  CHECK(text_or_none(fact.at) == "150");
}

TEST_CASE("a reading lower than the one before is refused, with what it could be") {
  Bench bench = hours();
  bench.known.reading("2026-01-01", "100");
  bench.entry.reading("2026-02-01", "99.99");
  const auto judgement = bench.judge();
  CHECK(verdict(judgement) == "0 accepted, 1 refused");
  REQUIRE(judgement.refused_rows.size() == 1);
  CHECK(judgement.refused_rows.front() == 0);
  CHECK(tells(judgement, "change-meter"));
  CHECK(tells(judgement, "100"));
}

TEST_CASE("a value without its tenths is no fall: less than one below the highest, and whole") {
  for (const auto& [value, expected] : {std::pair{"2127", "1 accepted, 0 refused"},
                                        {"2127.0", "1 accepted, 0 refused"},
                                        {"2126", "0 accepted, 1 refused"},
                                        {"2127.3", "0 accepted, 1 refused"}}) {
    CAPTURE(std::string(value));
    for (const char* const on : {"2026-01-01", "2026-02-01"}) {
      Bench bench = hours();
      bench.known.reading("2026-01-01", "2127.4");
      bench.entry.reading(on, value);
      CHECK(verdict(bench.judge()) == expected);
      if (bench.judge().refused.empty()) CHECK(usage_after(bench, "2026-03-01") == "2127.4");
    }
  }
}

TEST_CASE("a value without its tenths is said, kept as written, and does not lower what comes after it") {
  Bench bench = hours();
  bench.known.reading("2026-01-01", "2127.4");
  bench.entry.reading("2026-02-01", "2127");
  bench.entry.reading("2026-03-01", "2127.2");
  const auto judgement = bench.judge();
  CHECK(verdict(judgement) == "1 accepted, 1 refused");  // 2127.2 is below what the meter showed
  CHECK(text_or_none(judgement.accepted.front().at) == "2127");
  REQUIRE(judgement.said.size() == 1);
  CHECK(judgement.said.front() ==
        "2127 h of m was read to the whole unit: the 2127.4 h before it holds, and no use is counted");
}

TEST_CASE("a changed meter's last value may lack its tenths, and the new meter goes on from what was known") {
  Bench bench = hours();
  bench.known.reading("2026-01-01", "2127.4");
  bench.entry.meter_change("2026-02-01", "2127", "10");
  bench.entry.reading("2026-03-01", "30");
  REQUIRE(verdict(bench.judge()) == "2 accepted, 0 refused");
  CHECK(usage_after(bench, "2026-04-01") == "2147.4");
}

TEST_CASE("a value with its tenth may be entered before a later whole one that is lower") {
  Bench bench = hours();
  bench.known.reading("2026-02-01", "2127");
  bench.entry.done("oil", "2026-01-15", "2127.4");
  CHECK(verdict(bench.judge()) == "1 accepted, 0 refused");
}

TEST_CASE("a roll-over is not what a value without its tenths is") {
  Bench bench = hours(test::rolls);
  bench.known.reading("2026-01-01", "9999.5");
  bench.entry.reading("2026-02-01", "9999");
  const auto judgement = bench.judge();
  CHECK(verdict(judgement) == "1 accepted, 0 refused");
  CHECK(judgement.accepted.front().kind == service::FactKind::reading);
}

TEST_CASE("an equal reading on a later day is no fall") {
  Bench bench = hours();
  bench.known.reading("2026-01-01", "100");
  bench.entry.reading("2026-02-01", "100");
  CHECK(verdict(bench.judge()) == "1 accepted, 0 refused");
}

TEST_CASE("a reading between two known ones lies between their values") {
  for (const auto& [value, expected] :
       {std::pair{"100", "1 accepted, 0 refused"},
        {"150", "1 accepted, 0 refused"},
        {"200", "1 accepted, 0 refused"},
        {"99.99", "0 accepted, 1 refused"},
        {"200.9", "1 accepted, 0 refused"},  // the later one is whole, and may lack its tenths
        {"201", "0 accepted, 1 refused"}}) {
    CAPTURE(std::string(value));
    Bench bench = hours();
    bench.known.reading("2026-01-01", "100");
    bench.known.reading("2026-03-01", "200");
    bench.entry.reading("2026-02-01", value);
    CHECK(verdict(bench.judge()) == expected);
  }
}

TEST_CASE("an hour meter runs at most 24 h on each day between two readings, both days included") {
  struct Row {
    std::string_view on;
    std::string_view most;
    std::string_view beyond;
  };
  for (const Row& row : {Row{"2026-01-01", "124", "124.01"},     // one day
                         Row{"2026-01-02", "148", "148.01"},     // two
                         Row{"2026-01-03", "172", "172.01"},     // three
                         Row{"2026-01-31", "844", "844.01"}}) {  // 31 times 24 is 744
    CAPTURE(row.on);
    Bench most = hours();
    most.known.reading("2026-01-01", "100");
    most.entry.reading(row.on, row.most);
    CHECK(verdict(most.judge()) == "1 accepted, 0 refused");
    Bench beyond = hours();
    beyond.known.reading("2026-01-01", "100");
    beyond.entry.reading(row.on, row.beyond);
    CHECK(verdict(beyond.judge()) == "0 accepted, 1 refused");
  }
}

TEST_CASE("the clock also bounds a reading from the later side") {
  Bench bench = hours();
  bench.known.reading("2026-01-10", "1000");
  bench.entry.reading("2026-01-09", "951.99");  // 48.01 h on two days
  CHECK(verdict(bench.judge()) == "0 accepted, 1 refused");
}

TEST_CASE("the clock bounds no other meter than one of hours") {
  Bench bench(oil, "bought: 2020-01-01", "", "meters: {engine: {unit: h}, odometer: {unit: km}}\n");
  bench.known.reading("2026-01-01", "100", "odometer");
  bench.entry.reading("2026-01-02", "900", "odometer");
  CHECK(verdict(bench.judge()) == "1 accepted, 0 refused");
}

TEST_CASE("meters of one machine do not bound each other") {
  Bench bench(oil, "bought: 2020-01-01", "", "meters: {engine: {unit: h}, separator: {unit: h}}\n");
  bench.known.reading("2026-01-01", "5000");
  bench.entry.reading("2026-01-02", "40", "separator");
  CHECK(verdict(bench.judge()) == "1 accepted, 0 refused");
}

TEST_CASE("a lower reading on the same day is refused and a higher one is not") {
  Bench lower = hours();
  lower.known.reading("2026-01-01", "100");
  lower.entry.reading("2026-01-01", "99");
  CHECK(verdict(lower.judge()) == "0 accepted, 1 refused");
  CHECK(tells(lower.judge(), "strike"));
  Bench higher = hours();
  higher.known.reading("2026-01-01", "100");
  higher.entry.reading("2026-01-01", "104");
  CHECK(verdict(higher.judge()) == "1 accepted, 0 refused");
  CHECK(usage_after(higher, "2026-01-01") == "104");
}

TEST_CASE("a reading that was struck bounds nothing") {
  Bench bench = hours();
  bench.known.strike(bench.known.reading("2026-01-01", "9999").id);
  bench.entry.reading("2026-02-01", "100");
  CHECK(verdict(bench.judge()) == "1 accepted, 0 refused");
}

TEST_CASE("a change of the meter between explains a lower reading") {
  Bench bench = hours();
  bench.known.reading("2026-01-01", "100");
  bench.entry.meter_change("2026-02-01", "150", "0");
  bench.entry.reading("2026-03-01", "20");
  CHECK(verdict(bench.judge()) == "2 accepted, 0 refused");
  CHECK(usage_after(bench, "2026-03-01") == "170");
}

TEST_CASE("what the old meter showed last is not lower than its last reading") {
  Bench bench = hours();
  bench.known.reading("2026-01-01", "100");
  bench.entry.meter_change("2026-02-01", "90", "0");
  CHECK(verdict(bench.judge()) == "0 accepted, 1 refused");
}

TEST_CASE("after a change of the meter a reading is not lower than what the new one showed first") {
  Bench bench = hours();
  bench.known.reading("2026-01-01", "100");
  bench.known.meter_change("2026-02-01", "150", "30");
  bench.entry.reading("2026-03-01", "29");
  CHECK(verdict(bench.judge()) == "0 accepted, 1 refused");
}

TEST_CASE("a service with a value is judged as a reading is") {
  Bench bench = hours();
  bench.known.reading("2026-01-01", "100");
  bench.entry.done("oil", "2026-02-01", "99");
  CHECK(verdict(bench.judge()) == "0 accepted, 1 refused");
  Bench without = hours();
  without.known.reading("2026-01-01", "100");
  without.entry.done("oil", "2026-02-01");
  CHECK(verdict(without.judge()) == "1 accepted, 0 refused");
}

TEST_CASE("a file is judged in the order of its days and not of its rows") {
  Bench bench = hours();
  bench.entry.reading("2026-03-01", "300");
  bench.entry.reading("2026-01-01", "100");
  bench.entry.reading("2026-02-01", "200");
  CHECK(verdict(bench.judge()) == "3 accepted, 0 refused");
  bench.entry.reading("2026-02-15", "150");
  const auto judgement = bench.judge();
  REQUIRE(judgement.refused_rows.size() == 1);
  CHECK(judgement.refused_rows.front() == 3);
}

TEST_CASE("each bad row of a file is refused by its own number and the rest is accepted") {
  Bench bench = hours();
  bench.known.reading("2026-01-01", "100");
  bench.entry.reading("2026-01-02", "90");
  bench.entry.reading("2026-02-01", "200");
  bench.entry.done("oyl", "2026-02-02");
  const auto judgement = bench.judge();
  CHECK(judgement.accepted.size() == 1);
  CHECK(judgement.refused.size() == 2);
  CHECK(judgement.refused_rows.size() == 2);
  CHECK(std::count(judgement.refused_rows.begin(), judgement.refused_rows.end(), 0) == 1);
  CHECK(std::count(judgement.refused_rows.begin(), judgement.refused_rows.end(), 2) == 1);
}

TEST_CASE("a value before the bought day that does not go on to what the meter showed then is refused") {
  Bench higher(oil, "bought: {on: 2025-10-09, at: 6121}");
  higher.entry.reading("2025-10-08", "6122");
  auto judgement = higher.judge();
  REQUIRE(verdict(judgement) == "0 accepted, 1 refused");
  CHECK(judgement.refused.front().message ==
        "meter `engine` of m shows 6121 h at its start on 2025-10-09, which is lower than 6122 h on 2025-10-08");
  CHECK(tells(judgement, "mend-value slip day"));
  CHECK(tells(judgement, "mend-start machine m"));
  Bench service(oil, "bought: {on: 2025-10-09, at: 6121}");
  service.entry.done("oil", "2025-09-01", "6300");
  CHECK(verdict(service.judge_file()) == "0 accepted, 1 refused");
  CHECK(tells(service.judge_file(), "6121 h at its start"));
  Bench lower(oil, "bought: {on: 2025-10-09, at: 6121}");
  lower.entry.reading("2025-10-08", "100");
  judgement = lower.judge();
  REQUIRE(verdict(judgement) == "0 accepted, 1 refused");
  CHECK(judgement.refused.front().message ==
        "meter `engine` of m shows 6121 h at its start on 2025-10-09, 6021 h more than 100 h on 2025-10-08: "
        "over 24 h a day");
  CHECK(tells(judgement, "mend-start machine m"));
  Bench fits(oil, "bought: {on: 2025-10-09, at: 6121}");
  fits.entry.reading("2025-10-08", "6115");
  CHECK(verdict(fits.judge()) == "1 accepted, 0 refused");
}

TEST_CASE("no hour meter shows more than a hundred years by day and night, and its first value is held against that") {
  Bench most = hours();
  most.entry.reading("2026-02-01", "876600");  // 24 h on 36525 days
  CHECK(verdict(most.judge()) == "1 accepted, 0 refused");
  Bench more = hours();
  more.entry.reading("2026-02-01", "876600.1");
  const auto judgement = more.judge();
  REQUIRE(verdict(judgement) == "0 accepted, 1 refused");
  CHECK(judgement.refused.front().code == "reading-beyond");
  CHECK(tells(judgement, "shows 876600.1 h on 2026-02-01: over 24 h a day for a hundred years"));
  CHECK(tells(judgement, "slip point"));
  Bench serviced = hours();
  serviced.entry.done("oil", "2026-02-01", "20600000");
  CHECK(verdict(serviced.judge()) == "0 accepted, 1 refused");
  Bench in_a_year = hours();
  in_a_year.entry.done("oil", "2025", "20600000");
  CHECK(verdict(in_a_year.judge()) == "0 accepted, 1 refused");
  Bench changed = hours();
  changed.known.reading("2026-01-01", "100");
  changed.entry.meter_change("2026-02-01", "150", "20600000");
  CHECK(verdict(changed.judge()) == "0 accepted, 1 refused");
  // What it showed before says more.
  Bench jumped = hours();
  jumped.known.reading("2026-01-01", "100");
  jumped.entry.reading("2026-02-01", "20600000");
  REQUIRE(verdict(jumped.judge()) == "0 accepted, 1 refused");
  CHECK(jumped.judge().refused.front().code == "reading-jumps");
  // New in service: no more than 24 h a day since.
  Bench fresh(oil, "in-service: {on: 2026-01-01, at: 4}");
  fresh.entry.reading("2026-01-10", "2060");
  CHECK(verdict(fresh.judge()) == "0 accepted, 1 refused");
  Bench bales("  knives: {do: Knives, every: {usage: {engine: 250}}}\n", "bought: 2020-01-01", "",
              "meters: {engine: {unit: bales}}\n");
  bales.entry.reading("2026-02-01", "20600000");
  CHECK(verdict(bales.judge()) == "1 accepted, 0 refused");
}

TEST_CASE("behind an impossible first value of a file the right ones are taken") {
  Bench bench = hours();
  bench.entry.reading("2026-02-01", "20600000");
  bench.entry.reading("2026-03-01", "2060.3");
  CHECK(verdict(bench.judge_file()) == "1 accepted, 1 refused");
}
