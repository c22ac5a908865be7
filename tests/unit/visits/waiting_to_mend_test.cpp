// What was found worn or failed and is not mended: told where somebody goes, and where nobody does.
#include "service/waiting_to_mend.h"

#include "service/rounds_list.h"
#include "service/visits_list.h"
#include "unit/visits/estate.h"

using namespace service;
using estate::by_hand;
using estate::Estate;
using estate::Texts;
using test::day;

namespace {

// A second loader at holm whose brakes are looked at for safety, and were found failed; and a noise of the pump.
Texts two_loaders() {
  Texts texts;
  texts.machines += "  second: {name: Second, schedule: tractor, site: holm, in-service: {on: 2020-03-01, at: 0}}\n";
  texts.tractor = std::string(texts.tractor).replace(texts.tractor.find("takes: 40"), 5, "safety: true, takes");
  return texts;
}

Estate found_bad(const Texts& texts = two_loaders()) {
  Estate place(texts);
  place.usual().done("second", "engine-oil", "2026-04-20");
  Fact& brakes = place.world.done("brakes", "2026-04-28");
  brakes.machine = "second";
  brakes.found = Found::failed;
  brakes.note = "pads gone";
  return place;
}

void looked(Estate& place, std::string_view machine, std::string_view sign, Found found) {
  Fact fact;
  fact.kind = FactKind::looked_at;
  fact.machine = machine;
  fact.name = sign;
  fact.on = test::span("2026-05-02");
  fact.found = found;
  fact.note = "bearing worn";
  place.world.add(fact);
}

std::string text_of(const std::vector<const WaitsToMend*>& waiting) {
  std::string text;
  for (const WaitsToMend* one : waiting) {
    text += (text.empty() ? "" : "; ") + one->machine->key + ' ';
    text += one->seen != nullptr ? one->seen->sign : point_label(one->task, one->position) + ' ' + one->limb->name;
  }
  return text;
}

std::string waiting_at_stops(const RoundsList& list) {
  std::string text;
  for (const Round& round : list.plan.rounds) {
    for (const RoundStop& stop : round.stops) {
      text += list.week().visits[stop.visit].name + ": " + text_of(waiting_at(list, round, stop)) + ". ";
    }
  }
  return text;
}

std::string seen_of(const std::vector<const SeenSign*>& seen) {
  std::string text;
  for (const SeenSign* one : seen) text += one->sign + ". ";
  return text;
}

}  // namespace

TEST_CASE("what a check found failed, or a look, waits to be mended; what was only seen does not") {
  Estate place = found_bad();
  place.world.sign("strange noise", "2026-05-01").machine = "pump";
  const Week before = place.week();
  const auto first = waiting_to_mend(*before.list);
  REQUIRE(first.size() == 1);
  CHECK(first[0].seen->sign == "brakes found failed");
  CHECK(first[0].task == "brakes");
  CHECK(first[0].position.empty());
  CHECK((first[0].found == Found::failed));
  CHECK(first[0].site->key == "holm");
  CHECK(first[0].call == nullptr);
  looked(place, "pump", "strange noise", Found::worn);
  const Week after = place.week();
  const auto both = waiting_to_mend(*after.list);
  REQUIRE(both.size() == 2);
  CHECK(both[0].seen->sign == "strange noise");
  CHECK(both[0].task.empty());
  CHECK((both[0].found == Found::worn));
  CHECK(both[0].site->key == "beck");
  // Mended, and found good.
  looked(place, "pump", "strange noise", Found::good);
  place.done("second", "brakes", "2026-05-02");
  CHECK(waiting_to_mend(*place.week().list).empty());
}

TEST_CASE("what was measured at its limit waits to be mended where the task only looks") {
  const std::string below = ": {below: 15, unit: mm}}}, takes: 1 h";
  Texts texts = two_loaders();
  texts.tractor += "  tyre: {do: Check, positions: [left, right], every: {months: 12, measured: {tread" + below + "}\n";
  texts.tractor += "  shoe: {do: Renew it, parts: {shoe: 1}, every: {months: 12, measured: {thick" + below + "}\n";
  Estate place(texts);
  place.usual().done("second", "brakes", "2026-04-28").done("second", "engine-oil", "2026-04-20");
  for (const char* task : {"tyre", "shoe"}) {
    for (const char* machine : {"loader", "second"}) place.done(machine, task, "2026-04-01");
  }
  place.world.measured("tread", "15", "2026-05-01", "mm", "left").machine = "second";
  place.world.measured("tread", "16", "2026-05-01", "mm", "right").machine = "second";
  place.world.measured("thick", "9", "2026-05-02", "mm").machine = "second";  // of the shoe: a new one goes in
  const Week week = place.week();
  const auto waiting = waiting_to_mend(*week.list);
  REQUIRE(waiting.size() == 1);
  CHECK(waiting[0].seen == nullptr);
  CHECK(waiting[0].machine->key == "second");
  CHECK(point_label(waiting[0].task, waiting[0].position) == "tyre@left");
  CHECK_FALSE(waiting[0].found.has_value());
  CHECK(*waiting[0].limb->noticed_on == day("2026-05-01"));
  std::string unmended;
  for (const Point& point : week.list->points) {
    if (leaves_unmended(*week.list, point)) unmended += point_label(point.name, point.position) + ' ';
  }
  CHECK(unmended == "tyre@left ");
  // Found worn as well, it is one thing to mend.
  Fact& found = place.world.done("tyre", "2026-05-02", "", "left");
  found.machine = "second";
  found.found = Found::worn;
  CHECK(waiting_to_mend(*place.week().list).size() <= 1);
}

TEST_CASE("a call to the machine may be for it") {
  Texts texts = two_loaders();
  texts.calls = "  c-02: {machine: second, do: New brake pads, takes: 2 h}\n";
  const Week week = found_bad(texts).week();
  const auto waiting = waiting_to_mend(*week.list);
  REQUIRE(waiting.size() == 1);
  REQUIRE(waiting[0].call != nullptr);
  CHECK(waiting[0].call->key == "c-02");
}

TEST_CASE("a round is told at its first stop at the site what waits there, and the end what waits elsewhere") {
  Estate place = found_bad();
  place.world.sign("strange noise", "2026-05-01").machine = "pump";
  looked(place, "pump", "strange noise", Found::failed);
  place.world.sign("drip", "2026-05-01").machine = "pump";
  const Week week = place.week();
  const RoundsList loader = rounds_list(by_hand(week, {{"loader"}}));
  CHECK(loader.to_mend.size() == 2);
  CHECK(waiting_at_stops(loader) == "loader: second brakes found failed. ");
  CHECK(text_of(waiting_elsewhere(loader)) == "pump strange noise");
  CHECK(seen_of(seen_beside_mending(loader)) == "drip. ");
  // At its own stop too, where only what nobody has looked at yet is left to look at.
  const RoundsList pump = rounds_list(by_hand(week, {{}, {"pump", "call c-01"}}));
  CHECK(waiting_at_stops(pump) == "pump: pump strange noise. call c-01: . ");
  CHECK(seen_of(to_look_at(pump, week.visits[estate::visit_named(week, "pump")])) == "drip. ");
  CHECK(text_of(waiting_elsewhere(pump)) == "second brakes found failed");
  const RoundsList both = rounds_list(by_hand(week, {{"loader"}, {"call c-01"}}));
  CHECK(waiting_at_stops(both) == "loader: second brakes found failed. call c-01: pump strange noise. ");
  CHECK(waiting_elsewhere(both).empty());
  // Of a site its own.
  CHECK(rounds_list(by_hand(week, {{"loader"}}), week.fleet->site("beck")).to_mend.size() == 1);
  CHECK(rounds_list(by_hand(week, {{"loader"}}), week.fleet->site("workshop")).to_mend.empty());
  // It is something to do, wherever it stands.
  CHECK(needs_doing(loader));
}

TEST_CASE("the visits of the weeks ahead tell it at the first visit to the site") {
  const Estate place = found_bad();
  const auto snapshot = place.world.snapshot("2026-05-03");
  const VisitsList list = visits_list(snapshot, straight_line(), {day("2026-05-17")});
  REQUIRE(list.plan.visits.size() == 2);
  CHECK(list.plan.visits[0].site->key == "holm");
  CHECK(text_of(waiting_at(list, list.plan.visits[0])) == "second brakes found failed");
  CHECK(waiting_at(list, list.plan.visits[1]).empty());
  CHECK(text_of(waiting_of(list, *place.world.fleet().machine("second"))) == "second brakes found failed");
  CHECK(waiting_of(list, *place.world.fleet().machine("loader")).empty());
  CHECK(waiting_elsewhere(list).empty());
  CHECK(seen_beside_mending(list).empty());
  // Who goes there for the other machine is told, too; who asks about another site is not.
  const VisitsList loader = visits_list(snapshot, straight_line(), {day("2026-05-17")}, {{{"loader"}}});
  REQUIRE(loader.plan.visits.size() == 1);
  CHECK(text_of(waiting_at(loader, loader.plan.visits[0])) == "second brakes found failed");
  CHECK(visits_list(snapshot, straight_line(), {day("2026-05-17")}, {{{"pump"}}}).to_mend.empty());
  // A visit that is cut away tells nothing, so it is told behind.
  VisitsList cut = list;
  std::erase_if(cut.plan.visits, [](const SiteVisit& visit) { return visit.site->key == "holm"; });
  CHECK(text_of(waiting_elsewhere(cut)) == "second brakes found failed");
}

TEST_CASE("all that forbids to run a machine that stands waits to be mended, for nothing of it is planned") {
  Texts texts = two_loaders();
  texts.tractor += "  shoe: {do: Renew it, safety: true, parts: {shoe: 1}, every: {months: 12, measured: {thick: ";
  texts.tractor += "{below: 15, unit: mm}}}, takes: 1 h}\n";
  texts.tractor += "  hoses: {do: Renew them, safety: true, parts: {hose: 2}, every: {years: 6, signs: [leak]}}\n";
  Estate place(texts);
  place.usual().done("second", "brakes", "2026-04-28").done("second", "engine-oil", "2026-04-20");
  for (const char* task : {"shoe", "hoses"}) {
    for (const char* machine : {"loader", "second"}) place.done(machine, task, "2026-04-01");
  }
  place.world.measured("thick", "9", "2026-05-01", "mm").machine = "second";
  place.world.sign("leak", "2026-05-01").machine = "second";
  looked(place, "second", "leak", Found::worn);
  CHECK(waiting_to_mend(*place.week().list).empty());  // both have their services in the plan
  Fact out;
  out.kind = FactKind::out_of_use;
  out.machine = "second";
  out.on = test::span("2026-05-02");
  place.world.add(out);
  const Week week = place.week();
  const auto waiting = waiting_to_mend(*week.list);
  std::vector<const WaitsToMend*> all;
  for (const WaitsToMend& one : waiting) all.push_back(&one);
  const std::string text = text_of(all);
  CHECK(waiting.size() == 2);
  CHECK(text.find("second shoe thick") != std::string::npos);
  CHECK(text.find("second hoses") != std::string::npos);
  const NotToRun stopped(*week.list);
  REQUIRE(stopped.bans().size() == 1);
  CHECK(stopped.bans().front().points.size() == 2);
}
