// Readings that show that a meter rolled over, at the door: taken, recorded and said, or no roll-over.
#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "unit/snapshot/judge_support.h"

using service::FactKind;
using test::Bench;
using test::day;
using test::hours;
using test::rolls;
using test::text_or_none;
using test::usage_after;
using test::verdict;

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
  const service::Snapshot snapshot(std::make_shared<const service::Fleet>(edited.known.fleet()),
                                   service::whole_book(all), day("2026-01-03"), true);
  const auto history = service::meter_histories(snapshot, *snapshot.fleet().machine("m")).at("engine");
  CHECK(text_or_none(history.on(day("2026-01-03"))) == "10005");
  CHECK(history.contradictions().empty());
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
