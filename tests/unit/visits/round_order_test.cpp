// The order of a round and the place of its meal, where several cost the same.
#include "visits/round_order.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "routing/timing.h"
#include "unit/visits/estate.h"

using namespace service;
using estate::by_hand;
using estate::clock;
using estate::Estate;
using estate::Texts;
using estate::visit_named;

namespace {

Texts with_meal(Texts texts = {}) {
  texts.crews.replace(texts.crews.find("duty: 8 h"), 9, "duty: 8 h, meal: 30 min");
  return texts;
}

// `08:00-09:00 loader`.
std::string stays_of(const RoundsPlan& plan, const Round& round) {
  std::string text;
  for (const RoundStop& stop : round.stops) {
    text += (text.empty() ? "" : ", ") + clock(stop.starts) + '-' + clock(stop.ends) + ' ' +
            plan.week.visits[stop.visit].name;
  }
  return text;
}

// The van's Monday with these visits, in a good order.
std::vector<std::string> ordered(const Week& week, const std::vector<std::string_view>& visits) {
  const auto of = visits::problem_of(week);
  routing::Plan plan(week.crew_days.size());
  for (const std::string_view name : visits) {
    const auto job = std::find(of.visits.begin(), of.visits.end(), visit_named(week, name));
    plan[0].push_back(static_cast<int>(job - of.visits.begin()));
  }
  const routing::Plan after = visits::with_good_order(week, of, plan);
  CHECK((value_of(of.problem, after) == value_of(of.problem, plan)));
  std::vector<std::string> names;
  for (const int job : after[0]) names.push_back(week.visits[of.visits[static_cast<std::size_t>(job)]].name);
  return names;
}

// Holm's loader, with a call to it, and another machine there.
Texts three_at_holm() {
  Texts texts;
  texts.machines += "  second: {name: Second, schedule: tractor, site: holm, in-service: {on: 2020-03-01, at: 0}}\n";
  texts.calls = "  c-01: {machine: loader, do: Hydraulic leak, takes: 30 min, wait: 20}\n";
  return texts;
}

Week week_at_holm(const Texts& texts) {
  return Estate(texts).usual().done("second", "engine-oil", "2025-04-20").done("second", "brakes", "2026-04-10").week();
}

}  // namespace

TEST_CASE("the meal falls between two stays, and comes before the work only where there is one stay alone") {
  const RoundsPlan plan = by_hand(Estate(with_meal()).usual().week(), {{"loader"}, {"pump", "call c-01"}});
  REQUIRE(plan.rounds.size() == 2);
  CHECK(stays_of(plan, plan.rounds[1]) == "07:52-08:47 pump, 09:17-10:17 call c-01");
  CHECK(clock(plan.rounds[1].leaves) == "07:30");
  CHECK_FALSE(plan.rounds[1].meal_before_work);
  CHECK(stays_of(plan, plan.rounds[0]) == "08:23-09:23 loader");
  CHECK(clock(plan.rounds[0].leaves) == "07:30");
  CHECK(plan.rounds[0].meal_before_work);
  CHECK(judge_plan(plan.week, as_given(plan)).ok());
}

namespace {

std::string meal_of(const RoundsPlan& plan, const Round& round) {
  std::string text;
  for (const MealPiece& piece : round.meal) {
    text +=
        (text.empty() ? "" : ", ") + std::to_string(piece.minutes) + " before " + plan.week.visits[piece.before].name;
  }
  return text;
}

}  // namespace

TEST_CASE("a meal that gates leave time for in pieces alone is told with all of them") {
  Texts texts = with_meal();
  texts.calls = "";
  const auto add = [&](const std::string& key, const std::string& between) {
    texts.calls += "  " + key + ": {site: beck, do: Look, takes: 60 min, wait: 20, between: [\"" + between + "\"]}\n";
  };
  // 22 minutes of way and 15 of set-up: at the first from 08:00 to 09:15, then 20 minutes, and 15.
  add("c-01", "08:00-09:15");
  add("c-02", "09:35-10:35");
  add("c-03", "10:50-11:50");
  const auto plan_of = [&] {
    return by_hand(Estate(texts).usual().week(), {{"loader"}, {"call c-01", "call c-02", "call c-03"}});
  };
  RoundsPlan plan = plan_of();
  CHECK(meal_of(plan, plan.rounds[0]) == "30 before loader");
  CHECK(stays_of(plan, plan.rounds[1]) == "08:00-09:15 call c-01, 09:35-10:35 call c-02, 10:50-11:50 call c-03");
  CHECK(meal_of(plan, plan.rounds[1]) == "20 before call c-02, 10 before call c-03");
  CHECK_FALSE(plan.rounds[1].meal_before_work);
  CHECK(judge_plan(plan.week, as_given(plan)).ok());
  // A quarter of an hour between the first two, and none behind: the rest is before the first.
  texts.calls = "";
  add("c-01", "08:15-09:30");
  add("c-02", "09:45-10:45");
  add("c-03", "10:45-11:45");
  plan = plan_of();
  CHECK(meal_of(plan, plan.rounds[1]) == "15 before call c-01, 15 before call c-02");
  CHECK(plan.rounds[1].meal_before_work);
  // All of it in one piece before that, where there is time: nobody leaves later than he has to for it.
  const RoundsPlan usual = by_hand(Estate(with_meal()).usual().week(), {{}, {"pump", "call c-01"}});
  CHECK(meal_of(usual, usual.rounds[0]) == "30 before call c-01");
}

TEST_CASE("of several places for the meal the one nearest to the middle of the round is taken") {
  Texts texts = with_meal();
  texts.calls = "";
  for (const char* key : {"c-01", "c-02", "c-03", "c-04"}) {
    texts.calls += "  " + std::string(key) + ": {site: beck, do: Look, takes: 60 min, wait: 20}\n";
  }
  const RoundsPlan plan =
      by_hand(Estate(texts).usual().week(), {{}, {"call c-01", "call c-02", "call c-03", "call c-04"}});
  CHECK(stays_of(plan, plan.rounds[0]) ==
        "07:52-09:07 call c-01, 09:07-10:07 call c-02, 10:37-11:37 call c-03, 11:37-12:37 call c-04");
}

TEST_CASE("a round is at each machine in one go, where another order costs no more") {
  const Week week = week_at_holm(three_at_holm());
  CHECK(
      (ordered(week, {"loader", "second", "call c-01"}) == std::vector<std::string>{"second", "loader", "call c-01"}));
  // Nothing to mend, so nothing moves.
  CHECK(
      (ordered(week, {"second", "call c-01", "loader"}) == std::vector<std::string>{"second", "call c-01", "loader"}));
  for (const Round& round : plan_rounds(week).rounds) CHECK(round.in_two_goes.empty());
}

TEST_CASE("two goes that cannot be helped are said") {
  Texts texts;
  texts.calls =
      "  c-01: {machine: loader, do: Hydraulic leak, takes: 30 min, wait: 20, between: [\"08:00-08:45\"]}\n"
      "  c-02: {site: holm, do: Look, takes: 30 min, wait: 20, between: [\"09:00-09:30\"]}\n";
  const Week week = Estate(texts).usual().week();
  const std::vector<std::string_view> only = {"call c-01", "call c-02", "loader"};
  CHECK((ordered(week, only) == std::vector<std::string>{only.begin(), only.end()}));
  const RoundsPlan plan = by_hand(week, {only});
  REQUIRE(plan.rounds[0].in_two_goes.size() == 1);
  CHECK(plan.rounds[0].in_two_goes[0]->key == "loader");
}
