// What a plan says of itself, and is wrong: one fault, named first, with what follows from it behind it.
#include <doctest/doctest.h>

#include "unit/visits/judged.h"

using namespace service;
using estate::bare;
using estate::Estate;
using estate::rules_of;
using estate::said_in;
using estate::Texts;
using estate::worked_plan;
using test::day;

namespace {

PlanJudgement judged(const GivenPlan& plan, std::string_view from = "2026-05-04") {
  return judge_plan(Estate().usual().week(from), plan);
}

std::size_t behind(const PlanJudgement& judgement) { return judgement.faults.at(0).follow_on.size(); }

}  // namespace

TEST_CASE("a fleet or a currency that is another one is a fault of its own") {
  GivenPlan plan = worked_plan();
  plan.fleet = "Another estate";
  CHECK(said_in(judged(plan)) == "form plan: is of the fleet `Another estate`; this one is `Skarvey estate`");
  plan.currency = "EUR";
  CHECK(rules_of(judged(plan)) == "form plan; figure plan");
  plan = worked_plan();
  plan.currency = "";
  CHECK(said_in(judged(plan)) == "figure plan: its money is in none; that of the fleet is in `GBP`");
  CHECK(behind(judged(plan)) == 0);
  CHECK(judged(plan).value.has_value());
}

TEST_CASE("of another fleet's plan all that nobody wants here is said behind that, and a rule that is broken is not") {
  GivenPlan plan = worked_plan();
  plan.fleet = "Another estate";
  plan.rounds[0].stops[0].visit = "mill";
  plan.put_off[0].visit = "saw";
  plan.rounds[1].leaves = 6 * 60;
  const PlanJudgement judgement = judged(plan);
  CHECK(rules_of(judgement) == "form plan; hours van 2026-05-05");
  CHECK(behind(judgement) > 3);
}

TEST_CASE("a week that is not that of its rounds is one fault, whoever said it") {
  // The plan is right, and another week was asked about.
  PlanJudgement judgement = judged(worked_plan(), "2026-05-11");
  CHECK(said_in(judgement) == "form plan: is of the week 2026-05-04 to 2026-05-10; asked is 2026-05-11 to 2026-05-17");
  CHECK(behind(judgement) > 3);
  CHECK_FALSE(judgement.value.has_value());
  // It says another week itself, which is taken for the one that is asked about.
  GivenPlan plan = worked_plan();
  plan.from = day("2026-05-11");
  plan.to = day("2026-05-17");
  judgement = judged(plan, "2026-05-11");
  CHECK(said_in(judgement) == "form plan: the week is 2026-05-11 to 2026-05-17, and none of its rounds is in it");
  CHECK(behind(judgement) > 3);
}

TEST_CASE("one round of several on another day is wrong itself") {
  GivenPlan plan = worked_plan();
  plan.rounds[1].on = day("2026-05-12");
  CHECK(rules_of(judged(plan)) == "off-day van 2026-05-12");
}

TEST_CASE("one round outside tells of another week where the others ask for work of that") {
  GivenPlan plan = worked_plan();
  plan.rounds[1].on = day("2026-05-12");
  plan.rounds[0].stops[0].tasks->push_back({"brakes", ""});
  plan.rounds[0].stops[0].work_min = 90;
  const PlanJudgement judgement = judged(plan);
  CHECK(said_in(judgement) == "form plan: the week is 2026-05-04 to 2026-05-10, and 1 of its 2 rounds is not in it");
  CHECK(behind(judgement) >= 3);
}

TEST_CASE("of a week that ends on another day what waits until then tells") {
  GivenPlan plan = worked_plan();
  plan.put_off.push_back(plan.put_off[0]);
  for (GivenPutOff& out : plan.put_off) out.until = day("2026-05-19");
  const PlanJudgement judgement = judged(plan);
  REQUIRE_FALSE(judgement.faults.empty());
  CHECK(
      judgement.faults[0].says ==
      "the week is 2026-05-04 to 2026-05-10, and all that it does not make waits until 2026-05-19, which in this week "
      "is 2026-05-12");
  CHECK(behind(judgement) == 2);
  CHECK(rules_of(judgement) == "form plan; twice put_off pump+pressure");
}

TEST_CASE("behind another currency is money alone") {
  GivenPlan plan = worked_plan();
  plan.currency = "EUR";
  plan.total->hundredths *= 2;
  plan.rounds[0].parts->clear();
  CHECK(rules_of(judged(plan)) == "figure plan; figure van 2026-05-04");
  CHECK(behind(judged(plan)) == 1);
}

TEST_CASE("of a plan as of another day the figures that differ for that are behind it") {
  const Week later = Estate().usual().week(WeekAsk{day("2026-05-04")}, "2026-05-04");
  const PlanJudgement judgement = judge_plan(later, worked_plan());
  CHECK(rules_of(judgement) == "form plan");
  CHECK(behind(judgement) > 1);
}

TEST_CASE("a bound that was changed is one fault") {
  GivenPlan plan = worked_plan();
  plan.bound->second.hundredths -= 1000;
  const PlanJudgement judgement = judged(plan);
  CHECK(rules_of(judgement) == "bound plan");
  CHECK(behind(judgement) == 1);
  plan = worked_plan();
  plan.proven = false;
  CHECK(rules_of(judged(plan)) == "bound plan");
  CHECK(behind(judged(plan)) == 0);
}

TEST_CASE("a plan that was made of one that was kept is judged beside that") {
  GivenPlan plan = worked_plan();
  plan.replanned = true;
  CHECK(rules_of(judge_plan(Estate().usual().week(), plan)).empty());
  plan.rounds[0].stops[0].tasks->pop_back();  // what the plan that was kept did
  plan.rounds[0].stops[0].tasks->push_back({"brakes", ""});
  const PlanJudgement judged = judge_plan(Estate().usual().week(), plan);
  CHECK(rules_of(judged) == "form plan");
  CHECK_FALSE(judged.faults[0].follow_on.empty());
}

TEST_CASE("what a round that cannot be read was to make is left out behind that") {
  GivenPlan plan = bare(worked_plan());
  plan.unread = {{"rounds[1].on", "needs a day", {"pump", "call c-01"}}};
  plan.rounds.pop_back();
  const PlanJudgement judged = judge_plan(Estate().usual().week(), plan);
  CHECK(rules_of(judged) == "form rounds[1].on");
  REQUIRE(judged.faults[0].follow_on.size() == 2);
  CHECK(judged.faults[0].follow_on[0].rule == PlanRule::left_out);
  CHECK_FALSE(judged.value.has_value());
}
