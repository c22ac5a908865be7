// The worked example with one field wrong at a time: each is named by its rule, and nothing else is.
#include <doctest/doctest.h>

#include <functional>
#include <set>

#include "unit/visits/judged.h"

using namespace service;
using estate::Estate;
using estate::rules_of;
using estate::said_in;
using estate::worked_plan;
using test::day;

namespace {

constexpr int at(int hour, int minute) { return hour * 60 + minute; }

struct Tampering {
  std::function<void(GivenPlan&)> with;
  std::string named;
  bool worth = true;  // the plan still has its value
};

void judge_each(const std::vector<Tampering>& all) {
  const Week week = Estate().usual().week();
  for (std::size_t i = 0; i < all.size(); ++i) {
    GivenPlan plan = worked_plan();
    all[i].with(plan);
    const PlanJudgement judgement = judge_plan(week, plan);
    INFO("tampering ", i, ": ", said_in(judgement));
    CHECK(rules_of(judgement) == all[i].named);
    CHECK_FALSE(judgement.ok());
    CHECK(judgement.value.has_value() == all[i].worth);
    for (const PlanFault& fault : judgement.faults) CHECK_FALSE(fault.says.empty());
  }
}

GivenRound& monday(GivenPlan& plan) { return plan.rounds[0]; }
GivenRound& tuesday(GivenPlan& plan) { return plan.rounds[1]; }
GivenStop& loader(GivenPlan& plan) { return plan.rounds[0].stops[0]; }
GivenStop& pump(GivenPlan& plan) { return plan.rounds[1].stops[0]; }
GivenStop& call(GivenPlan& plan) { return plan.rounds[1].stops[1]; }

const std::string at_loader = "van 2026-05-04 loader";
const std::string at_pump = "van 2026-05-05 pump";
const std::string at_call = "van 2026-05-05 call c-01";

}  // namespace

TEST_CASE("which visits are made, and by whom") {
  judge_each({
      {[](GivenPlan& plan) { tuesday(plan).crew = "lorry"; }, "off-day lorry 2026-05-05", false},
      {[](GivenPlan& plan) { tuesday(plan).on = day("2026-05-06"); }, "off-day van 2026-05-06", false},
      {[](GivenPlan& plan) { tuesday(plan).on = day("2026-04-28"); }, "off-day van 2026-04-28", false},
      // Twice on a day, and that one on which the gate is shut and waiting costs less.
      {[](GivenPlan& plan) { tuesday(plan).on = day("2026-05-04"); },
       "off-day van 2026-05-04; closed van 2026-05-04 pump; closed van 2026-05-04 call c-01", false},
      // The visit that is meant is then neither made nor put off.
      {[](GivenPlan& plan) { loader(plan).visit = "loadr"; }, "unknown-visit van 2026-05-04 loadr; left-out loader",
       false},
      {[](GivenPlan& plan) { plan.put_off[0].visit = "pump+gas"; },
       "unknown-visit put_off pump+gas; left-out "
       "pump+pressure",
       false},
      {[](GivenPlan& plan) {
         plan.put_off.push_back({"unheard-of", {}, {}, {}, {}});
       },
       "unknown-visit put_off unheard-of", false},
      {[](GivenPlan& plan) { plan.put_off.clear(); }, "left-out pump+pressure", false},
      {[](GivenPlan& plan) {
         plan.put_off.push_back({"loader", {}, {}, {}, {}});
       },
       "twice put_off loader", false},
      {[](GivenPlan& plan) { plan.put_off.push_back(plan.put_off[0]); }, "twice put_off pump+pressure", false},
      {[](GivenPlan& plan) { monday(plan).stops.clear(); }, "form van 2026-05-04; left-out loader", false},
  });
}

TEST_CASE("a visit that is made twice") {
  GivenPlan plan = estate::bare(worked_plan());
  plan.rounds[1].stops.push_back(plan.rounds[0].stops[0]);
  const PlanJudgement judgement = judge_plan(Estate().usual().week(), plan);
  CHECK(said_in(judgement) == "twice van 2026-05-05 loader: is made twice: van 2026-05-04 loader too");
  CHECK_FALSE(judgement.value.has_value());
}

TEST_CASE("where, at what, for whom, and for which tasks") {
  judge_each({
      {[](GivenPlan& plan) { loader(plan).site = "beck"; }, "form " + at_loader},
      {[](GivenPlan& plan) { loader(plan).machine = "hoist"; }, "form " + at_loader},
      {[](GivenPlan& plan) { loader(plan).machine = ""; }, "form " + at_loader},
      {[](GivenPlan& plan) { loader(plan).call = "c-01"; }, "form " + at_loader},
      {[](GivenPlan& plan) { call(plan).machine = "pump"; }, "form " + at_call},
      {[](GivenPlan& plan) { call(plan).call = ""; }, "form " + at_call},
      {[](GivenPlan& plan) { loader(plan).tasks->clear(); }, "tasks " + at_loader},
      {[](GivenPlan& plan) {
         loader(plan).tasks->push_back({"brakes", ""});
       },
       "tasks " + at_loader},
      {[](GivenPlan& plan) { loader(plan).tasks->front().task = "brakes"; }, "tasks " + at_loader},
      {[](GivenPlan& plan) { loader(plan).tasks->front().position = "left"; }, "tasks " + at_loader},
      {[](GivenPlan& plan) {
         call(plan).tasks->push_back({"gland", ""});
       },
       "tasks " + at_call},
  });
}

TEST_CASE("the times of stops") {
  judge_each({
      {[](GivenPlan& plan) { loader(plan).arrives = at(7, 59); }, "drive " + at_loader},
      {[](GivenPlan& plan) { loader(plan).arrives = at(8, 1); }, "stay " + at_loader},
      {[](GivenPlan& plan) { call(plan).arrives = at(8, 46); }, "drive " + at_call},
      {[](GivenPlan& plan) { pump(plan).starts = at(7, 51); }, "stay " + at_pump},
      {[](GivenPlan& plan) { pump(plan).starts = at(7, 53); }, "stay " + at_pump},
      {[](GivenPlan& plan) { loader(plan).starts = at(8, 1); }, "stay " + at_loader},
      // Which is before the gate opens, too.
      {[](GivenPlan& plan) { loader(plan).starts = at(7, 59); }, "stay " + at_loader + "; closed " + at_loader},
      {[](GivenPlan& plan) { loader(plan).ends = at(9, 1); }, "stay " + at_loader},
      {[](GivenPlan& plan) { loader(plan).ends = at(8, 59); }, "stay " + at_loader},
      {[](GivenPlan& plan) { pump(plan).ends = at(8, 48); }, "stay " + at_pump},
      {[](GivenPlan& plan) { pump(plan).ends = at(8, 46); }, "stay " + at_pump},
      {[](GivenPlan& plan) { loader(plan).arrives = -1; }, "form " + at_loader},
      {[](GivenPlan& plan) { loader(plan).starts = 2'000'000'000; }, "form " + at_loader},
      {[](GivenPlan& plan) { loader(plan).ends = -2'000'000'000; }, "form " + at_loader},
      {[](GivenPlan& plan) { loader(plan).drive_min = 22; }, "drive " + at_loader},
      {[](GivenPlan& plan) { call(plan).drive_min = 1; }, "drive " + at_call},
      {[](GivenPlan& plan) { loader(plan).tenths_of_km = 183; }, "drive " + at_loader},
      {[](GivenPlan& plan) { loader(plan).set_up_min = 0; }, "stay " + at_loader},
      {[](GivenPlan& plan) { call(plan).set_up_min = 15; }, "stay " + at_call},
      {[](GivenPlan& plan) { loader(plan).work_min = 51; }, "stay " + at_loader},
      {[](GivenPlan& plan) { loader(plan).waiting = Money{57}; }, "figure " + at_loader},
      {[](GivenPlan& plan) { call(plan).waiting = Money{}; }, "figure " + at_call},
  });
}

TEST_CASE("the times and sums of rounds") {
  judge_each({
      {[](GivenPlan& plan) { monday(plan).leaves = at(7, 38); }, "drive " + at_loader},
      {[](GivenPlan& plan) { monday(plan).leaves = at(7, 29); }, "hours van 2026-05-04"},
      {[](GivenPlan& plan) { monday(plan).leaves = 1441; }, "form van 2026-05-04"},
      {[](GivenPlan& plan) { monday(plan).back = at(9, 22); }, "drive van 2026-05-04"},
      {[](GivenPlan& plan) { monday(plan).back = at(9, 24); }, "drive van 2026-05-04"},
      {[](GivenPlan& plan) { monday(plan).back = at(16, 1); },
       "drive van 2026-05-04; hours van 2026-05-04; duty van 2026-05-04"},
      {[](GivenPlan& plan) { monday(plan).drive_min = 45; }, "figure van 2026-05-04"},
      {[](GivenPlan& plan) { tuesday(plan).set_up_min = 30; }, "figure van 2026-05-05"},
      {[](GivenPlan& plan) { tuesday(plan).work_min = 99; }, "figure van 2026-05-05"},
      {[](GivenPlan& plan) { monday(plan).tenths_of_km = 365; }, "figure van 2026-05-04"},
      {[](GivenPlan& plan) { monday(plan).cost = Money{6108}; }, "figure van 2026-05-04"},
      {[](GivenPlan& plan) { monday(plan).parts->clear(); }, "figure van 2026-05-04"},
      {[](GivenPlan& plan) { monday(plan).parts->front().second.hundredths = 200; }, "figure van 2026-05-04"},
      {[](GivenPlan& plan) { tuesday(plan).parts->emplace_back("belt", PartAmount{100}); }, "figure van 2026-05-05"},
      {[](GivenPlan& plan) { monday(plan).fluids->clear(); }, "figure van 2026-05-04"},
      {[](GivenPlan& plan) { monday(plan).fluids->front().first = "gear-oil"; }, "figure van 2026-05-04"},
  });
}

TEST_CASE("what is put off") {
  judge_each({
      {[](GivenPlan& plan) { plan.put_off[0].safety = true; }, "safety put_off pump+pressure"},
      {[](GivenPlan& plan) { plan.put_off[0].reason = "dearer"; }, "reason put_off pump+pressure"},
      {[](GivenPlan& plan) { plan.put_off[0].reason = "promise-broken"; }, "reason put_off pump+pressure"},
      {[](GivenPlan& plan) { plan.put_off[0].reason = ""; }, "reason put_off pump+pressure"},
      {[](GivenPlan& plan) { plan.put_off[0].until = day("2026-05-11"); }, "figure put_off pump+pressure"},
      {[](GivenPlan& plan) { plan.put_off[0].cost = Money{3578}; }, "figure put_off pump+pressure"},
  });
}

TEST_CASE("the plan as a whole") {
  judge_each({
      {[](GivenPlan& plan) { plan.as_of = day("2026-05-02"); }, "form plan"},
      {[](GivenPlan& plan) { plan.from = day("2026-05-05"); }, "form plan"},
      {[](GivenPlan& plan) { plan.to = day("2026-05-09"); }, "form plan"},
      {[](GivenPlan& plan) { plan.total = Money{20261}; }, "figure plan"},
      {[](GivenPlan& plan) { plan.travel = Money{}; }, "figure plan"},
      {[](GivenPlan& plan) { plan.waiting = Money{4357}; }, "figure plan"},
      {[](GivenPlan& plan) { plan.put_off_cost = Money{-3579}; }, "figure plan"},
      {[](GivenPlan& plan) { plan.safety_put_off = 1; }, "safety plan"},
      {[](GivenPlan& plan) { plan.bound->second = Money{20263}; }, "bound plan"},
      {[](GivenPlan& plan) { plan.bound->first = 1; }, "bound plan"},
      {[](GivenPlan& plan) { plan.bound->second = Money{-1}; }, "bound plan"},
      {[](GivenPlan& plan) { plan.gap_millionths = 1; }, "bound plan"},
      {[](GivenPlan& plan) { plan.proven = false; }, "bound plan"},
      // It is not proven then, and there is a gap.
      {[](GivenPlan& plan) { plan.bound->second = Money{20261}; }, "bound plan"},
  });
}

namespace {

// "drive van 2026-05-05 call c-01 +5; figure plan": with how many figures follow.
std::string followed_in(const PlanJudgement& judgement) {
  std::string text;
  for (const PlanFault& fault : judgement.faults) {
    text += (text.empty() ? "" : "; ") + std::string(to_text(fault.rule)) + ' ' + fault.where;
    if (!fault.follow_on.empty()) text += " +" + std::to_string(fault.follow_on.size());
    for (const PlanFault& figure : fault.follow_on) {
      CHECK_FALSE(figure.says.empty());
      CHECK(figure.follow_on.empty());
    }
  }
  return text;
}

std::string changed(const std::function<void(GivenPlan&)>& change) {
  GivenPlan plan = worked_plan();
  change(plan);
  const PlanJudgement judgement = judge_plan(Estate().usual().week(), plan);
  INFO(said_in(judgement));
  CHECK(judgement.value.has_value());
  return followed_in(judgement);
}

GivenStop named(const std::string& visit) {
  GivenStop stop;
  stop.visit = visit;
  return stop;
}

}  // namespace

TEST_CASE("figures that were right before a plan was changed are said with the change") {
  SUBCASE("a stop goes to another day, with its figures") {
    // Its waiting is of Monday, the way to it of another place; the round it came from is gone.
    CHECK(changed([](GivenPlan& plan) {
            plan.rounds[1].stops.push_back(plan.rounds[0].stops[0]);
            plan.rounds.erase(plan.rounds.begin());
          }) == "drive van 2026-05-05 loader +15");
  }
  SUBCASE("two stops change places") {
    CHECK(changed([](GivenPlan& plan) { std::swap(pump(plan), call(plan)); }) == "drive van 2026-05-05 call c-01 +9");
  }
  SUBCASE("the last stop is not made, and put off by its name") {
    CHECK(changed([](GivenPlan& plan) {
            tuesday(plan).stops.pop_back();
            plan.put_off.push_back({"call c-01", {}, {}, {}, {}});
          }) == "drive van 2026-05-05 +6");
  }
  SUBCASE("a whole round is not made") {
    CHECK(changed([](GivenPlan& plan) {
            plan.rounds.erase(plan.rounds.begin());
            plan.put_off.push_back({"loader", {}, {}, {}, {}});
          }) == "figure put_off loader +6");
  }
  SUBCASE("a stop is put in by its name") {
    CHECK(changed([](GivenPlan& plan) {
            plan.rounds.erase(plan.rounds.begin());
            plan.rounds[0].stops.push_back(named("loader"));
          }) == "figure van 2026-05-05 loader +12");
  }
  SUBCASE("sums without a cause each are one fault") {
    CHECK(changed([](GivenPlan& plan) {
            monday(plan).drive_min = 45;
            monday(plan).tenths_of_km = 300;
            plan.waiting = Money{1};
          }) == "figure van 2026-05-04; figure van 2026-05-04; figure plan");
  }
  SUBCASE("a sum of what is wrong itself follows from it") {
    CHECK(changed([](GivenPlan& plan) {
            plan.waiting = Money{4456};
            plan.total = Money{20362};
          }) == "figure plan +1");
  }
}

TEST_CASE("a promise that somebody writes into a plan is no fault") {
  GivenPlan plan = worked_plan();
  pump(plan).promised = true;
  CHECK(said_in(judge_plan(Estate().usual().week(), plan)) == "");
}
