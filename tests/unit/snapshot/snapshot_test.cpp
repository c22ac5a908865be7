// What is known on one day, of which machines, and how the machines stand.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "support/world.h"

using service::Fact;
using service::FactKind;
using service::Scope;
using service::Snapshot;
using service::UseKind;
using service::UseState;
using test::day;
using test::text_or_none;
using test::told;
using test::World;

namespace {

World machine(const std::string& start = "bought: {on: 2020-01-01, at: 0}") {
  return World("  t: {do: Work, every: {hours: 250, months: 12}}\n", start);
}

UseState state(const World& world, std::string_view as_of) {
  return service::use_state(world.snapshot(as_of), *world.fleet().machine("m"));
}

// Two sites with two machines each.
World farm() {
  service::FleetFiles files;
  files.texts["fleet.yaml"] =
      "fleet: Test\nsites:\n  yard: {name: Yard}\n  hill: {name: Hill}\nmachines:\n"
      "  a: {schedule: kind, site: yard, bought: {on: 2020-01-01, at: 0}}\n"
      "  b: {schedule: kind, site: hill, bought: {on: 2020-01-01, at: 0}}\n"
      "  c: {schedule: kind, site: yard, bought: {on: 2020-01-01, at: 0}}\n"
      "  d: {schedule: kind, site: hill, bought: {on: 2020-01-01, at: 0}}\n";
  files.texts["schedules/kind.yaml"] =
      "schedule: kind\ntasks:\n"
      "  oil: {do: Oil, every: {hours: 250, months: 12}}\n"
      "  air: {do: Air, every: {changes: {oil: 2}, signs: [smoke]}}\n";
  World world(files);
  int hours = 100;
  for (const std::string name : {"a", "b", "c"}) {
    for (const std::string_view on : {"2025-01-01", "2025-06-01", "2025-12-01"}) {
      Fact fact;
      fact.kind = FactKind::service;
      fact.machine = name;
      fact.task = "oil";
      fact.on = day(on);
      fact.at = service::Amount::units(hours += 110);
      world.add(fact);
    }
  }
  Fact smoke;
  smoke.kind = FactKind::sign;
  smoke.machine = "c";
  smoke.name = "smoke";
  smoke.on = day("2026-01-10");
  world.add(smoke);
  return world;
}

service::Extract of_scope(const World& world, const Scope& scope) {
  service::Extract extract{{}, service::kin_of(world.fleet(), scope), std::nullopt};
  for (const Fact& fact : world.facts()) {
    if (extract.read.holds(fact.machine)) extract.facts.push_back(fact);
  }
  return extract;
}

std::string line(const service::Point& point) {
  return point.machine->key + "/" + point.name + " " + told(point) + " " + text_or_none(point.due_span.p50) + "\n";
}

std::string all_points(const service::DueList& list, const Scope& scope) {
  std::string text;
  for (const service::Point& point : list.points) {
    if (scope.holds(point.machine->key)) text += line(point);
  }
  return text;
}

std::size_t facts_of(const service::Snapshot& snapshot, std::string_view machine) {
  return snapshot.facts_of(machine).size();
}

}  // namespace

TEST_CASE("facts dated after the day asked about are not there yet, whenever they were entered") {
  World world = machine();
  world.done("t", "2026-03-01", "500");  // entered first, dated last
  world.done("t", "2026-01-01", "400");
  CHECK(service::to_text(world.point("2026-02-28", "t").fitted->on) == "2026-01-01");
  CHECK(service::to_text(world.point("2026-03-01", "t").fitted->on) == "2026-03-01");
  CHECK(facts_of(world.snapshot("2025-12-31"), "m") == 0);
  CHECK(facts_of(world.snapshot("2026-02-28"), "m") == 1);
  CHECK(facts_of(world.snapshot("2026-03-01"), "m") == 2);
}

TEST_CASE("a later reading does not tell what was known on an earlier day") {
  World world = machine();
  world.reading("2026-01-01", "100");
  world.reading("2026-03-01", "700");
  const auto history = service::meter_histories(world.snapshot("2026-02-01"), *world.fleet().machine("m")).at("engine");
  CHECK(text_or_none(history.on(day("2026-02-01"))) == "100");
}

TEST_CASE("a fact known by its month only is there from the month's first day") {
  World world = machine();
  world.done("t", "2026-03");
  CHECK(facts_of(world.snapshot("2026-02-28"), "m") == 0);
  CHECK(facts_of(world.snapshot("2026-03-01"), "m") == 1);
}

TEST_CASE("a fact that was struck is not there on any day, also before the day of its strike") {
  World world = machine();
  world.done("t", "2026-01-01", "400");
  Fact strike;
  strike.kind = FactKind::strike;
  strike.on = day("2026-06-01");
  strike.strikes = world.done("t", "2026-02-01", "500").id;
  world.add(strike);
  for (const std::string_view as_of : {"2026-02-01", "2026-05-31", "2026-06-01", "2027-01-01"}) {
    CAPTURE(as_of);
    CHECK(service::to_text(world.point(as_of, "t").fitted->on) == "2026-01-01");
    CHECK(facts_of(world.snapshot(as_of), "m") == 1);
  }
}

TEST_CASE("a strike that was struck holds on no day") {
  World world = machine();
  const auto strike = world.strike(world.done("t", "2026-02-01", "500").id).id;
  world.strike(strike);
  CHECK(facts_of(world.snapshot("2026-02-01"), "m") == 1);
}

TEST_CASE("the facts of a machine are in order of day, then of entry") {
  World world = machine();
  world.reading("2026-03-01", "300");
  world.reading("2026-01-01", "100");
  world.reading("2026-03-01", "301");
  world.done("t", "2026");  // from 1 January on, entered last
  std::string order;
  const service::Snapshot snapshot = world.snapshot("2026-12-31");  // the facts live as long as it does
  for (const Fact& fact : snapshot.facts_of("m")) order += text_or_none(fact.at) + " ";
  CHECK(order == "100 none 300 301 ");
}

TEST_CASE("a machine without facts, or without a name here, has none") {
  World world = machine();
  world.reading("2026-01-01", "100");
  CHECK(facts_of(world.snapshot("2026-12-31"), "other") == 0);
  const service::Snapshot snapshot = world.snapshot("2026-12-31");
  CHECK(snapshot.unlisted().empty());
}

TEST_CASE("machines that the fleet does not list are told with the number of their facts") {
  World world = machine();
  for (const std::string name : {"zebra", "ghost", "zebra"}) {
    Fact fact;
    fact.kind = FactKind::sign;
    fact.name = "leak";
    fact.machine = name;
    fact.on = day("2026-01-0" + std::to_string(world.facts().size() + 1));
    world.add(fact);
  }
  const auto snapshot = world.snapshot("2026-02-01");
  REQUIRE(snapshot.unlisted().size() == 2);
  CHECK(snapshot.unlisted()[0].first == "ghost");
  CHECK(snapshot.unlisted()[0].second == 1);
  CHECK(snapshot.unlisted()[1].first == "zebra");
  CHECK(snapshot.unlisted()[1].second == 2);
}

TEST_CASE("a scope gives the same points as the whole fleet restricted to it") {
  const World world = farm();
  const auto whole = world.due("2026-01-15");
  CHECK(whole.points.size() == 8);
  CHECK(whole.machines == 4);
  std::vector<Scope> scopes = {
      {}, service::scope_of_site(world.fleet(), "yard"), service::scope_of_site(world.fleet(), "hill")};
  for (const std::string name : {"a", "b", "c", "d"}) scopes.push_back({std::vector{name}});
  for (const Scope& scope : scopes) {
    const Snapshot snapshot(std::make_shared<const service::Fleet>(world.fleet()), of_scope(world, scope),
                            day("2026-01-15"), true, scope);
    const auto part = service::due_list(snapshot, day("2026-01-15") + std::chrono::days{30});
    CHECK(all_points(part, {}) == all_points(whole, scope));
    CHECK_FALSE(part.points.empty());
  }
}

TEST_CASE("an extract without the machines of the kind gives no snapshot") {
  const World world = farm();
  const Scope one{std::vector<std::string>{"a"}};
  service::Extract extract = of_scope(world, one);
  extract.read = one;
  std::string code;
  try {
    const Snapshot snapshot(std::make_shared<const service::Fleet>(world.fleet()), extract, day("2026-01-15"), true,
                            one);
  } catch (const service::Failure& failure) {
    code = failure.diagnostics().front().code;
  }
  CHECK(code == "facts-missing");
}

TEST_CASE("a fact after a day off the clock is noticed though nobody named the newest day") {
  World world = farm();
  Fact later;
  later.machine = "a";
  later.on = day("2026-01-16");
  later.at = test::amount("900");
  world.add(later);
  const auto fleet = std::make_shared<const service::Fleet>(world.fleet());
  const auto newest = [&](service::Extract extract) {
    return text_or_none(Snapshot(fleet, std::move(extract), day("2026-01-15"), false).newest_fact());
  };
  CHECK(newest(service::whole_book(world.facts())) == "2026-01-16");
  CHECK(newest({world.facts(), {}, std::nullopt}) == "2026-01-16");
  CHECK(newest({world.facts(), {}, day("2026-01-20")}) == "2026-01-20");
  CHECK(newest(service::whole_book({})) == "none");
}

TEST_CASE("a scope counts its own machines and holds no others") {
  const World world = farm();
  const Scope yard = service::scope_of_site(world.fleet(), "yard");
  CHECK(yard.holds("a"));
  CHECK(yard.holds("c"));
  CHECK_FALSE(yard.holds("b"));
  CHECK(yard.holds(""));  // of facts without a machine
  const Snapshot snapshot(std::make_shared<const service::Fleet>(world.fleet()), of_scope(world, yard),
                          day("2026-01-15"), true, yard);
  CHECK(service::due_list(snapshot, day("2026-02-15")).machines == 2);
}

TEST_CASE("there is no scope of a site that does not exist") {
  const World world = farm();
  int status = 0;
  try {
    service::scope_of_site(world.fleet(), "yrd");
  } catch (const service::Failure& failure) {
    status = static_cast<int>(failure.kind());
  }
  CHECK(status == 64);
}

TEST_CASE("a machine is ours from the day it came to the day before it left") {
  for (const std::string start : {"in-service: 2025-03-01", "bought: 2025-03-01"}) {
    const World world = machine(start + ", left: 2026-03-01");
    const auto& kept = *world.fleet().machine("m");
    CHECK_FALSE(service::kept_on(kept, day("2025-02-28")));
    CHECK(service::kept_on(kept, day("2025-03-01")));
    CHECK(service::kept_on(kept, day("2026-02-28")));
    CHECK_FALSE(service::kept_on(kept, day("2026-03-01")));
  }
  const World always = machine("");
  CHECK(service::kept_on(*always.fleet().machine("m"), day("1950-01-01")));
}

TEST_CASE("a machine of which nobody said otherwise is in use") {
  CHECK(state(machine(), "2026-01-01").kind == UseKind::in_use);
}

TEST_CASE("a machine is laid up until somebody says that it is back") {
  World world = machine();
  world.state(FactKind::laid_up, "2026-01-10");
  world.state(FactKind::back, "2026-03-01");
  CHECK(state(world, "2026-01-09").kind == UseKind::in_use);
  CHECK(state(world, "2026-01-10").kind == UseKind::laid_up);
  CHECK(text_or_none(state(world, "2026-02-28").since) == "2026-01-10");
  CHECK(state(world, "2026-02-28").kind == UseKind::laid_up);
  CHECK(state(world, "2026-03-01").kind == UseKind::in_use);
}

TEST_CASE("a machine laid up until a day counts as in use from that day on") {
  World world = machine();
  world.state(FactKind::laid_up, "2026-01-10", "2026-03-01");
  CHECK(state(world, "2026-02-28").kind == UseKind::laid_up);
  CHECK(text_or_none(state(world, "2026-02-28").until) == "2026-03-01");
  CHECK(state(world, "2026-03-01").kind == UseKind::in_use);
}

TEST_CASE("a machine out of use stays so until somebody says that it is back") {
  World world = machine();
  world.state(FactKind::out_of_use, "2026-01-10").note = "brakes";
  CHECK(state(world, "2027-01-10").kind == UseKind::out_of_use);
  CHECK(text_or_none(state(world, "2027-01-10").since) == "2026-01-10");
  world.state(FactKind::back, "2026-02-01");
  CHECK(state(world, "2026-01-31").kind == UseKind::out_of_use);
  CHECK(state(world, "2026-02-01").kind == UseKind::in_use);
}

TEST_CASE("an unsafe machine that is laid up meanwhile is not in use when its time is over") {
  World world = machine();
  world.state(FactKind::out_of_use, "2026-01-10");
  world.state(FactKind::laid_up, "2026-01-20", "2026-03-01");
  CHECK(state(world, "2026-02-01").kind == UseKind::out_of_use);
  CHECK(state(world, "2026-03-02").kind == UseKind::out_of_use);
  World laid_up = machine();
  laid_up.state(FactKind::laid_up, "2026-01-10", "2026-03-01");
  laid_up.state(FactKind::out_of_use, "2026-01-20");
  CHECK(state(laid_up, "2026-01-19").kind == UseKind::laid_up);
  CHECK(state(laid_up, "2026-01-20").kind == UseKind::out_of_use);
  CHECK(state(laid_up, "2026-03-02").kind == UseKind::out_of_use);
}

TEST_CASE("the note of a state is told with it, and a struck state is none") {
  World world = machine();
  Fact fact;
  fact.kind = FactKind::out_of_use;
  fact.on = day("2026-01-10");
  fact.note = "steering play";
  const auto id = world.add(fact).id;
  CHECK(state(world, "2026-01-11").note == "steering play");
  world.strike(id);
  CHECK(state(world, "2026-01-11").kind == UseKind::in_use);
}

TEST_CASE("a second reason takes the place of none, and all of them end when it is back") {
  using Reasons = std::vector<service::UseReason>;
  World world = machine();
  world.state(FactKind::out_of_use, "2026-01-10").note = "fork worn";
  world.state(FactKind::out_of_use, "2026-02-05").note = "seat belt torn";
  const auto both = state(world, "2026-02-05");
  CHECK(text_or_none(both.since) == "2026-01-10");
  CHECK((both.reasons == Reasons{{day("2026-01-10"), "fork worn"}, {day("2026-02-05"), "seat belt torn"}}));
  CHECK(both.note == "fork worn; seat belt torn");
  CHECK(state(world, "2026-02-04").reasons.size() == 1);  // not said yet
  world.state(FactKind::out_of_use, "2026-02-05").note = "seat belt torn";
  CHECK(state(world, "2026-02-05").reasons.size() == 2);  // the same once more
  world.state(FactKind::back, "2026-03-01");
  world.state(FactKind::out_of_use, "2026-03-05").note = "steering play";
  CHECK((state(world, "2026-03-05").reasons == Reasons{{day("2026-03-05"), "steering play"}}));
}

TEST_CASE("a lay-up that is said anew stands since it began, until the day said last, and keeps why") {
  World world = machine();
  world.state(FactKind::laid_up, "2026-01-10", "2026-03-01").note = "drained";
  world.state(FactKind::laid_up, "2026-02-01").note = "no water yet";
  const auto standing = state(world, "2026-04-01");
  CHECK(standing.kind == UseKind::laid_up);
  CHECK(text_or_none(standing.since) == "2026-01-10");
  CHECK_FALSE(standing.until.has_value());
  CHECK(standing.note == "drained; no water yet");
  World over = machine();  // the first one was over before the second began
  over.state(FactKind::laid_up, "2026-01-10", "2026-03-01").note = "drained";
  over.state(FactKind::laid_up, "2026-03-01", "2026-05-01");
  CHECK(text_or_none(state(over, "2026-04-01").since) == "2026-03-01");
  CHECK(state(over, "2026-04-01").reasons.empty());
}

TEST_CASE("a lay-up and what is unsafe each keep their own day and reasons") {
  using Reasons = std::vector<service::UseReason>;
  World world = machine();
  world.state(FactKind::laid_up, "2026-01-10", "2026-03-01").note = "drained";
  world.state(FactKind::out_of_use, "2026-01-20").note = "fork worn";
  const auto both = state(world, "2026-02-01");
  CHECK(both.note == "fork worn");
  CHECK((both.reasons == Reasons{{day("2026-01-20"), "fork worn"}}));
  REQUIRE(both.laid_up.has_value());
  CHECK((both.laid_up->reasons == Reasons{{day("2026-01-10"), "drained"}}));
  CHECK_FALSE(state(world, "2026-03-01").laid_up.has_value());  // over, and unsafe all the same
  CHECK((state(world, "2026-01-15").laid_up->reasons == state(world, "2026-01-15").reasons));
}

TEST_CASE("a machine out of use keeps the days of its lay-up beside its own") {
  World world = machine();
  world.state(FactKind::laid_up, "2026-01-10", "2026-03-01");
  world.state(FactKind::out_of_use, "2026-01-20");
  const auto both = state(world, "2026-02-01");
  REQUIRE(both.laid_up.has_value());
  CHECK((*both.laid_up == service::LayUp{day("2026-01-10"), day("2026-03-01")}));
  CHECK(text_or_none(both.since) == "2026-01-20");
  CHECK_FALSE(state(world, "2026-03-01").laid_up.has_value());
}
