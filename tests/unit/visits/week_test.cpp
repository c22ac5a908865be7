// What is wanted in a week, where and when it can be done and at what cost; nothing is decided yet.
#include <doctest/doctest.h>

#include "service/day_alone.h"
#include "unit/visits/estate.h"

using namespace service;
using estate::Estate;
using estate::names_of;
using estate::Texts;
using estate::visit_named;
using test::day;

namespace {

std::string spans_of(const VisitOption& option) {
  std::string text;
  for (const ClockSpan& span : option.spans) {
    text += (text.empty() ? "" : " ") + estate::clock(span.from) + '-' + estate::clock(span.to);
  }
  return text;
}

std::string reason_of(const Week& week, std::string_view visit) {
  const auto& reason = week.visits[visit_named(week, visit)].impossible;
  return reason ? std::string(to_text(*reason)) : "none";
}

std::string not_planned_of(const Week& week) {
  std::string text;
  for (const NotPlanned& one : week.not_planned) {
    text += (text.empty() ? "" : ", ") +
            (one.call != nullptr ? "call " + one.call->key : one.point.machine->key + ' ' + one.point.task) + ' ' +
            std::string(to_text(one.reason));
  }
  return text;
}

std::string failure_of(const Texts& texts, const WeekAsk& ask) {
  try {
    week_horizon(Estate(texts).world.fleet(), ask);
  } catch (const Failure& failure) {
    return std::to_string(static_cast<int>(failure.kind())) + ' ' + failure.diagnostics().front().code;
  }
  return "";
}

}  // namespace

TEST_CASE("the week of the worked example") {
  const Week week = Estate().usual().week();
  CHECK(week.from == day("2026-05-04"));
  CHECK(week.to == day("2026-05-10"));
  CHECK(week.later == day("2026-05-12"));
  REQUIRE(week.crew_days.size() == 2);
  CHECK(week.crew_days[1].on == day("2026-05-05"));
  CHECK((week.crew_days[1].duty == std::chrono::hours{8}));

  // The brakes are due on the 6th, after the last crew-day; the relief valve takes what no crew has.
  CHECK(names_of(week) == "loader, pump, pump+pressure, call c-01");
  CHECK(names_of(week.no_record) == "hoist rope");
  CHECK(week.not_planned.empty());
  CHECK(week.no_time.empty());
  CHECK(week.no_price.empty());

  const std::size_t loader = visit_named(week, "loader");
  CHECK(week.visits[loader].site->key == "holm");
  CHECK(week.visits[loader].work_minutes == 50);
  CHECK_FALSE(week.visits[loader].safety);
  CHECK(week.visits[loader].options[0].possible);
  CHECK(week.visits[loader].options[0].waiting.hundredths == 56);
  CHECK(spans_of(week.visits[loader].options[0]) == "08:00-12:00 13:00-17:00");

  const std::size_t pump = visit_named(week, "pump");
  CHECK_FALSE(week.visits[pump].options[0].possible);  // closed on that day
  CHECK(week.visits[pump].options[1].waiting.hundredths == 300);
  CHECK(spans_of(week.visits[pump].options[1]) == "00:00-24:00");

  const std::size_t call = visit_named(week, "call c-01");
  CHECK(week.visits[call].options[1].waiting.hundredths == 4000);
  CHECK(spans_of(week.visits[call].options[1]) == "08:00-12:30");
  CHECK(week.visits[call].work_minutes == 60);

  const std::size_t relief = visit_named(week, "pump+pressure");
  CHECK((week.visits[relief].needs == std::vector<std::string>{"pressure"}));
  CHECK(week.visits[relief].put_off.hundredths == 3579);
  CHECK(reason_of(week, "pump+pressure") == "not-qualified");
  CHECK(reason_of(week, "pump") == "none");
}

TEST_CASE("a machine's points are one visit where one crew can do them all") {
  Texts texts;
  texts.crews += "  lorry: {start: workshop, hours: {mon: \"08:00-16:00\"}, qualified-for: [pressure, lifting]}\n";
  texts.sites = std::string(texts.sites).replace(texts.sites.find("2026-05-04, "), 12, "");
  const Week week = Estate(texts).usual().week();
  CHECK(names_of(week) == "loader, pump, call c-01");
  const std::size_t pump = visit_named(week, "pump");
  CHECK(week.visits[pump].points.size() == 2);
  CHECK(week.visits[pump].work_minutes == 90);
  REQUIRE(week.crew_days.size() == 3);
  CHECK(week.crew_days[0].crew->key == "van");  // by day, then as the fleet file has them
  CHECK(week.crew_days[1].crew->key == "lorry");
  CHECK_FALSE(week.visits[pump].options[0].possible);
  CHECK(week.visits[pump].options[1].possible);

  // And none where that crew does not go.
  WeekAsk ask{day("2026-05-04")};
  ask.without = {"lorry"};
  CHECK(names_of(Estate(texts).usual().week(ask)) == "loader, pump, pump+pressure, call c-01");
}

TEST_CASE("two people are a need") {
  Texts texts;
  texts.pump =
      "  gland: {do: Repack it, every: {months: 6}, takes: 40 min, people: 2}\n"
      "  relief: {do: Test it, every: {months: 12}, takes: 50 min, needs: [pressure], people: 2}\n"
      "  belt: {do: Look at it, every: {months: 12}, takes: 5 min}\n";
  Estate place(texts);
  place.usual().done("pump", "belt", "2025-05-01");
  const Week week = place.week();
  CHECK(names_of(week) == "loader, pump+two-people, pump+pressure+two-people, pump, call c-01");
  CHECK(week.visits[visit_named(week, "pump+two-people")].people == 2);
  CHECK(reason_of(week, "pump+two-people") == "not-qualified");
}

TEST_CASE("a service that covers another stands for both") {
  Texts texts;
  texts.tractor += "  big: {do: Do all, every: {months: 12}, takes: 2 h, covers: [engine-oil], parts: {kit: 1}}\n";
  Estate place(texts);
  place.usual();
  place.done("loader", "big", "2025-03-01").done("loader", "engine-oil", "2025-04-20");
  const Week week = place.week();
  const Visit& loader = week.visits[visit_named(week, "loader")];
  CHECK(loader.points.size() == 2);
  REQUIRE(loader.included.size() == 1);
  CHECK(loader.included.front()->name == "engine-oil");
  CHECK(loader.work_minutes == 120);
  CHECK((week.no_price == std::vector<std::string>{"kit"}));
}

TEST_CASE("tasks that say no time are named") {
  Texts texts;
  texts.tractor = "  engine-oil: {do: Change it, every: {months: 12}}\n  brakes: {do: Look, every: {months: 6}}\n";
  const Week week = Estate(texts).usual().week();
  CHECK(names_of(week.no_time) == "loader engine-oil");
}

TEST_CASE("what is not to be done is not planned, and said") {
  Estate place;
  place.usual();
  place.world.state(FactKind::laid_up, "2026-04-01").machine = "loader";
  place.world.put_off("gland", "2026-05-01", "2026-06-01").machine = "pump";
  CHECK(not_planned_of(place.week()) == "loader engine-oil laid-up, pump gland put-off");
  CHECK(names_of(place.week()) == "pump+pressure, call c-01");

  Estate unsafe;
  unsafe.usual();
  unsafe.world.state(FactKind::out_of_use, "2026-04-01").machine = "loader";
  CHECK(not_planned_of(unsafe.week()) == "loader engine-oil out-of-use");

  Texts sold;
  sold.machines = std::string(sold.machines)
                      .replace(sold.machines.find("2020-03-01, at: 0}"), 18, "2020-03-01, at: 0}, left: 2026-05-04");
  CHECK(not_planned_of(Estate(sold).usual().week()) == "loader engine-oil left");
}

TEST_CASE("what is said of what is not planned is kept with it") {
  Estate place;
  place.usual();
  Fact& laid_up = place.world.state(FactKind::laid_up, "2026-04-01", "2026-06-01");
  laid_up.machine = "loader";
  laid_up.note = "drained";
  Fact& put_off = place.world.put_off("gland", "2026-05-01", "2026-06-10");
  put_off.machine = "pump";
  put_off.by = "Holt";
  const Week week = place.week();
  REQUIRE(not_planned_of(week) == "loader engine-oil laid-up, pump gland put-off");
  REQUIRE(bool(week.not_planned[0].use != nullptr));
  CHECK((week.not_planned[0].use->until == day("2026-06-01")));
  CHECK(week.not_planned[0].use->note == "drained");
  REQUIRE(bool(week.not_planned[1].put_off != nullptr));
  CHECK((week.not_planned[1].put_off->until == day("2026-06-10")));
  CHECK(week.not_planned[1].put_off->by == "Holt");
}

TEST_CASE("a machine that is back by the last crew-day is planned for from that day on") {
  Estate place;
  place.usual();
  place.world.state(FactKind::laid_up, "2026-04-01", "2026-05-05").machine = "loader";
  const Week week = place.week();
  CHECK(not_planned_of(week).empty());
  const Visit& loader = week.visits[visit_named(week, "loader")];
  CHECK_FALSE(loader.options[0].possible);
  CHECK(loader.options[1].possible);
  // A day later nobody works this week.
  Estate later;
  later.usual();
  later.world.state(FactKind::laid_up, "2026-04-01", "2026-05-06").machine = "loader";
  CHECK(not_planned_of(later.week()) == "loader engine-oil laid-up");
}

TEST_CASE("what never waits on a machine that is laid up is done before it is back, and is late from then on") {
  Texts texts;
  texts.tractor += "  horn: {do: Try the horn, every: {months: 12}, takes: 10 min, safety: true, late: 365}\n";
  Estate place(texts);
  place.usual().done("loader", "horn", "2025-04-20");
  place.world.state(FactKind::laid_up, "2026-04-01", "2026-05-05").machine = "loader";
  const Week week = place.week();
  CHECK(names_of(week) == "loader, loader+from-2026-05-05, pump, pump+pressure, call c-01");
  const Visit& horn = week.visits[visit_named(week, "loader")];
  REQUIRE(horn.points.size() == 1);
  CHECK(horn.points.front()->name == "horn");
  CHECK(horn.options[0].possible);
  CHECK(horn.options[0].waiting == Money{});  // the day before it is back: nothing is lost, and no life given up
  CHECK(horn.options[1].waiting > Money{});
}

TEST_CASE("what never waits is done before a machine is back on a day of the week on which nobody works any more") {
  Texts texts;
  texts.tractor += "  horn: {do: Try the horn, every: {months: 12}, takes: 10 min, safety: true, late: 365}\n";
  const auto laid_up_until = [&](std::string_view until) {
    Estate place(texts);
    place.usual().done("loader", "horn", "2025-04-20");
    place.world.state(FactKind::laid_up, "2026-04-01", until).machine = "loader";
    return place.week();
  };
  // The last crew-day is the 5th, the last day of the week the 10th.
  const Week week = laid_up_until("2026-05-10");
  CHECK(not_planned_of(week) == "loader engine-oil laid-up");
  const Visit& horn = week.visits[visit_named(week, "loader")];
  REQUIRE(horn.points.size() == 1);
  CHECK(horn.points.front()->name == "horn");
  CHECK(horn.safety);
  CHECK(horn.options[0].waiting == Money{});
  CHECK(horn.options[1].waiting == Money{});
  // Put off until the 12th: late from the 9th on, so three days of a year: 365 * (2 * 365 * 3 + 9) / (3 * 365 * 365)
  // is 2.01; and half of the way there and back, with set-up, that it may take again: 61.09.
  CHECK(horn.put_off.hundredths == 201 + 6109);
  CHECK(reason_of(week, "loader") == "none");
  CHECK(not_planned_of(laid_up_until("2026-05-11")) == "loader horn laid-up, loader engine-oil laid-up");
}

TEST_CASE("what is put off until a day of the week is done from that day on") {
  Estate place;
  place.usual();
  place.world.put_off("engine-oil", "2026-05-01", "2026-05-05").machine = "loader";
  const Week week = place.week();
  const std::size_t loader = visit_named(week, "loader");
  CHECK_FALSE(week.visits[loader].options[0].possible);
  CHECK(week.visits[loader].options[1].possible);
}

TEST_CASE("what is put off keeps nothing else of its machine waiting") {
  Texts texts;
  texts.tractor =
      "  engine-oil: {do: Change it, every: {months: 12}, takes: 1 h}\n"
      "  brakes: {do: Look, every: {months: 6}, takes: 40 min, safety: true}\n"
      "  lights: {do: Look, every: {months: 6}, takes: 15 min}\n";
  Estate place(texts);
  place.done("loader", "engine-oil", "2025-04-20").done("loader", "brakes", "2025-11-01");
  place.done("loader", "lights", "2025-11-01");
  place.world.put_off("engine-oil", "2026-05-01", "2026-05-05").machine = "loader";
  const Week week = place.week();
  const Visit& now = week.visits[visit_named(week, "loader")];
  CHECK(now.points.size() == 2);
  CHECK(now.safety);
  CHECK(now.options[0].possible);
  const Visit& waits = week.visits[visit_named(week, "loader+from-2026-05-05")];
  REQUIRE(waits.points.size() == 1);
  CHECK(waits.points.front()->name == "engine-oil");
  CHECK_FALSE(waits.safety);
  CHECK(waits.work_minutes == 60);
  CHECK_FALSE(waits.options[0].possible);
  CHECK(waits.options[1].possible);
  // Whose day has come by the first crew-day waits for nothing.
  CHECK(names_of(place.week("2026-05-05")).find("+from") == std::string::npos);
}

TEST_CASE("without a site or a way there is nothing to plan") {
  Texts texts;
  texts.machines = std::string(texts.machines).replace(texts.machines.find(", site: holm"), 12, "");
  texts.sites += "  croft: {name: Croft}\n";
  texts.calls += "  c-02: {site: croft, do: Look, takes: 10 min}\n";
  const Week week = Estate(texts).usual().week();
  CHECK(not_planned_of(week) == "loader engine-oil no-site, call c-02 no-way");
}

TEST_CASE("days and windows of a call") {
  Texts texts;
  texts.calls =
      "  early: {site: holm, do: Look, takes: 10 min, by: 2026-05-03}\n"
      "  late: {site: holm, do: Look, takes: 10 min, from: 2026-05-06, safety: true}\n"
      "  next: {site: holm, do: Look, takes: 10 min, from: 2026-05-11}\n"
      "  second: {site: holm, do: Look, takes: 10 min, from: 2026-05-05, between: [\"11:00-14:00\"], safety: true}\n"
      "  noon: {site: holm, do: Look, takes: 10 min, between: [\"12:00-13:00\"]}\n";
  const Week week = Estate(texts).usual().week();
  CHECK(names_of(week) == "loader, pump, pump+pressure, call early, call late, call second, call noon");
  // Wanted in the week, after the last day on which somebody works; the judge says so too.
  CHECK(reason_of(week, "call late") == "no-crew");
  CHECK(plan_rounds(week).value.safety_put_off == 1);
  CHECK(reason_of(week, "call early") == "closed");
  CHECK(reason_of(week, "call noon") == "closed");
  const std::size_t second = visit_named(week, "call second");
  CHECK_FALSE(week.visits[second].options[0].possible);
  CHECK(spans_of(week.visits[second].options[1]) == "11:00-12:00 13:00-14:00");
  CHECK(week.visits[second].safety);
}

TEST_CASE("a season over New Year closes a site on both sides of it") {
  Texts texts;
  texts.sites = std::string(texts.sites).replace(texts.sites.find("harvest]"), 8, "frost]");
  texts.seasons = "{frost: {from: 11-15, to: 05-05}}";
  Estate place(texts);
  const Week week = place.usual().week();
  CHECK(reason_of(week, "pump") == "closed");
}

TEST_CASE("where nobody who can do it works any more on a day on which it may be done, no site is called closed") {
  Texts texts;
  texts.crews += "  gang: {start: workshop, hours: {mon: \"07:30-16:00\"}, qualified-for: [pressure]}\n";
  texts.sites.replace(texts.sites.find("2026-05-04, "), 12, "");
  texts.pump = "  relief: {do: Test it, every: {months: 12}, takes: 50 min, needs: [pressure]}\n";
  texts.calls =
      "  late: {site: holm, do: Look, takes: 10 min, from: 2026-05-05, needs: [pressure]}\n"
      "  shut: {site: holm, do: Look, takes: 10 min, by: 2026-05-04, between: [\"12:00-13:00\"], needs: [pressure]}\n"
      "  over: {site: holm, do: Look, takes: 10 min, by: 2026-05-03, needs: [pressure]}\n";
  Estate place(texts);
  place.done("loader", "engine-oil", "2025-04-20").done("loader", "brakes", "2025-11-06");
  place.done("pump", "relief", "2025-05-01");
  CHECK(reason_of(place.week(), "pump") == "none");
  CHECK(reason_of(place.week(), "call late") == "no-crew");
  CHECK(reason_of(place.week(), "call shut") == "closed");  // the gang is there that day, and the gate is not open
  CHECK(reason_of(place.week(), "call over") == "closed");  // that day is over
  place.world.put_off("relief", "2026-05-01", "2026-05-05").machine = "pump";
  const Week week = place.week();
  CHECK(reason_of(week, "pump") == "no-crew");
  const auto& days = week.visits[visit_named(week, "pump")].days;
  REQUIRE(days.has_value());
  CHECK(days->first == day("2026-05-05"));
  CHECK(days->second == day("2026-05-10"));
  // The judge says so too, or no plan would be handed out.
  const RoundsPlan plan = plan_rounds(week);
  CHECK(std::any_of(plan.not_this_week.begin(), plan.not_this_week.end(), [&](const NotThisWeek& out) {
    return out.visit == visit_named(week, "pump") && out.reason == PutOffReason::no_crew;
  }));
}

TEST_CASE("what fits into no day, even alone, is out of reach") {
  Texts texts;
  texts.pump =
      "  gland: {do: Repack it, every: {months: 6}, takes: 7 h}\n"
      "  relief: {do: Test it, every: {months: 12}, takes: 6 h}\n";
  // 13 hours of work in a day of eight and a half.
  CHECK(reason_of(Estate(texts).usual().week(), "pump") == "unreachable");
}

TEST_CASE("work for safety is not left out because of other work at its machine") {
  // A stay at Holm is four hours at most, with ten minutes of set-up.
  Texts texts;
  texts.tractor =
      "  engine-oil: {do: Change it, every: {months: 12}, takes: 3 h 30 min}\n"
      "  brakes: {do: Look, every: {months: 6}, takes: 40 min, safety: true, covers: [lights]}\n"
      "  lights: {do: Look, every: {months: 6}, takes: 15 min}\n";
  const auto served = [](Estate place) {
    place.done("loader", "engine-oil", "2025-04-20").done("loader", "brakes", "2025-11-01");
    place.done("loader", "lights", "2025-11-01").done("pump", "gland", "2025-10-20");
    return place.done("pump", "relief", "2025-05-01").week();
  };
  const Week week = served(Estate(texts));
  CHECK(names_of(week) == "loader+safety, loader, pump, pump+pressure, call c-01");
  const Visit& apart = week.visits[visit_named(week, "loader+safety")];
  CHECK(apart.safety);
  CHECK(apart.work_minutes == 40);
  CHECK(apart.points.size() == 2);  // what it includes is done with it
  CHECK(apart.included.size() == 1);
  const Visit& rest = week.visits[visit_named(week, "loader")];
  CHECK_FALSE(rest.safety);
  CHECK(rest.work_minutes == 210);
  CHECK(reason_of(week, "loader+safety") == "none");
  CHECK(reason_of(week, "loader") == "none");
  CHECK(plan_rounds(week).value.safety_put_off == 0);

  SUBCASE("nor where the rest fits into no day by itself") {
    texts.tractor.replace(texts.tractor.find("3 h 30"), 6, "5 h 30");
    const Week longer = served(Estate(texts));
    CHECK(reason_of(longer, "loader+safety") == "none");
    CHECK(reason_of(longer, "loader") == "unreachable");
  }
  SUBCASE("nor of that of two machines, with a third behind them") {
    // A day at Holm holds neither machine whole, and of the last one only work that is not for safety.
    texts.machines +=
        "  second: {name: Second, schedule: tractor, site: holm, in-service: {on: 2020-03-01, at: 0}}\n"
        "  third: {name: Third, schedule: tractor, site: holm, in-service: {on: 2020-03-01, at: 0}}\n";
    Estate place(texts);
    for (const char* machine : {"second", "third"}) {
      place.done(machine, "engine-oil", "2025-04-20").done(machine, "brakes", "2025-11-01");
      place.done(machine, "lights", "2025-11-01");
    }
    const Week three = served(place);
    CHECK(names_of(three) ==
          "loader+safety, loader, second+safety, second, third+safety, third, pump, pump+pressure, call c-01");
    for (const Visit& visit : three.visits) {
      CAPTURE(visit.name);
      CHECK(visit.options.size() == three.crew_days.size());
      CHECK(visit.put_off > Money{});
      if (visit.machine == nullptr || visit.machine->schedule != "tractor") continue;
      const bool apart = visit.name.ends_with("+safety");
      const Visit& same = three.visits[visit_named(three, apart ? "loader+safety" : "loader")];
      CHECK(visit.put_off == same.put_off);
      CHECK(visit.options[0].waiting == same.options[0].waiting);
      CHECK(visit.work_minutes == same.work_minutes);
    }
    const RoundsPlan plan = plan_rounds(three);
    CHECK(plan.value.safety_put_off == 0);
  }
  SUBCASE("what fits whole stays whole, and so does what is for safety and fits in no part") {
    texts.tractor.replace(texts.tractor.find("3 h 30"), 6, "2 h 30");
    const Week whole = served(Estate(texts));
    CHECK(whole.visits.front().name == "loader");
    CHECK(whole.visits.front().points.size() == 3);
    texts.tractor.replace(texts.tractor.find("40 min"), 6, "6 h");
    const Week none = served(Estate(texts));
    CHECK(reason_of(none, "loader") == "unreachable");
    CHECK(none.visits[1].name == "pump");
  }
}

TEST_CASE("a day alone names all that a reader has to add up, the meal too") {
  Texts texts;
  texts.tractor =
      "  engine-oil: {do: Change it, every: {months: 12}, takes: 3 h 40 min}\n"
      "  brakes: {do: Look, every: {months: 6}, takes: 40 min}\n";
  texts.crews.replace(texts.crews.find("duty: 8 h"), 9, "duty: 8 h, meal: 30 min");
  texts.crews.replace(texts.crews.find("07:30-16:00"), 11, "07:30-12:30");
  Estate place(texts);
  const Week week = place.usual().week();
  REQUIRE(reason_of(week, "loader") == "unreachable");
  const auto alone = nearest_day_alone(week, visit_named(week, "loader"));
  REQUIRE(alone.has_value());
  CHECK(alone->work == 220);
  CHECK(alone->set_up == 10);
  CHECK(alone->meal == 30);
  CHECK(alone->drive == 46);
  CHECK(alone->away == 300);
  CHECK(alone->but_for_meal);

  texts.tractor.replace(texts.tractor.find("3 h 40"), 6, "6 h 40");
  Estate longer(texts);
  const Week other = longer.usual().week();
  REQUIRE(nearest_day_alone(other, visit_named(other, "loader")).has_value());
  CHECK_FALSE(nearest_day_alone(other, visit_named(other, "loader"))->but_for_meal);
}

TEST_CASE("where the hours that a customer asked for are too few, it is they that are named, and who comes nearest") {
  Texts texts;
  texts.calls = "  far: {site: holm, do: Survey, takes: 5 h, between: [\"09:00-14:00\"]}\n";
  texts.crews += "  gang: {start: workshop, hours: {mon: \"07:00-17:30\"}}\n";
  const Week week = Estate(texts).usual().week();
  REQUIRE(reason_of(week, "call far") == "unreachable");
  const auto alone = nearest_day_alone(week, visit_named(week, "call far"));
  REQUIRE(alone.has_value());
  CHECK(alone->crew->key == "gang");  // of those with as long a stay the one who is away longest
  REQUIRE(alone->wanted.size() == 1);
  CHECK(alone->wanted[0].from == 9 * 60);
  CHECK(alone->open.size() == 2);  // the gate, whatever was asked for
  CHECK(alone->longest_span == 180);
}

TEST_CASE("what is due soon after joins a visit where that is cheaper than another trip") {
  WeekAsk ask{day("2026-05-04")};
  Estate place;
  place.usual();
  CHECK(place.week(ask).visits[0].points.size() == 1);
  ask.join_days = 0;
  CHECK(place.week(ask).visits[0].points.size() == 1);
  ask.join_days = 1;  // the brakes are due a day after the last crew-day
  const Week week = place.week(ask);
  const Visit& loader = week.visits[visit_named(week, "loader")];
  REQUIRE(loader.points.size() == 2);
  REQUIRE(loader.joined.size() == 1);
  CHECK(loader.joined.front()->name == "brakes");
  CHECK(loader.work_minutes == 90);
  // 29.33 for 181 days: two of them are 0.32.
  CHECK(week.visits[0].options[0].waiting.hundredths == 56 + 32);

  Texts free_trips;
  free_trips.costs = "{hour: 44, km: 0.55, later-trip: 0%}";
  Estate other(free_trips);
  other.usual();
  CHECK(other.week(ask).visits[0].points.size() == 1);
}

TEST_CASE("a point does not join where its work would take a day away from the visit") {
  Texts texts;
  texts.tractor =
      "  engine-oil: {do: Change it, every: {months: 12}, takes: 3 h}\n"
      "  brakes: {do: Look, every: {months: 6}, takes: 4 h}\n";
  Estate place(texts);
  place.usual();
  WeekAsk ask{day("2026-05-04")};
  ask.join_days = 1;
  const Week week = place.week(ask);
  CHECK(week.visits[0].points.size() == 1);
  CHECK(week.visits[0].work_minutes == 180);
}

TEST_CASE("without crews, crew-days or costs there is no week, and it is said") {
  const WeekAsk ask{day("2026-05-04")};
  CHECK(failure_of({}, ask) == "");
  CHECK(failure_of({}, {day("2026-05-06"), 3}) == "65 no-crew-days");
  Texts texts;
  texts.costs = "{km: 0.55}";
  CHECK(failure_of(texts, ask) == "78 no-costs");
  texts.costs = "{hour: 44}";
  CHECK(failure_of(texts, ask) == "78 no-costs");
  WeekAsk without = ask;
  without.without = {"van"};
  CHECK(failure_of({}, without) == "65 no-crew-days");
  without.without = {"vann"};
  CHECK(failure_of({}, without) == "64 no-such-crew");
}

TEST_CASE("a due list that does not reach is refused") {
  const Estate place;
  const auto snapshot = place.world.snapshot("2026-05-03");
  auto list = std::make_shared<DueList>(due_list(snapshot, {day("2026-05-04")}, straight_line()));
  CHECK_THROWS_AS(week_of_work(snapshot, list, {day("2026-05-04")}), const Failure&);
}
