// A week planned anew from a plan that was kept.
#include <doctest/doctest.h>

#include "service/broken_promise.h"
#include "service/rounds_list.h"
#include "service/safety_left.h"
#include "unit/visits/estate.h"

using namespace service;
using estate::by_hand;
using estate::Estate;
using estate::names_of;
using estate::Texts;
using estate::visit_named;
using test::day;

namespace {

// The worked example, handed out.
GivenPlan first_plan() { return as_given(by_hand(Estate().usual().week(), {{"loader"}, {"pump", "call c-01"}})); }

Week replanned(const GivenPlan& keep, std::string_view from = "2026-05-04", const Texts& texts = {}) {
  WeekAsk ask{day(from), days_between(day(from), day("2026-05-11"))};
  ask.keep = keep;
  return Estate(texts).usual().week(ask);
}

std::string where(const std::optional<std::pair<std::string, Day>>& at) {
  return at ? at->first + ' ' + to_text(at->second) : "none";
}

std::string changes_of(const RoundsPlan& plan) {
  std::string text;
  for (const PlanChange& change : plan.changes) {
    text += (text.empty() ? "" : "; ") + change.visit + ": " + where(change.was) + " -> " + where(change.is) +
            (change.wanted ? " (" : " (no longer wanted, ") +
            (change.site == nullptr ? "nobody knows where" : change.site->key) + ")";
  }
  return text;
}

}  // namespace

TEST_CASE("rounds of days before the week are done") {
  const Week week = replanned(first_plan(), "2026-05-05");
  CHECK(names_of(week) == "pump, pump+pressure, call c-01");
  CHECK((week.done == std::vector<std::string>{"loader"}));
}

TEST_CASE("of a done visit that names its tasks only those are done") {
  GivenPlan plan = first_plan();
  plan.rounds[0].stops[0].tasks = {{{"brakes", ""}}};
  CHECK(names_of(replanned(plan, "2026-05-05")) == "loader, pump, pump+pressure, call c-01");
  plan.rounds[0].stops[0].tasks.reset();  // and all of one that names none
  CHECK(names_of(replanned(plan, "2026-05-05")) == "pump, pump+pressure, call c-01");
}

TEST_CASE("what a done visit was to do and the book does not have is told") {
  Texts texts;
  texts.tractor =
      std::string(texts.tractor).replace(texts.tractor.find("takes: 40 min}"), 14, "takes: 40 min, safety: true}");
  GivenPlan plan = first_plan();
  plan.rounds[0].stops[0].tasks = {{{"engine-oil", ""}, {"brakes", ""}}};
  WeekAsk ask{day("2026-05-05"), 6};
  ask.keep = plan;
  const auto told = [&](const Week& week) {
    std::string text;
    for (const NotInBook& one : week.not_in_book) {
      text += one.visit + ' ' + one.point->name + ' ' + one.crew->key + ' ' + to_text(one.on) +
              (keep_out_of_use(one, week.to) ? " keep out; " : "; ");
    }
    return text;
  };
  Estate due(texts);
  due.done("loader", "engine-oil", "2025-04-20").done("loader", "brakes", "2025-10-20");
  CHECK(told(due.week(ask)) == "loader brakes van 2026-05-04 keep out; loader engine-oil van 2026-05-04; ");
  due.done("loader", "engine-oil", "2026-05-04");
  CHECK(told(due.week(ask, "2026-05-05")) == "loader brakes van 2026-05-04 keep out; ");
  due.done("loader", "brakes", "2026-05-05");
  CHECK(told(due.week(ask, "2026-05-05")).empty());
}

TEST_CASE("a call for safety that is taken as done keeps its machine out of use while the fleet still lists it") {
  Texts texts;
  texts.calls = "  hose: {machine: pump, do: Hose has burst, takes: 30 min, safety: true}\n";
  texts.sites.replace(texts.sites.find("2026-05-04, "), 12, "");
  WeekAsk ask{day("2026-05-05"), 6};
  ask.keep = as_given(by_hand(Estate(texts).usual().week(), {{"call hose"}, {"pump"}}));
  const auto plan_of = [&](const Texts& of) { return by_hand(Estate(of).usual().week(ask, "2026-05-05"), {{"pump"}}); };
  const RoundsPlan plan = plan_of(texts);
  REQUIRE(plan.week.calls_still_listed.size() == 1);
  const CallStillListed& hose = plan.week.calls_still_listed.front();
  CHECK(hose.call->key == "hose");
  CHECK(hose.machine->key == "pump");
  CHECK(hose.crew->key == "van");
  CHECK(hose.on == day("2026-05-04"));
  CHECK(keep_out_of_use(hose));
  const auto left = safety_left(plan, plan.rounds[0], plan.rounds[0].stops[0]);
  REQUIRE(left.size() == 1);
  CHECK(left[0].call == hose.call);
  CHECK(left[0].why == WhyLeft::not_in_book);
  // Of another site nothing is told; nor of a call that somebody took out, or that is not for safety.
  CHECK(rounds_list(plan, plan.week.fleet->site("holm")).week().calls_still_listed.empty());
  Texts harmless = texts;
  harmless.calls.replace(harmless.calls.find(", safety: true"), 14, "");
  const RoundsPlan without = plan_of(harmless);
  CHECK_FALSE(keep_out_of_use(without.week.calls_still_listed.front()));
  CHECK(needs_doing(rounds_list(without)));
  CHECK(safety_left(without, without.rounds[0], without.rounds[0].stops[0]).empty());
  Texts gone = texts;
  gone.calls = "";
  CHECK(plan_of(gone).week.calls_still_listed.empty());
}

TEST_CASE("a promise ties a visit to its crew and day") {
  GivenPlan plan = first_plan();
  plan.rounds[0].stops[0].promised = true;
  const Week week = replanned(plan);
  const std::size_t loader = visit_named(week, "loader");
  CHECK((week.visits[loader].promised == 0U));
  CHECK(week.visits[loader].options[0].possible);
  CHECK_FALSE(week.visits[loader].options[1].possible);
  CHECK_FALSE(week.visits[loader].impossible.has_value());
  const auto made = by_hand(week, {{"loader"}});
  CHECK(made.rounds[0].stops[0].promised);
  // Left out all the same, it is a broken promise.
  const auto broken = by_hand(week, {{}});
  for (const NotThisWeek& out : broken.not_this_week) {
    if (out.visit == loader) CHECK(out.reason == PutOffReason::promise_broken);
  }
}

TEST_CASE("a promise that can no longer be kept is broken") {
  GivenPlan plan = first_plan();
  plan.rounds[1].stops[0].promised = true;
  Texts closed;
  closed.sites = std::string(closed.sites).replace(closed.sites.find("[2026-05-04, harvest]"), 21, "[2026-05-05]");
  const Week week = replanned(plan, "2026-05-04", closed);
  const std::size_t pump = visit_named(week, "pump");
  CHECK((week.visits[pump].impossible == PutOffReason::promise_broken));
  CHECK_FALSE(week.visits[pump].options[0].possible);

  plan.rounds[1].crew = "lorry";  // which is not there
  CHECK((replanned(plan).visits[pump].impossible == PutOffReason::promise_broken));
}

TEST_CASE("a promise that nobody goes for any more is broken, one that is done is not") {
  GivenPlan plan = first_plan();
  plan.rounds[0].stops[0].promised = true;
  plan.rounds[1].stops[1].promised = true;
  WeekAsk ask{day("2026-05-04")};
  ask.keep = plan;
  Estate laid_up;
  laid_up.usual().world.state(FactKind::laid_up, "2026-04-01").machine = "loader";
  const RoundsPlan without = by_hand(laid_up.week(ask), {{}, {"pump", "call c-01"}});
  CHECK(without.promises_broken == 1);
  CHECK(without.promises_kept == 1);
  REQUIRE(without.changes.size() == 1);
  CHECK(without.changes[0].is_promise_lost());
  Estate served;
  served.usual().done("loader", "engine-oil", "2026-05-03").done("loader", "brakes", "2026-05-03");
  CHECK(by_hand(served.week(ask), {{}, {"pump", "call c-01"}}).promises_broken == 0);
  // Of a call nobody knows whether it is done, called off or of another name.
  Texts texts;
  texts.calls = "";
  const RoundsPlan gone = by_hand(Estate(texts).usual().week(ask), {{"loader"}, {"pump"}});
  CHECK(gone.promises_broken == 1);
  REQUIRE(gone.changes.size() == 1);
  CHECK(gone.changes[0].unlisted);
  CHECK(promised_to_nobody(*gone.week.fleet, plan, ask.from).empty());
  // A machine that is not there is asked back, from the first day on that is planned anew.
  plan.rounds[0].stops[0].visit = "laoder";
  plan.rounds[0].stops[0].machine.reset();
  const auto unknown = promised_to_nobody(*gone.week.fleet, plan, ask.from);
  REQUIRE(unknown.size() == 1);
  CHECK(unknown[0].says.find("`loader`") != std::string::npos);
  CHECK(promised_to_nobody(*gone.week.fleet, plan, day("2026-05-05")).empty());
}

TEST_CASE("a plan of another fleet is told from one that says no fleet") {
  GivenPlan plan = first_plan();
  const Week week = Estate().usual().week();
  CHECK(of_other_fleet(*week.fleet, plan).empty());
  plan.fleet = "Other";
  CHECK(of_other_fleet(*week.fleet, plan).starts_with("is of the fleet `Other`"));
  plan.fleet.reset();
  CHECK(of_other_fleet(*week.fleet, plan).empty());
}

TEST_CASE("of a site is told what was done before at it alone") {
  const RoundsPlan plan = by_hand(replanned(first_plan(), "2026-05-05"), {{"pump"}});
  const auto told = [&](const char* site) { return rounds_list(plan, plan.week.fleet->site(site)); };
  CHECK((told("holm").week().done == std::vector<std::string>{"loader"}));
  CHECK(told("beck").week().done.empty());
  CHECK_FALSE(taken_before(told("holm")).parts.empty());
  CHECK(taken_before(told("beck")).parts.empty());
}

TEST_CASE("what differs from the plan that was kept") {
  CHECK(changes_of(by_hand(replanned(first_plan()), {{"loader"}, {"pump", "call c-01"}})) == "");
  CHECK(changes_of(by_hand(replanned(first_plan()), {{}, {"pump", "loader"}})) ==
        "loader: van 2026-05-04 -> van 2026-05-05 (holm); call c-01: van 2026-05-05 -> none (beck)");
  // A call that is answered, and one that is new.
  Texts texts;
  texts.calls = "  c-02: {site: beck, do: Look, takes: 10 min}\n";
  CHECK(changes_of(by_hand(replanned(first_plan(), "2026-05-05", texts), {{"pump", "call c-02"}})) ==
        "call c-01: van 2026-05-05 -> none (no longer wanted, beck); call c-02: none -> van 2026-05-05 (beck)");
  // By hand no more than the name may be given: a machine tells where it stands, an answered call does not.
  GivenPlan by_name = first_plan();
  for (GivenStop& stop : by_name.rounds[1].stops) {
    GivenStop named;
    named.visit = stop.visit;
    stop = named;
  }
  Texts put_off;
  put_off.calls = "";
  put_off.pump = "  other: {do: Look, every: {months: 12}, takes: 10 min}\n";
  Estate done(put_off);
  done.done("loader", "engine-oil", "2025-04-20").done("loader", "brakes", "2025-11-06");
  WeekAsk ask{day("2026-05-05"), 6};
  ask.keep = by_name;
  CHECK(changes_of(by_hand(done.done("pump", "other", "2026-01-01").week(ask), {})) ==
        "pump: van 2026-05-05 -> none (no longer wanted, beck); "
        "call c-01: van 2026-05-05 -> none (no longer wanted, nobody knows where)");
}

TEST_CASE("what has no visit without a crew that works later in the week is told why, and work for safety stays") {
  Texts texts;
  texts.crews += "  anna: {start: workshop, hours: {sat: \"08:00-12:00\"}}\n";
  texts.sites.replace(texts.sites.find("mon-fri"), 7, "mon-sat");
  texts.tractor += "  horn: {do: Try the horn, every: {months: 12}, takes: 10 min, safety: true}\n";
  texts.machines.replace(texts.machines.find("  hoist: {name: Hoist, schedule: hoist"), 38,
                         "  hoist: {name: Hoist, schedule: tractor");
  Estate place(texts);
  place.usual().done("loader", "horn", "2025-04-20");
  place.done("hoist", "engine-oil", "2026-04-01")
      .done("hoist", "brakes", "2025-11-09")
      .done("hoist", "horn", "2026-04-01");
  place.world.state(FactKind::laid_up, "2026-04-01", "2026-05-09").machine = "loader";
  const Week with_her = place.week();
  REQUIRE(names_of(with_her) == "loader, loader+from-2026-05-09, pump, pump+pressure, hoist, call c-01");
  WeekAsk ask{day("2026-05-04")};
  ask.keep = as_given(by_hand(with_her, {{}, {"pump"}, {"hoist", "loader", "loader+from-2026-05-09"}}));
  ask.without = {"anna"};
  const Week without_her = place.week(ask);
  CHECK(names_of(without_her) == "loader, pump, pump+pressure, call c-01");
  const RoundsPlan plan = by_hand(without_her, {{"loader"}, {"pump"}});
  REQUIRE(plan.changes.size() == 3);
  CHECK(changes_of(plan) ==
        "hoist: anna 2026-05-09 -> none (no longer wanted, holm); loader: anna 2026-05-09 -> van 2026-05-04 (holm); "
        "loader+from-2026-05-09: anna 2026-05-09 -> none (no longer wanted, holm)");
  CHECK(plan.changes[0].not_due);
  CHECK_FALSE(plan.changes[0].not_planned.has_value());
  CHECK((plan.changes[2].not_planned == NotPlannedReason::laid_up));
  CHECK_FALSE(plan.changes[2].not_due);
  // Of what is done that is not said.
  place.done("hoist", "brakes", "2026-05-03").done("loader", "engine-oil", "2026-05-03");
  place.done("loader", "brakes", "2026-05-03");
  for (const PlanChange& change : by_hand(place.week(ask), {{"loader"}, {"pump"}}).changes) {
    CHECK_FALSE(change.not_due);
    CHECK_FALSE(change.not_planned.has_value());
  }
}

namespace {

// A second crew, which alone may do the pump's work with pressure, so that both services of the pump are one visit.
Texts two_crews() {
  Texts texts;
  texts.crews +=
      "  gang: {name: Gang, start: workshop, hours: {mon-fri: \"07:30-16:00\"}, qualified-for: [pressure, lifting]}\n";
  return texts;
}

// Replanned from the day on, from the plan of both crews in which the gang goes to the pump on 5 May.
RoundsPlan replanned_without(const std::string& crew, bool promised, const std::vector<std::string_view>& second_day) {
  Estate at(two_crews());
  at.usual();
  const Week week = at.week();
  std::vector<std::vector<std::string_view>> routes(week.crew_days.size());
  for (std::size_t d = 0; d < week.crew_days.size(); ++d) {
    const CrewDay& one = week.crew_days[d];
    if (one.crew->key == "gang" && one.on == day("2026-05-05")) routes[d] = {"pump", "call c-01"};
  }
  GivenPlan plan = as_given(by_hand(week, routes));
  plan.rounds[0].stops[0].promised = promised;
  WeekAsk ask{day("2026-05-04"), 7};
  ask.keep = plan;
  ask.without = {crew};
  const Week anew = at.week(ask);
  std::vector<std::vector<std::string_view>> routes_anew(anew.crew_days.size());
  for (std::size_t d = 0; d < anew.crew_days.size(); ++d) {
    if (anew.crew_days[d].on == day("2026-05-05")) routes_anew[d] = second_day;
  }
  return by_hand(anew, routes_anew);
}

}  // namespace

TEST_CASE("a visit that is split anew when a crew does not go comes from its stop") {
  CHECK(changes_of(replanned_without("gang", false, {"pump", "call c-01"})) ==
        "pump: gang 2026-05-05 -> van 2026-05-05 (beck); pump+pressure: gang 2026-05-05 -> none (beck); "
        "call c-01: gang 2026-05-05 -> van 2026-05-05 (beck)");
}

TEST_CASE("what was promised of a visit that is split is promised of each of its parts") {
  const RoundsPlan plan = replanned_without("gang", true, {"call c-01"});
  CHECK((plan.week.visits[visit_named(plan.week, "pump")].impossible == PutOffReason::promise_broken));
  CHECK((plan.week.visits[visit_named(plan.week, "pump+pressure")].impossible == PutOffReason::promise_broken));
  for (const NotThisWeek& out : plan.not_this_week) {  // and what nobody can do is known
    CHECK(out.lacking.empty() == (out.visit != visit_named(plan.week, "pump+pressure")));
  }
  CHECK(plan.not_this_week.front().promised.has_value());
}

TEST_CASE("a stop whose work goes along with another one's has a line of its own") {
  Estate at(two_crews());
  at.usual();
  GivenPlan plan = first_plan();  // the pump's gland alone, for the van may not do the rest
  GivenStop relief;
  relief.visit = "pump+pressure";
  relief.machine = "pump";
  relief.tasks = {{{"relief", ""}}};
  GivenRound other = plan.rounds[1];
  other.on = day("2026-05-11");
  other.stops = {relief};
  plan.rounds.push_back(other);
  WeekAsk ask{day("2026-05-04"), 7};
  ask.keep = plan;
  const Week week = at.week(ask);
  std::vector<std::vector<std::string_view>> routes(week.crew_days.size());
  for (std::size_t d = 0; d < week.crew_days.size(); ++d) {
    const CrewDay& one = week.crew_days[d];
    if (one.crew->key == "gang" && one.on == day("2026-05-05")) routes[d] = {"pump", "call c-01"};
    if (one.crew->key == "van" && one.on == day("2026-05-04")) routes[d] = {"loader"};
  }
  CHECK(changes_of(by_hand(week, routes)) ==
        "pump: van 2026-05-05 -> gang 2026-05-05 (beck); call c-01: van 2026-05-05 -> gang 2026-05-05 (beck); "
        "pump+pressure: van 2026-05-11 -> gang 2026-05-05 (beck)");
}

TEST_CASE("of a promise that cannot be kept it is known where it could go without it, and what is new is told as new") {
  const RoundsPlan plan = replanned_without("gang", true, {"call c-01"});
  const std::size_t pump = visit_named(plan.week, "pump");
  REQUIRE(plan.week.visits[pump].but_for_promise.has_value());
  CHECK(plan.week.crew_days[*plan.week.visits[pump].but_for_promise].crew->key == "van");
  CHECK(plan.promises_kept == 0);
  CHECK(plan.promises_broken == 1);  // of the pump's two visits, for the customer was promised one
  for (const NotThisWeek& out : plan.not_this_week)
    CHECK(out.promised.has_value() == (out.visit != visit_named(plan.week, "loader")));
  for (const PlanChange& change : plan.changes) {
    CHECK(change.promised == (change.visit != "call c-01"));
    CHECK_FALSE(change.unheard_of);
  }
  Texts texts;
  texts.calls += "  c-02: {site: beck, do: Look, takes: 10 min}\n";
  const RoundsPlan with_new =
      by_hand(replanned(first_plan(), "2026-05-04", texts), {{"loader"}, {"pump", "call c-01", "call c-02"}});
  REQUIRE(with_new.changes.size() == 1);
  CHECK(with_new.changes[0].unheard_of);
}

namespace {

// `off-day off`: what stands against the promise of that visit, where the rounds are made by hand again.
std::string broken_of(const RoundsPlan& plan, std::string_view visit) {
  for (const NotThisWeek& out : plan.not_this_week) {
    if (out.visit != visit_named(plan.week, visit)) continue;
    const auto broken = broken_promise(plan, out);
    if (!broken) return "not broken";
    std::string text = std::string(to_text(rule_of(broken->why))) + ' ' + std::string(to_text(broken->why));
    for (const std::string& need : broken->lacking) text += ' ' + need;
    return text;
  }
  return "made";
}

// Of nine days, so that the work itself may be done on another one.
std::string broken_by(const Texts& texts, std::string_view visit = "pump", std::string_view crew = "van") {
  GivenPlan plan = first_plan();
  for (GivenStop& stop : plan.rounds[1].stops) stop.promised = true;
  plan.rounds[1].crew = crew;
  WeekAsk ask{day("2026-05-04"), 9};
  ask.keep = plan;
  return broken_of(by_hand(Estate(texts).usual().week(ask), {{"loader"}}), visit);
}

Texts with_text(std::string Texts::*of, std::string_view what, std::string_view fresh) {
  Texts texts;
  std::string& text = texts.*of;
  REQUIRE(text.find(what) != std::string::npos);
  text.replace(text.find(what), what.size(), fresh);
  return texts;
}

}  // namespace

TEST_CASE("of a promise that cannot be kept it is known which rule stands against it") {
  CHECK(broken_by({}, "pump", "lorry") == "off-day no-crew");
  CHECK(broken_by(with_text(&Texts::crews, "off: [", "off: [2026-05-05, ")) == "off-day off");
  CHECK(broken_by(with_text(&Texts::crews, "mon-thu:", "mon:")) == "off-day no-hours");
  CHECK(broken_by(with_text(&Texts::sites, "[2026-05-04, harvest]", "[2026-05-05]")) == "closed closed");
  CHECK(broken_by(with_text(&Texts::calls, "by: 2026-05-08", "from: 2026-05-11"), "call c-01") == "closed not-wanted");
  CHECK(broken_by(with_text(&Texts::calls, "\"08:00-12:30\"", "\"17:00-18:00\""), "call c-01") == "hours no-time");
  Texts gas = with_text(&Texts::pump, "late: 380", "late: 380, needs: [gas]");
  CHECK(broken_by(gas, "pump+gas") == "qualified not-qualified gas");  // nor can anybody on any day
  gas.crews += "  gang: {start: workshop, hours: {mon-fri: \"07:30-16:00\"}, qualified-for: [gas]}\n";
  CHECK(broken_by(gas, "pump+gas") == "qualified not-qualified gas");
  const Texts shorter =
      with_text(&Texts::crews, "mon-thu: \"07:30-16:00\"", "mon: \"07:30-16:00\", tue-thu: \"07:30-08:30\"");
  CHECK(broken_by(shorter) == "hours no-time");
  // It would go in alone.
  CHECK(broken_by({}) == "hours no-room");
  CHECK(broken_of(by_hand(replanned(first_plan()), {{"loader"}}), "pump") == "not broken");
}

TEST_CASE("a crew that is left out of the week cannot keep its promises") {
  CHECK(broken_of(replanned_without("gang", true, {"call c-01"}), "pump") == "off-day does-not-go");
}

namespace {

GivenPlan with_loader_promised() {
  GivenPlan plan = first_plan();
  plan.rounds[0].stops[0].promised = true;
  return plan;
}

}  // namespace

TEST_CASE("whoever has to be rung up is rung up once, and first of what was promised") {
  GivenPlan plan = first_plan();
  std::swap(plan.rounds[0], plan.rounds[1]);  // beck, then holm
  CHECK(changes_of(by_hand(replanned(plan), {})) ==
        "pump: van 2026-05-05 -> none (beck); call c-01: van 2026-05-05 -> none (beck); "
        "loader: van 2026-05-04 -> none (holm)");
  plan.rounds[1].stops[0].promised = true;
  CHECK(changes_of(by_hand(replanned(plan), {})) ==
        "loader: van 2026-05-04 -> none (holm); pump: van 2026-05-05 -> none (beck); "
        "call c-01: van 2026-05-05 -> none (beck)");
}

TEST_CASE("a promise that begins more than half an hour earlier or later is a change") {
  const auto changes_of_moved = [](bool promised, int minutes) {
    GivenPlan plan = promised ? with_loader_promised() : first_plan();
    plan.rounds[0].stops[0].starts = *plan.rounds[0].stops[0].starts + minutes;
    return by_hand(replanned(plan), {{"loader"}, {"pump", "call c-01"}}).changes;
  };
  CHECK(changes_of_moved(true, 30).empty());
  CHECK(changes_of_moved(false, 120).empty());
  for (const int minutes : {31, -31}) {
    const auto changes = changes_of_moved(true, minutes);
    REQUIRE(changes.size() == 1);
    CHECK(changes[0].moves_within_day());
    CHECK((changes[0].was_starts == 8 * 60 + minutes));
    CHECK((changes[0].is_starts == 8 * 60));
  }
}

TEST_CASE("another order that gains nothing is that of the plan that was kept") {
  for (const bool turned : {false, true}) {
    GivenPlan plan = first_plan();
    if (turned) std::swap(plan.rounds[1].stops[0], plan.rounds[1].stops[1]);
    const Week week = replanned(plan);
    const RoundsPlan made = plan_rounds(week);
    REQUIRE(made.rounds.size() == 2);
    CHECK(week.visits[made.rounds[1].stops[0].visit].name == (turned ? "call c-01" : "pump"));
    CHECK((made.value == PlanValue{0, Money{20262}}));
  }
}
