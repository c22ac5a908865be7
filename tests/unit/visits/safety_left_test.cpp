// What whoever works at a machine is told of work for safety that is not done there by then.
#include "service/safety_left.h"

#include <doctest/doctest.h>

#include "service/visits.h"
#include "unit/visits/estate.h"

using namespace service;
using estate::by_hand;
using estate::Estate;
using estate::Texts;
using test::day;

namespace {

// The pump's relief valve is work for safety that nobody who works this week can do.
Texts with_safety() {
  Texts texts;
  texts.pump =
      std::string(texts.pump).replace(texts.pump.find("needs: [pressure]"), 17, "needs: [pressure], safety: true");
  return texts;
}

std::string text_of(const SafetyLeft& one) {
  return (one.call != nullptr ? "call " + one.call->key : one.point.task) + ' ' + std::string(to_text(one.why)) +
         (one.on ? ' ' + to_text(*one.on) : "") + (one.reason ? ' ' + std::string(to_text(*one.reason)) : "") +
         (keep_out_of_use(one) ? "; " : " (nobody knows); ");
}

std::string left_at(const RoundsPlan& plan, std::string_view visit) {
  std::string text;
  for (const Round& round : plan.rounds) {
    for (const RoundStop& stop : round.stops) {
      if (plan.week.visits[stop.visit].name != visit) continue;
      for (const SafetyLeft& one : safety_left(plan, round, stop)) text += text_of(one);
    }
  }
  return text;
}

}  // namespace

TEST_CASE("a stop says which work for safety at its machine is not made this week") {
  const auto plan = by_hand(Estate(with_safety()).usual().week(), {{"loader"}, {"pump", "call c-01"}});
  CHECK(left_at(plan, "pump") == "relief not-made; ");
  CHECK(left_at(plan, "loader").empty());
  CHECK(left_at(plan, "call c-01").empty());  // to a site, and no machine
}

TEST_CASE("so does one before it is made, and none from there on") {
  Texts texts = with_safety();
  texts.crews = std::string(texts.crews).replace(texts.crews.find("[lifting]"), 9, "[lifting, pressure]");
  texts.calls = "  c-01: {machine: pump, do: Hydraulic leak, takes: 60 min, wait: 20}\n";
  texts.sites = std::string(texts.sites).replace(texts.sites.find(", closed: [2026-05-04, harvest]"), 31, "");
  const Week week = Estate(texts).usual().week();
  CHECK(left_at(by_hand(week, {{"call c-01"}, {"pump"}}), "call c-01") == "relief later 2026-05-05; ");
  CHECK(left_at(by_hand(week, {{"pump"}, {"call c-01"}}), "call c-01").empty());
  // In one round the order decides.
  CHECK(left_at(by_hand(week, {{"call c-01", "pump"}}), "call c-01") == "relief later 2026-05-04; ");
  CHECK(left_at(by_hand(week, {{"pump", "call c-01"}}), "call c-01").empty());
}

TEST_CASE("a stop says of which work for safety nobody knows whether it is due, and what is not in the book") {
  Texts texts = with_safety();
  texts.machines =
      std::string(texts.machines)
          .replace(texts.machines.find("in-service: {on: 2021-03-01, at: 0}"), 35, "bought: {on: 2025-10-01, at: 0}");
  Estate unknown(texts);
  unknown.done("pump", "gland", "2025-10-20");
  CHECK(left_at(by_hand(unknown.week(), {{}, {"pump"}}), "pump") == "relief no-record (nobody knows); ");

  GivenPlan kept = as_given(by_hand(Estate(with_safety()).usual().week(), {{}, {"pump"}}));
  kept.rounds[0].on = day("2026-05-03");
  kept.rounds[0].stops[0].tasks = {{{"relief", ""}}};
  WeekAsk ask{day("2026-05-04")};
  ask.keep = kept;
  const auto plan = by_hand(Estate(with_safety()).usual().week(ask), {{}, {"pump"}});
  CHECK(left_at(plan, "pump") == "relief not-in-book 2026-05-03; ");
}

TEST_CASE("a trip of weeks ahead says it too") {
  Estate place(with_safety());
  place.usual();
  const Day to = day("2026-05-31");
  auto list = std::make_shared<const DueList>(
      due_list(place.world.snapshot("2026-05-03"), {to, {}, Detail::coming}, straight_line()));
  std::string told;
  for (const SiteVisit& visit : plan_visits(list, {to}).visits) {
    for (const SafetyLeft& one : visit.safety_left) told += visit.site->key + ' ' + text_of(one);
  }
  CHECK(told == "beck relief not-made; ");
}
