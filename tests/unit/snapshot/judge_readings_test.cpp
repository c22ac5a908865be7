// Readings at the door: what can be true beside what is known, and what a refusal tells.
#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "unit/snapshot/judge_support.h"

using service::FactKind;
using test::Bench;
using test::day;
using test::tells;
using test::text_or_none;
using test::verdict;

namespace {

const std::string oil = "  oil: {do: Oil, every: {hours: 250}}\n";
const std::string rolls = "meters: {engine: {unit: h, rolls-over-at: 10000}}\n";

Bench hours(const std::string& meters = "") { return Bench(oil, "bought: 2020-01-01", "", meters); }

std::string usage_after(const Bench& bench, std::string_view as_of) {
  const auto snapshot = bench.after(as_of);
  return text_or_none(service::meter_histories(snapshot, *snapshot.fleet().machine("m")).at("engine").on(day(as_of)));
}

}  // namespace

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
  CHECK(tells(judgement, "meter-change"));
  CHECK(tells(judgement, "100"));
}

TEST_CASE("an equal reading on a later day is no fall") {
  Bench bench = hours();
  bench.known.reading("2026-01-01", "100");
  bench.entry.reading("2026-02-01", "100");
  CHECK(verdict(bench.judge()) == "1 accepted, 0 refused");
}

TEST_CASE("a reading between two known ones lies between their values") {
  for (const auto& [value, expected] : {std::pair{"100", "1 accepted, 0 refused"},
                                        {"150", "1 accepted, 0 refused"},
                                        {"200", "1 accepted, 0 refused"},
                                        {"99.99", "0 accepted, 1 refused"},
                                        {"200.01", "0 accepted, 1 refused"}}) {
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

TEST_CASE("a roll-over is taken where the use that it implies fits into the days, and is said") {
  Bench bench = hours(rolls);
  bench.known.reading("2026-01-01", "9990");
  bench.entry.reading("2026-01-03", "5");  // 10 + 5 h in three days
  const auto judgement = bench.judge();
  REQUIRE(verdict(judgement) == "2 accepted, 0 refused");
  const service::Fact& change = judgement.accepted[0];
  CHECK(change.kind == FactKind::meter_change);
  CHECK(text_or_none(change.last) == "10000");
  CHECK(text_or_none(change.first) == "0");
  CHECK(service::to_text(change.on) == "2026-01-03");
  CHECK(change.meter == "engine");
  CHECK(judgement.accepted[1].kind == FactKind::reading);
  CHECK(change.id < judgement.accepted[1].id);
  CHECK(judgement.said.size() == 1);
  CHECK(usage_after(bench, "2026-01-03") == "10005");
}

TEST_CASE("a roll-over implies at most 24 h on each day") {
  // Three days: 72 h, so from 9990 at most to 62.
  for (const auto& [value, expected] : {std::pair{"62", "2 accepted, 0 refused"}, {"62.01", "0 accepted, 1 refused"}}) {
    Bench bench = hours(rolls);
    bench.known.reading("2026-01-01", "9990");
    bench.entry.reading("2026-01-03", value);
    CHECK(verdict(bench.judge()) == expected);
  }
}

TEST_CASE("a meter that does not declare where it rolls over does not roll over") {
  Bench bench = hours();
  bench.known.reading("2026-01-01", "9990");
  bench.entry.reading("2026-01-03", "5");
  CHECK(verdict(bench.judge()) == "0 accepted, 1 refused");
}

TEST_CASE("a slip of the pen on a meter that rolls over is no roll-over") {
  Bench bench = hours(rolls);
  bench.known.reading("2026-01-01", "5000");
  bench.entry.reading("2026-01-03", "4990");
  CHECK(verdict(bench.judge()) == "0 accepted, 1 refused");
}

TEST_CASE("the meaning of a recorded roll-over does not hang on the fleet file") {
  Bench bench = hours(rolls);
  bench.known.reading("2026-01-01", "9990");
  bench.entry.reading("2026-01-03", "5");
  std::vector<service::Fact> all = bench.known.facts();
  const auto accepted = bench.judge().accepted;
  all.insert(all.end(), accepted.begin(), accepted.end());
  const Bench edited = hours();  // no more word of rolling over
  const service::Snapshot snapshot(std::make_shared<const service::Fleet>(edited.known.fleet()), all, day("2026-01-03"),
                                   true);
  const auto history = service::meter_histories(snapshot, *snapshot.fleet().machine("m")).at("engine");
  CHECK(text_or_none(history.on(day("2026-01-03"))) == "10005");
  CHECK(history.doubts().empty());
}

TEST_CASE("the value at a service may be the one that shows the roll-over") {
  Bench bench = hours(rolls);
  bench.known.reading("2026-01-01", "9990");
  bench.entry.done("oil", "2026-01-03", "5");
  const auto judgement = bench.judge();
  REQUIRE(verdict(judgement) == "2 accepted, 0 refused");
  CHECK(judgement.accepted[0].kind == FactKind::meter_change);
  CHECK(judgement.accepted[1].kind == FactKind::service);
  CHECK(usage_after(bench, "2026-01-03") == "10005");
}

TEST_CASE("a roll-over is recorded once where two rows of a day show it") {
  for (const bool service_first : {false, true}) {
    CAPTURE(service_first);
    Bench bench = hours(rolls);
    bench.known.reading("2026-01-01", "9990");
    if (service_first) bench.entry.done("oil", "2026-01-03", "5");
    bench.entry.reading("2026-01-03", "5");
    if (!service_first) bench.entry.done("oil", "2026-01-03", "5");
    CHECK(verdict(bench.judge()) == "3 accepted, 0 refused");
    CHECK(usage_after(bench, "2026-01-03") == "10005");
  }
}

TEST_CASE("a roll-over comes after what the meter showed earlier on its day and before what shows it") {
  Bench bench = hours(rolls);
  bench.known.reading("2026-01-01", "9980");
  bench.known.reading("2026-01-03", "9995");
  bench.entry.reading("2026-01-03", "5");  // 10 h on a day
  CHECK(verdict(bench.judge()) == "2 accepted, 0 refused");
  CHECK(usage_after(bench, "2026-01-03") == "10005");
}

TEST_CASE("a reading from before a recorded roll-over is ordinary") {
  Bench bench = hours(rolls);
  bench.known.reading("2026-01-01", "9990");
  bench.known.meter_change("2026-01-03", "10000", "0");
  bench.known.reading("2026-01-03", "5");
  bench.entry.reading("2026-01-02", "9996");
  CHECK(verdict(bench.judge()) == "1 accepted, 0 refused");
  CHECK(usage_after(bench, "2026-01-03") == "10005");
}

TEST_CASE("a whole file of readings rolls over once, whatever the order of its rows") {
  for (const bool backwards : {false, true}) {
    CAPTURE(backwards);
    std::vector<std::pair<std::string, std::string>> rows = {
        {"2026-01-01", "9950"}, {"2026-01-11", "9999"}, {"2026-01-21", "30"}, {"2026-01-31", "60"}};
    if (backwards) std::reverse(rows.begin(), rows.end());
    Bench bench = hours(rolls);
    for (const auto& [on, at] : rows) bench.entry.reading(on, at);
    CHECK(verdict(bench.judge()) == "5 accepted, 0 refused");
    CHECK(usage_after(bench, "2026-01-31") == "10060");
    CHECK(usage_after(bench, "2026-01-11") == "9999");
  }
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
