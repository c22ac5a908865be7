// Facts at the door: what each kind needs, names that do not exist, and what is no fact.
#include <doctest/doctest.h>

#include <algorithm>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "unit/snapshot/judge_support.h"

using service::Fact;
using service::FactKind;
using test::Bench;
using test::day;
using test::tells;
using test::verdict;

namespace {

const std::string tasks =
    "  engine-oil: {do: Oil, every: {hours: 250, signs: [leak]}, follow-up: {check-leaks: {do: Look, within: {hours: "
    "1}}}}\n"
    "  brakes: {do: Brakes, every: {months: 12}, safety: true}\n"
    "  exam: {do: Examine, every: {months: 12}, by-whom: competent-person, follow-up: {tags: {do: Look, within: "
    "{days: 7}}}}\n"
    "  tyre: {do: Tyre, every: {years: 9, measured: {tread: {below: 3, unit: mm}}}, positions: [left, right]}\n";
const std::string more = "parts: {oil-filter: {}}\n";
const std::string meters = "meters: {engine: {unit: h}, odometer: {unit: km}}\n";

Bench bench() { return Bench(tasks, "bought: 2020-01-01", more, meters); }

Fact of(FactKind kind, std::string_view on = "2026-05-01") {
  Fact fact;
  fact.kind = kind;
  fact.machine = "m";
  fact.on = day(on);
  return fact;
}

Fact count_of(std::string_view part, std::string_view value) {
  Fact fact = of(FactKind::count);
  fact.machine.clear();
  fact.part = part;
  fact.value = *service::parse_measure(value);
  return fact;
}

// The least that each kind needs.
std::vector<Fact> sound() {
  Fact reading = of(FactKind::reading);
  reading.at = test::amount("100");
  Fact done = of(FactKind::service);
  done.task = "engine-oil";
  Fact sign = of(FactKind::sign);
  sign.name = "leak";
  Fact measured = of(FactKind::measurement);
  measured.name = "tread";
  measured.value = *service::parse_measure("8");
  Fact change = of(FactKind::meter_change);
  change.last = test::amount("100");
  change.first = test::amount("0");
  Fact put_off = of(FactKind::put_off);
  put_off.task = "engine-oil";
  put_off.until = day("2026-08-01");
  return {reading,
          done,
          sign,
          measured,
          change,
          put_off,
          of(FactKind::laid_up),
          of(FactKind::out_of_use),
          of(FactKind::back),
          count_of("oil-filter", "3")};
}

service::Judgement judge_one(const Fact& fact, std::string_view today = "2026-05-01") {
  return bench().judge({{fact, false, {}}}, today);
}

bool accepts(const Fact& fact, std::string_view today = "2026-05-01") {
  const auto judgement = judge_one(fact, today);
  CHECK(judgement.accepted.size() + judgement.refused.size() == 1);
  return judgement.refused.empty();
}

Fact changed(Fact fact, const std::function<void(Fact&)>& change) {
  change(fact);
  return fact;
}

}  // namespace

TEST_CASE("the least that each kind needs is enough") {
  for (const Fact& fact : sound()) {
    CAPTURE(std::string(service::to_text(fact.kind)));
    CHECK(accepts(fact));
  }
}

TEST_CASE("a usage is enough to put off until, and a day with it too") {
  Fact until_usage = of(FactKind::put_off);
  until_usage.task = "engine-oil";
  until_usage.at = test::amount("500");
  CHECK(accepts(until_usage));
  until_usage.until = day("2026-08-01");
  CHECK(accepts(until_usage));
}

TEST_CASE("a fact dated after today is refused, for a plan is no fact") {
  for (const Fact& fact : sound()) {
    CAPTURE(std::string(service::to_text(fact.kind)));
    CHECK(accepts(fact, "2026-05-01"));
    CHECK_FALSE(accepts(fact, "2026-04-30"));
  }
}

TEST_CASE("a service known by this year or this month is no plan, one in the next is") {
  Fact fact = of(FactKind::service);
  fact.task = "engine-oil";
  fact.on = test::span("2026");
  CHECK(accepts(fact, "2026-05-01"));
  fact.on = test::span("2026-05");
  CHECK(accepts(fact, "2026-05-01"));
  fact.on = test::span("2026-06");
  CHECK_FALSE(accepts(fact, "2026-05-01"));
}

TEST_CASE("a name that does not exist is refused with the nearest one") {
  struct Row {
    std::function<void(Fact&)> slip;
    std::size_t of;
    std::string_view meant;
  };
  for (const Row& row : {Row{[](Fact& fact) { fact.task = "engine-oli"; }, 1, "engine-oil"},
                         Row{[](Fact& fact) { fact.task = "engine-oil/check-leak"; }, 1, "engine-oil/check-leaks"},
                         Row{[](Fact& fact) { fact.task = "tyre", fact.position = "lefft"; }, 1, "left"},
                         Row{[](Fact& fact) { fact.meter = "odometr"; }, 0, "odometer"},
                         Row{[](Fact& fact) { fact.meter = "odometr"; }, 4, "odometer"},
                         Row{[](Fact& fact) { fact.task = "engine-oli"; }, 5, "engine-oil"},
                         Row{[](Fact& fact) { fact.part = "oil-filte"; }, 9, "oil-filter"}}) {
    CAPTURE(row.meant);
    const auto judgement = judge_one(changed(sound()[row.of], row.slip));
    CHECK(verdict(judgement) == "0 accepted, 1 refused");
    CHECK(tells(judgement, "did you mean `" + std::string(row.meant) + "`?"));
  }
}

TEST_CASE("a machine that does not exist is refused with the nearest one") {
  service::FleetFiles files;
  files.texts["fleet.yaml"] = "fleet: Test\nmachines:\n  loader: {schedule: kind}\n  dryer: {schedule: kind}\n";
  files.texts["schedules/kind.yaml"] = "schedule: kind\ntasks:\n  oil: {do: Oil, every: {hours: 250}}\n";
  const auto fleet = service::read_fleet(files);
  for (Fact fact : sound()) {
    if (fact.kind == FactKind::count) continue;
    CAPTURE(std::string(service::to_text(fact.kind)));
    fact.machine = "loadr";
    const auto judgement = service::judge(fleet, {}, {{fact, false, {}}}, Bench::stamp(), day("2026-05-01"));
    CHECK(verdict(judgement) == "0 accepted, 1 refused");
    CHECK(tells(judgement, "did you mean `loader`?"));
  }
}

TEST_CASE("a follow-up is named by its task and its check") {
  Fact fact = of(FactKind::service);
  fact.task = "engine-oil/check-leaks";
  CHECK(accepts(fact));
  fact.task = "check-leaks";
  CHECK_FALSE(accepts(fact));
  fact.task = "brakes/check-leaks";
  CHECK_FALSE(accepts(fact));
}

TEST_CASE("a position is refused where the task has none") {
  Fact fact = of(FactKind::service);
  fact.task = "engine-oil";
  fact.position = "left";
  CHECK_FALSE(accepts(fact));
  fact.task = "tyre";
  CHECK(accepts(fact));
  fact.position.clear();  // all of them
  CHECK(accepts(fact));
}

TEST_CASE("an examination needs a name of who did it") {
  Fact fact = of(FactKind::service);
  fact.task = "exam";
  CHECK_FALSE(accepts(fact));
  fact.by = "Inspector Moe";
  CHECK(accepts(fact));
}

TEST_CASE("what is a matter of safety cannot be put off") {
  Fact fact = of(FactKind::put_off);
  fact.until = day("2026-08-01");
  fact.task = "brakes";
  CHECK_FALSE(accepts(fact));
  fact.task = "engine-oil";
  CHECK(accepts(fact));
}

TEST_CASE("what is for a competent person cannot be put off, and the cure is to let nobody run it") {
  Fact fact = of(FactKind::put_off);
  fact.until = day("2026-08-01");
  for (const auto& [task, code] : {std::pair{"brakes", "safety-put-off"}, std::pair{"exam", "examination-put-off"}}) {
    fact.task = task;
    const auto refused = bench().judge({{fact, false, {}}}).refused;
    REQUIRE(refused.size() == 1);
    CHECK(refused[0].code == code);
    REQUIRE(refused[0].cures.size() == 1);
    CHECK((refused[0].cures[0].kind == service::CureKind::take_out_of_use));
    CHECK(refused[0].cures[0].value("machine") == "m");
  }
  fact.task = "exam/tags";  // anybody can look whether the tags are on
  CHECK(accepts(fact));
}

TEST_CASE("a measurement in another unit than the limit's is refused, and one without a unit gets the limit's") {
  Fact fact = sound()[3];
  fact.unit = "in";
  CHECK_FALSE(accepts(fact));
  CHECK(tells(judge_one(fact), "mm"));
  fact.unit = "mm";
  CHECK(accepts(fact));
  fact.unit.clear();
  const auto judgement = judge_one(fact);
  REQUIRE(judgement.accepted.size() == 1);
  CHECK(judgement.accepted.front().unit == "mm");
}

TEST_CASE("a sign and a measurement get the listed name, however it was typed") {
  Fact sign = sound()[2];
  sign.name = "Leak ";
  auto judgement = judge_one(sign);
  REQUIRE(judgement.accepted.size() == 1);
  CHECK(judgement.accepted.front().name == "leak");
  CHECK(judgement.said.empty());
  Fact measured = sound()[3];
  measured.name = "TREAD";
  measured.unit.clear();
  judgement = judge_one(measured);
  REQUIRE(judgement.accepted.size() == 1);
  CHECK(judgement.accepted.front().name == "tread");
  CHECK(judgement.accepted.front().unit == "mm");
  measured.name = "tred";
  judgement = judge_one(measured);
  REQUIRE(judgement.accepted.size() == 1);
  CHECK(judgement.accepted.front().name == "tred");
  REQUIRE(judgement.said.size() == 1);
  CHECK(judgement.said.front().find("kept as seen") != std::string::npos);
  CHECK(judgement.said.front().find("`tread`, if that was meant") != std::string::npos);
}

TEST_CASE("a look is about what was seen, and names who looked where a check found the machine failed") {
  Fact failed = of(FactKind::service);
  failed.task = "brakes";
  failed.found = service::Found::failed;
  Fact look = of(FactKind::looked_at);
  look.note = "nothing";
  look.name = "brakes found failed";
  CHECK_FALSE(accepts(look));  // nobody found it
  const auto both = [&] { return bench().judge({{failed, false, {}}, {look, false, {}}}).refused; };
  const auto refused = both();
  REQUIRE(refused.size() == 1);
  CHECK(refused[0].code == "needs-by");
  look.by = "M.T.";
  look.name = "Brakes found-failed";
  CHECK(both().empty());
  look.name = "brakes";
  CHECK(both().size() == 1);
}

TEST_CASE("a value without a meter gets the machine's first meter by name") {
  for (const std::size_t i : {std::size_t{0}, std::size_t{4}}) {
    const auto judgement = judge_one(sound()[i]);
    REQUIRE(judgement.accepted.size() == 1);
    CHECK(judgement.accepted.front().meter == "engine");
  }
  Fact done = sound()[1];
  done.at = test::amount("100");
  const auto judgement = judge_one(done);
  REQUIRE(judgement.accepted.size() == 1);
  CHECK(judgement.accepted.front().meter == "engine");
}
