// A plan with its times, sums, loads and reasons. Where the order of visits is given by hand, only the figures are
// looked at.
#include <doctest/doctest.h>

#include "unit/visits/estate.h"
#include "visits/safety_first.h"

using namespace service;
using estate::by_hand;
using estate::clock;
using estate::Estate;
using estate::Texts;
using estate::visit_named;
using test::day;

namespace {

// "loader 08:00 08:00 09:00": arrives, starts, ends.
std::string stops_of(const RoundsPlan& plan, std::size_t round) {
  std::string text;
  for (const RoundStop& stop : plan.rounds.at(round).stops) {
    text += (text.empty() ? "" : ", ") + plan.week.visits[stop.visit].name + ' ' + clock(stop.arrives) + ' ' +
            clock(stop.starts) + ' ' + clock(stop.ends);
  }
  return text;
}

std::string out_of(const RoundsPlan& plan) {
  std::string text;
  for (const NotThisWeek& out : plan.not_this_week) {
    text += (text.empty() ? "" : ", ") + plan.week.visits[out.visit].name + ' ' + std::string(to_text(out.reason)) +
            ' ' + to_text(out.cost);
  }
  return text;
}

}  // namespace

TEST_CASE("every figure of the worked example") {
  const RoundsPlan plan = by_hand(Estate().usual().week(), {{"loader"}, {"pump", "call c-01"}});
  REQUIRE(plan.rounds.size() == 2);
  const Round& monday = plan.rounds[0];
  CHECK(clock(monday.leaves) == "07:37");
  CHECK(clock(monday.back) == "09:23");
  CHECK(stops_of(plan, 0) == "loader 08:00 08:00 09:00");
  CHECK(monday.drive_minutes == 46);
  CHECK(monday.set_up_minutes == 10);
  CHECK(monday.work_minutes == 50);
  CHECK(monday.tenths_of_km == 364);
  CHECK(monday.cost.hundredths == 6109);
  CHECK((monday.stops[0].leg == Leg{23, 182}));
  CHECK((monday.home == Leg{23, 182}));
  CHECK(monday.stops[0].waiting.hundredths == 56);
  REQUIRE(monday.parts.size() == 1);
  CHECK(monday.parts[0].first == "oil-filter-a");
  CHECK(monday.parts[0].second.hundredths == 100);
  REQUIRE(monday.fluids.size() == 1);
  CHECK(monday.fluids[0].second.amount.hundredths == 1150);
  CHECK(monday.fluids[0].second.unit == "L");
  CHECK((monday.cautions == std::vector<std::string>{"hot-fluid"}));

  const Round& tuesday = plan.rounds[1];
  CHECK(clock(tuesday.leaves) == "07:30");
  CHECK(clock(tuesday.back) == "10:09");
  CHECK(stops_of(plan, 1) == "pump 07:52 07:52 08:47, call c-01 08:47 08:47 09:47");
  CHECK(tuesday.stops[0].set_up_minutes == 15);
  CHECK(tuesday.stops[1].set_up_minutes == 0);
  CHECK((tuesday.stops[1].leg == Leg{0, 0}));
  CHECK(tuesday.cost.hundredths == 6218);
  CHECK(tuesday.tenths_of_km == 344);
  CHECK(tuesday.stops[0].waiting.hundredths == 300);
  CHECK(tuesday.stops[1].waiting.hundredths == 4000);
  CHECK(tuesday.parts.empty());

  CHECK(plan.travel.hundredths == 12327);
  CHECK(plan.waiting.hundredths == 4356);
  CHECK(plan.put_off.hundredths == 3579);
  CHECK((plan.value == PlanValue{0, Money{20262}}));
  CHECK((plan.bound == plan.value));
  CHECK(plan.proven);
  CHECK(plan.gap_millionths == 0);
  CHECK(out_of(plan) == "pump+pressure not-qualified 35.79");
  CHECK((plan.not_this_week[0].lacking == std::vector<std::string>{"pressure"}));
  CHECK(plan.not_this_week[0].until == day("2026-05-12"));
}

TEST_CASE("a plan as it is handed out") {
  const auto given = as_given(by_hand(Estate().usual().week(), {{"loader"}, {"pump", "call c-01"}}));
  CHECK((given.as_of == day("2026-05-03")));
  CHECK((given.to == day("2026-05-10")));
  REQUIRE(given.rounds.size() == 2);
  CHECK(given.rounds[1].crew == "van");
  CHECK(given.rounds[1].stops[1].visit == "call c-01");
  CHECK((given.rounds[1].stops[1].call == "c-01"));
  CHECK((given.rounds[1].stops[1].machine == ""));
  CHECK(given.rounds[0].stops[0].tasks->front().task == "engine-oil");
  CHECK(given.rounds[0].fluids->front().second.amount.hundredths == 1150);
  REQUIRE(given.put_off.size() == 1);
  CHECK((given.put_off[0].reason == "not-qualified"));
  CHECK(given.total->hundredths == 20262);
  CHECK(given.bound->second.hundredths == 20262);
}

TEST_CASE("what a crew carries need not be loaded") {
  Texts texts;
  texts.tractor =
      std::string(texts.tractor).replace(texts.tractor.find("oil-filter-a: 1"), 15, "oil-filter-a: 3, belt: 2");
  texts.crews =
      std::string(texts.crews).replace(texts.crews.find("duty"), 4, "carries: {oil-filter-a: 1, belt: 2}, duty");
  const RoundsPlan plan = by_hand(Estate(texts).usual().week(), {{"loader"}});
  REQUIRE(plan.rounds[0].parts.size() == 1);
  CHECK(plan.rounds[0].parts[0].first == "oil-filter-a");
  CHECK(plan.rounds[0].parts[0].second.hundredths == 200);
}

TEST_CASE("what a round used of what is always on board is to load with the next one") {
  Texts texts;
  texts.pump = std::string(texts.pump).replace(texts.pump.find("late: 380"), 9, "late: 380, parts: {oil-filter-a: 1}");
  texts.crews = std::string(texts.crews).replace(texts.crews.find("duty"), 4, "carries: {oil-filter-a: 2}, duty");
  const Week week = Estate(texts).usual().week();
  RoundsPlan plan = by_hand(week, {{"loader"}, {"pump"}});
  CHECK(plan.rounds[0].parts.empty());
  CHECK(plan.rounds[0].fills_up.empty());
  REQUIRE(plan.rounds[1].parts.size() == 1);
  CHECK(plan.rounds[1].parts[0].second == PartAmount::units(1));
  CHECK((plan.rounds[1].fills_up == plan.rounds[1].parts));
  CHECK(judge_plan(week, as_given(plan)).ok());
  GivenPlan given = as_given(plan);
  given.rounds[1].parts->clear();
  REQUIRE(judge_plan(week, given).faults.size() == 1);
  CHECK(judge_plan(week, given).faults[0].says == "parts to load are none; its work takes 1 oil-filter-a");
  // Of a round that is taken as made, too, whether the book has its work already or not.
  WeekAsk ask{day("2026-05-05"), 6};
  ask.keep = as_given(plan);
  plan = by_hand(Estate(texts).usual().week(ask, "2026-05-05"), {{"pump"}});
  CHECK(plan.rounds[0].fills_up.size() == 1);
  CHECK(judge_plan(plan.week, as_given(plan)).ok());
  Estate written(texts);
  written.usual().done("loader", "engine-oil", "2026-05-04");
  plan = by_hand(written.week(ask, "2026-05-05"), {{"pump"}});
  REQUIRE(plan.week.done_rounds.size() == 1);
  CHECK(plan.week.done_rounds[0].points.empty());  // so nothing of it is taken from stock once more
  CHECK(plan.rounds[0].fills_up.size() == 1);
  CHECK(judge_plan(plan.week, as_given(plan)).ok());
}

TEST_CASE("a call to a machine carries the cautions of all its tasks") {
  Texts texts;
  texts.calls = "  c-02: {machine: loader, do: Hydraulic leak, takes: 30 min}\n";
  const RoundsPlan plan = by_hand(Estate(texts).usual().week(), {{"call c-02"}});
  // And one that no hand searches for a leak, for no task of its schedule says so.
  CHECK(plan.rounds[0].cautions.size() == 2);
  CHECK((std::find(plan.rounds[0].cautions.begin(), plan.rounds[0].cautions.end(), "hot-fluid") !=
         plan.rounds[0].cautions.end()));
}

TEST_CASE("what would still go in, and what that would cost more") {
  const RoundsPlan plan = by_hand(Estate().usual().week(), {{"loader"}, {}});
  CHECK(out_of(plan) == "call c-01 dearer 200.73, pump+pressure not-qualified 35.79, pump dearer 34.46");
  const auto& call = *plan.not_this_week[0].next_best;
  CHECK(call.crew_day == 1);
  CHECK(call.instead_of.empty());
  CHECK(call.dearer.hundredths == 6218 + 4000 - 20073);  // less than nothing: it would be cheaper
  CHECK_FALSE(plan.not_this_week[1].next_best.has_value());
}

TEST_CASE("what goes in nowhere pushes out the fewest") {
  Texts texts;
  texts.calls =
      "  long: {site: beck, do: Look, takes: 6 h}\n  longer: {site: beck, do: Look, takes: 6 h 30 min, wait: 9}\n"
      "  short: {site: beck, do: Look, takes: 20 min}\n";
  const RoundsPlan plan = by_hand(Estate(texts).usual().week(), {{}, {"call short", "call long"}});
  const auto out = std::find_if(plan.not_this_week.begin(), plan.not_this_week.end(), [&](const NotThisWeek& one) {
    return plan.week.visits[one.visit].name == "call longer";
  });
  REQUIRE((out != plan.not_this_week.end()));
  REQUIRE(out->next_best.has_value());
  CHECK(out->next_best->crew_day == 1);
  REQUIRE(out->next_best->instead_of.size() == 1);
  CHECK(plan.week.visits[out->next_best->instead_of[0]].name == "call long");
  // Each will still need its share of a trip: what differs is the days of waiting, two of nine.
  CHECK(out->next_best->dearer.hundredths == 1800 - 9 * 900);
}

TEST_CASE("safety that is not done comes first, and pushes out what is not safety") {
  Texts texts;
  texts.calls =
      "  long: {site: beck, do: Look, takes: 6 h, safety: true}\n  other: {site: beck, do: Look, takes: 6 h}\n";
  const Week week = Estate(texts).usual().week();
  const RoundsPlan plan = by_hand(week, {{}, {"call other"}});
  CHECK(plan.value.safety_put_off == 1);
  CHECK(plan.week.visits[plan.not_this_week[0].visit].name == "call long");
  REQUIRE(plan.not_this_week[0].next_best.has_value());
  CHECK(plan.not_this_week[0].next_best->instead_of.size() == 1);
  // The other way round nothing helps: safety is not pushed out.
  const RoundsPlan turned = by_hand(week, {{}, {"call long"}});
  CHECK(turned.value.safety_put_off == 0);
  for (const NotThisWeek& out : turned.not_this_week) {
    if (turned.week.visits[out.visit].name == "call other") CHECK_FALSE(out.next_best.has_value());
  }
}

TEST_CASE("what a search cut short left out for safety goes in, and what gives way is put back where there is room") {
  Texts texts;
  texts.calls =
      "  long: {site: beck, do: Look, takes: 5 h, safety: true}\n  other: {site: beck, do: Look, takes: 5 h}\n"
      "  short: {site: beck, do: Look, takes: 20 min}\n";
  const Week week = Estate(texts).usual().week();
  const auto of = visits::problem_of(week);
  routing::Plan plan(week.crew_days.size());
  const auto job = [&](std::string_view name) {
    return static_cast<int>(std::find(of.visits.begin(), of.visits.end(), visit_named(week, name)) - of.visits.begin());
  };
  plan[1] = {job("call other"), job("call short")};
  const routing::Plan mended = visits::with_safety_first(of.problem, plan);
  CHECK(routing::value_of(of.problem, mended).safety == 0);
  CHECK((std::find(mended[1].begin(), mended[1].end(), job("call long")) != mended[1].end()));
  CHECK((std::find(mended[1].begin(), mended[1].end(), job("call short")) != mended[1].end()));
  CHECK((visits::with_safety_first(of.problem, mended) == mended));
}

TEST_CASE("the gap is a share of the plan, rounded once") {
  CHECK(visits::gap_millionths(Money{20262}, Money{20262}) == 0);
  CHECK(visits::gap_millionths(Money{300}, Money{200}) == 333333);
  CHECK(visits::gap_millionths(Money{300}, Money{100}) == 666667);
  CHECK(visits::gap_millionths(Money{}, Money{}) == 0);
  CHECK(visits::gap_millionths(Money{2'000'000}, Money{1'999'999}) == 1);  // half a millionth
}

TEST_CASE("visits that cannot be made are part of plan and bound") {
  const Week week = Estate().usual().week();
  const PlanValue value = visits::value_of(week, {0, 2, 100});
  CHECK((value == PlanValue{2, Money{3679}}));
}

TEST_CASE("the worked example is planned as it is, and nothing is better") {
  const Week week = Estate().usual().week();
  Effort effort;
  effort.progress = [](const PlanProgress& progress) {
    CHECK((progress.bound <= PlanValue{0, Money{20262}}));
    CHECK((progress.value >= PlanValue{0, Money{20262}}));
  };
  const RoundsPlan plan = plan_rounds(week, effort);
  CHECK((plan.value == PlanValue{0, Money{20262}}));
  CHECK((plan.bound == plan.value));
  CHECK(plan.proven);
  CHECK((plan.stopped == StoppedBy::nothing));
  REQUIRE(plan.rounds.size() == 2);
  CHECK(stops_of(plan, 0) == "loader 08:00 08:00 09:00");
  CHECK(stops_of(plan, 1) == "pump 07:52 07:52 08:47, call c-01 08:47 08:47 09:47");
  CHECK(out_of(plan) == "pump+pressure not-qualified 35.79");
}

TEST_CASE("what does not fit in alone may go behind another visit there, which has set up") {
  Texts texts;
  texts.calls = "  c-01: {site: beck, do: Hydraulic leak, takes: 60 min, wait: 20, between: [\"08:47-09:47\"]}\n";
  const Week week = Estate(texts).usual().week();
  CHECK((week.visits[estate::visit_named(week, "call c-01")].impossible == PutOffReason::unreachable));
  const RoundsPlan plan = plan_rounds(week);
  REQUIRE(plan.rounds.size() == 2);
  CHECK(stops_of(plan, 1) == "pump 07:52 07:52 08:47, call c-01 08:47 08:47 09:47");
  CHECK(out_of(plan) == "pump+pressure not-qualified 35.79");
  CHECK(plan.proven);
}

TEST_CASE("promises are kept at any price") {
  Texts texts;
  texts.calls =
      "  dear: {site: beck, do: Look, takes: 6 h, wait: 1000, safety: true}\n"
      "  cheap: {site: beck, do: Look, takes: 6 h}\n";
  WeekAsk ask{day("2026-05-04")};
  CHECK(plan_rounds(Estate(texts).usual().week(ask)).value.safety_put_off == 0);
  ask.keep.emplace();
  GivenRound& tuesday = ask.keep->rounds.emplace_back();
  tuesday.crew = "van";
  tuesday.on = day("2026-05-05");
  tuesday.stops.emplace_back().visit = "call cheap";
  tuesday.stops[0].promised = true;
  const RoundsPlan plan = plan_rounds(Estate(texts).usual().week(ask));
  REQUIRE(plan.rounds.size() == 2);
  CHECK((stops_of(plan, 1).find("call cheap ") != std::string::npos));
  CHECK(plan.value.safety_put_off == 1);
  CHECK(plan.bound.safety_put_off <= 1);
}

TEST_CASE("whoever stops it gets the best so far, and hears why") {
  Effort effort;
  effort.stop = [] { return StoppedBy::time; };
  const RoundsPlan plan = plan_rounds(Estate().usual().week(), effort);
  CHECK((plan.bound <= plan.value));
  CHECK((plan.stopped == StoppedBy::time || plan.proven));
}
