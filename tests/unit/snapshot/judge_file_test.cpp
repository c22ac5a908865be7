// A file of facts before the judge: what is already there, rows that come with ids of their own, strikes.
#include <doctest/doctest.h>

#include <string>
#include <string_view>
#include <vector>

#include "unit/snapshot/judge_support.h"

using service::Fact;
using service::FactId;
using service::FactKind;
using service::Proposal;
using test::Bench;
using test::day;
using test::hours;
using test::rolls;
using test::verdict;

namespace {

Fact strike_of(const FactId& id) {
  Fact fact;
  fact.kind = FactKind::strike;
  fact.on = day("2026-06-01");
  fact.strikes = id;
  fact.note = "typed wrong";
  return fact;
}

// What the judge accepted becomes part of the book.
void keep(Bench& bench, const service::Judgement& judgement) {
  for (const Fact& fact : judgement.accepted) bench.known.add(fact);
}

}  // namespace

TEST_CASE("the same file twice changes nothing") {
  Bench bench = hours();
  bench.entry.reading("2026-01-01", "100");
  bench.entry.done("oil", "2026-01-01", "100");
  bench.entry.done("oil", "2025");
  bench.entry.sign("leak", "2026-02-01");
  bench.entry.meter_change("2026-02-03", "120", "0");
  bench.entry.put_off("oil", "2026-02-04", "2026-03-01");
  bench.entry.state(FactKind::laid_up, "2026-02-05", "2026-04-01");
  const auto first = bench.judge_file();
  REQUIRE(verdict(first) == "7 accepted, 0 refused");
  keep(bench, first);
  CHECK(verdict(bench.judge_file()) == "0 accepted, 0 refused, 7 already there");
}

TEST_CASE("a file with a roll-over twice changes nothing") {
  Bench bench = hours(rolls);
  bench.entry.reading("2026-01-01", "9990");
  bench.entry.reading("2026-01-03", "5");
  bench.entry.reading("2026-01-13", "40");
  const auto first = bench.judge_file();
  REQUIRE(verdict(first) == "4 accepted, 0 refused");
  keep(bench, first);
  CHECK(verdict(bench.judge_file()) == "0 accepted, 0 refused, 3 already there");
}

TEST_CASE("the n-th equal row of a file is the n-th equal fact of the book") {
  Bench bench = hours();
  bench.known.reading("2026-01-01", "100", "engine");
  bench.entry.reading("2026-01-01", "100");
  bench.entry.reading("2026-01-01", "100");
  bench.entry.reading("2026-01-01", "100", "engine");  // the meter by its name is the same
  CHECK(verdict(bench.judge_file()) == "2 accepted, 0 refused, 1 already there");
  bench.known.reading("2026-01-01", "100", "engine");
  CHECK(verdict(bench.judge_file()) == "1 accepted, 0 refused, 2 already there");
}

TEST_CASE("what is typed again on the same day is a new fact") {
  Bench bench = hours();
  bench.known.sign("leak", "2026-01-01");
  bench.known.done("oil", "2026-01-01");
  bench.entry.sign("leak", "2026-01-01");
  CHECK(verdict(bench.judge()) == "1 accepted, 0 refused");
  CHECK(verdict(bench.judge_file()) == "0 accepted, 0 refused, 1 already there");
}

TEST_CASE("a row that differs in anything is no repetition") {
  Bench bench = hours();
  bench.known.done("oil", "2026-01-01", "100");
  bench.entry.done("oil", "2026-01-01", "100").note = "";
  Fact with_note = bench.entry.facts().front();
  with_note.note = "drain plug new";
  CHECK(bench.judge(std::vector<Proposal>{{with_note, false, {}}}).already_there == 0);
}

TEST_CASE("a fact that was struck may be entered again") {
  Bench bench = hours();
  bench.known.strike(bench.known.reading("2026-01-01", "100").id);
  bench.entry.reading("2026-01-01", "100");
  CHECK(verdict(bench.judge()) == "1 accepted, 0 refused");
}

TEST_CASE("accepted facts are numbered from one under the command's id") {
  Bench bench = hours();
  bench.entry.reading("2026-02-01", "200");
  bench.entry.reading("2026-01-01", "100");
  bench.entry.done("oil", "2026-02-01");
  const auto judgement = bench.judge();
  REQUIRE(judgement.accepted.size() == 3);
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(judgement.accepted[i].id == FactId{Bench::stamp().command, static_cast<int>(i) + 1});
    CHECK(judgement.accepted[i].origin == "reading");
  }
}

TEST_CASE("a row that comes with an id was judged before and is taken as it is") {
  Bench bench = hours();
  bench.known.reading("2026-01-01", "100");
  Fact low;
  low.kind = FactKind::reading;
  low.machine = "m";
  low.on = day("2026-02-01");
  low.at = test::amount("90");
  low.meter = "engine";
  low.id = {service::make_command_id(777, {}), 4};
  low.entered = 777;
  low.entered_by = "bo";
  low.origin = "van";
  const auto judgement = bench.judge(std::vector<Proposal>{{low, true, {}}});
  REQUIRE(verdict(judgement) == "1 accepted, 0 refused");
  const Fact& fact = judgement.accepted.front();
  CHECK(fact.id == low.id);
  CHECK(fact.entered == 777);
  CHECK(fact.entered_by == "bo");
  CHECK(fact.origin == "van");
  CHECK(service::same_content(fact, low));
}

TEST_CASE("a row with an id is no repetition of a fact with the same content") {
  Bench bench = hours();
  Fact other = bench.known.reading("2026-01-01", "100");
  other.id = {service::make_command_id(777, {}), 1};
  const auto judgement = bench.judge(std::vector<Proposal>{{other, true, {}}});
  CHECK(verdict(judgement) == "1 accepted, 0 refused");
}

TEST_CASE("a fact of the book may be struck, once") {
  Bench bench = hours();
  const FactId id = bench.known.reading("2026-01-01", "100").id;
  const auto judgement = bench.judge(std::vector<Proposal>{{strike_of(id), false, {}}});
  REQUIRE(verdict(judgement) == "1 accepted, 0 refused");
  CHECK(*judgement.accepted.front().strikes == id);
  CHECK(judgement.accepted.front().note == "typed wrong");
  bench.known.strike(id);
  CHECK(verdict(bench.judge(std::vector<Proposal>{{strike_of(id), false, {}}})) == "0 accepted, 1 refused");
}

TEST_CASE("a fact that is not in the book cannot be struck") {
  Bench bench = hours();
  bench.known.reading("2026-01-01", "100");
  const FactId nowhere{service::make_command_id(4'242, {}), 1};
  CHECK(verdict(bench.judge(std::vector<Proposal>{{strike_of(nowhere), false, {}}})) == "0 accepted, 1 refused");
  Fact aimless = strike_of(nowhere);
  aimless.strikes.reset();
  CHECK(verdict(bench.judge(std::vector<Proposal>{{aimless, false, {}}})) == "0 accepted, 1 refused");
}

TEST_CASE("a strike may be struck, and then its fact may be struck again") {
  Bench bench = hours();
  const FactId id = bench.known.reading("2026-01-01", "100").id;
  const FactId strike = bench.known.strike(id).id;
  CHECK(verdict(bench.judge(std::vector<Proposal>{{strike_of(strike), false, {}}})) == "1 accepted, 0 refused");
  bench.known.strike(strike);
  CHECK(verdict(bench.judge(std::vector<Proposal>{{strike_of(id), false, {}}})) == "1 accepted, 0 refused");
}

TEST_CASE("a strike needs no day") {
  Bench bench = hours();
  Fact dayless = strike_of(bench.known.reading("2026-01-01", "100").id);
  dayless.on = {};
  CHECK(verdict(bench.judge(std::vector<Proposal>{{dayless, false, {}}})) == "1 accepted, 0 refused");
}

TEST_CASE("a strike dated after today is refused as any fact is") {
  Bench bench = hours();
  const FactId id = bench.known.reading("2026-01-01", "100").id;
  CHECK(verdict(bench.judge(std::vector<Proposal>{{strike_of(id), false, {}}}, "2026-06-01")) ==
        "1 accepted, 0 refused");
  CHECK(verdict(bench.judge(std::vector<Proposal>{{strike_of(id), false, {}}}, "2026-05-31")) ==
        "0 accepted, 1 refused");
}

TEST_CASE("a file is judged as a whole: what it strikes bounds none of its readings") {
  Bench bench = hours();
  const FactId wrong = bench.known.reading("2026-01-01", "9999").id;
  bench.entry.reading("2026-02-01", "100");
  const Fact right = bench.entry.facts().front();
  CHECK(verdict(bench.judge(std::vector<Proposal>{{strike_of(wrong), false, {}}, {right, false, {}}})) ==
        "2 accepted, 0 refused");
}

TEST_CASE("what came into a file struck, with its strike, bounds none of the file's new readings") {
  Bench bench = hours();
  bench.entry.reading("2026-02-01", "100");
  const Fact right = bench.entry.facts().front();
  Fact wrong = right;
  wrong.on = day("2026-01-01");
  wrong.at = test::amount("9999");
  wrong.meter = "engine";
  wrong.id = {service::make_command_id(777, {}), 1};
  wrong.entered = 777;
  Fact strike = strike_of(wrong.id);
  strike.id = {service::make_command_id(778, {}), 1};
  strike.entered = 778;
  CHECK(verdict(bench.judge(std::vector<Proposal>{{wrong, true, {}}, {strike, true, {}}, {right, false, {}}})) ==
        "3 accepted, 0 refused");
}

TEST_CASE("a refusal tells the place of its row") {
  Bench bench = hours();
  bench.known.reading("2026-01-01", "100");
  bench.entry.reading("2026-02-01", "90");
  const service::Place place{"facts.csv", 7, 1, 1, "reading,m,2026-02-01,90"};
  const auto judgement = bench.judge(std::vector<Proposal>{{bench.entry.facts().front(), false, place}});
  REQUIRE(judgement.refused.size() == 1);
  REQUIRE(judgement.refused.front().place.has_value());
  CHECK(judgement.refused.front().place->file == "facts.csv");
  CHECK(judgement.refused.front().place->line == 7);
}
