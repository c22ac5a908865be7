// A plan of a week as it is told: of a site, cut short, with what each visit takes and what is to be minded there.
#include "service/rounds_list.h"

#include <set>

#include "service/minding.h"
#include "service/shared_machines.h"
#include "unit/visits/estate.h"

using namespace service;
using estate::by_hand;
using estate::Estate;
using estate::Texts;
using estate::visit_named;
using test::day;

namespace {

RoundsPlan usual_plan() { return by_hand(Estate().usual().week(), {{"loader"}, {"pump", "call c-01"}}); }

std::string told_of(const RoundsList& list) {
  std::string text;
  for (const Round& round : list.plan.rounds) {
    for (const RoundStop& stop : round.stops) text += list.week().visits[stop.visit].name + "; ";
  }
  for (const NotThisWeek& out : list.plan.not_this_week) text += "not " + list.week().visits[out.visit].name + "; ";
  for (const PointName& point : list.week().no_record) text += "no record " + point.machine->key + "; ";
  return text;
}

}  // namespace

TEST_CASE("of a site is told what is its own, and sums stay those of the week") {
  const RoundsPlan plan = usual_plan();
  const Fleet& fleet = *plan.week.fleet;
  CHECK(told_of(rounds_list(plan)) == "loader; pump; call c-01; not pump+pressure; no record hoist; ");
  const RoundsList beck = rounds_list(plan, fleet.site("beck"));
  CHECK(told_of(beck) == "pump; call c-01; not pump+pressure; ");
  CHECK(beck.plan.rounds.size() == 1);
  CHECK((beck.plan.value == plan.value));
  const RoundsList holm = rounds_list(plan, fleet.site("holm"));
  CHECK(told_of(holm) == "loader; no record hoist; ");
  REQUIRE(holm.plan.rounds.size() == 1);
  CHECK(holm.plan.rounds[0].cost.hundredths == 6109);
  CHECK(told_of(rounds_list(plan, fleet.site("workshop"))) == "");
  // The gaps of the hoist are holm's alone.
  CHECK(holm.gaps.size() + beck.gaps.size() == rounds_list(plan).gaps.size());
  CHECK_FALSE(holm.gaps.empty());
}

TEST_CASE("work that has its place is no reason to see to anything") {
  Estate place(estate::loader_alone());
  place.done("loader", "engine-oil", "2025-04-20").done("loader", "brakes", "2025-11-06");
  place.world.reading("2026-05-01", "100").machine = "loader";
  const Week week = place.week();
  CHECK_FALSE(needs_doing(rounds_list(by_hand(week, {{"loader"}}))));
  CHECK(needs_doing(rounds_list(by_hand(week, {{}}))));
  CHECK(needs_doing(rounds_list(usual_plan())));
}

TEST_CASE("cut short are rows that may wait, never rounds and never safety") {
  Texts texts;
  texts.calls =
      "  a: {site: beck, do: Look, takes: 6 h, needs: [gas]}\n  b: {site: beck, do: Look, takes: 6 h, needs: [gas]}\n"
      "  c: {site: beck, do: Look, takes: 6 h, needs: [gas], safety: true}\n";
  RoundsList list = rounds_list(by_hand(Estate(texts).usual().week(), {{"loader"}}));
  CHECK(told_of(list) == "loader; not call c; not pump+pressure; not pump; not call a; not call b; no record hoist; ");
  keep_first(list, 1);
  CHECK(told_of(list) == "loader; not call c; not pump+pressure; no record hoist; ");
  CHECK(list.left_off == 3);
}

TEST_CASE("work for safety that is done after its due day keeps its machine out of use until then") {
  Texts texts;
  texts.tractor =
      std::string(texts.tractor).replace(texts.tractor.find("takes: 50 min"), 13, "takes: 50 min, safety: true");
  const Week week = Estate(texts).usual().week();
  const Visit& loader = week.visits[visit_named(week, "loader")];  // due on 20 April
  REQUIRE(keep_out_of_use(loader, day("2026-05-04")).size() == 1);
  CHECK(keep_out_of_use(loader, day("2026-05-04")).front()->name == "engine-oil");
  CHECK(keep_out_of_use(loader, *loader.points.front()->due_on).empty());
  CHECK(keep_out_of_use(week.visits[visit_named(week, "pump")], day("2026-05-05")).empty());
}

TEST_CASE("what a visit takes, whatever is on board") {
  Texts texts;
  texts.crews = std::string(texts.crews).replace(texts.crews.find("duty"), 4, "carries: {oil-filter-a: 5}, duty");
  const Week week = Estate(texts).usual().week();
  const VisitLoad load = load_of(week.visits[visit_named(week, "loader")]);
  REQUIRE(load.parts.size() == 1);
  CHECK(load.parts[0].first == "oil-filter-a");
  CHECK(load.parts[0].second == PartAmount::units(1));
  REQUIRE(load.fluids.size() == 1);
  CHECK(load.fluids[0].second.amount.hundredths == 1150);
  CHECK(load_of(week.visits[visit_named(week, "call c-01")]).parts.empty());
}

TEST_CASE("whoever goes to a machine of which something was seen minds what that may be about") {
  Estate estate;
  estate.usual();
  const Week before = estate.week();
  const auto cautions = [](const Week& week) {
    return cautions_of(*week.list, week.visits[visit_named(week, "pump")]);
  };
  CHECK(cautions(before).empty());
  estate.world.sign("strange noise", "2026-05-02").machine = "pump";
  const Week after = estate.week();
  CHECK((cautions(after) == std::vector<std::string>{std::string(never_by_hand())}));
  REQUIRE(seen_at(*after.list, after.visits[visit_named(after, "pump")]).size() == 1);
  CHECK(seen_at(*after.list, after.visits[visit_named(after, "loader")]).empty());
  CHECK((by_hand(after, {{}, {"pump"}}).rounds[0].cautions == cautions(after)));
}

TEST_CASE("work for safety that is not done keeps its machine, or what the call is about, out of use") {
  Texts texts;
  texts.pump = std::string(texts.pump).replace(texts.pump.find("takes: 40"), 5, "safety: true, takes");
  texts.calls = "  c: {site: beck, do: Look, takes: 1 h, safety: true}\n";
  const Week week = Estate(texts).usual().week();
  CHECK(keep_out_of_use(week.visits[visit_named(week, "pump")]));
  CHECK(keep_out_of_use(week.visits[visit_named(week, "call c")]));
  CHECK_FALSE(keep_out_of_use(week.visits[visit_named(week, "loader")]));
}

TEST_CASE("events keep their names where a visit moves, and have others when it comes round again") {
  const Estate estate = std::move(Estate().usual());
  const auto events = [](const Week& week, const std::vector<std::vector<std::string_view>>& routes) {
    return rounds_calendar(rounds_list(by_hand(week, routes)), {7, 9}).events;
  };
  const auto first = events(estate.week(), {{"loader"}, {"pump", "call c-01"}});
  REQUIRE(first.size() == 6);  // the week, a round and its stop, a round and its two
  CHECK((first[0].kind == EventKind::summary));
  CHECK(first[0].on == day("2026-05-03"));
  CHECK(first[2].on == day("2026-05-04"));
  CHECK(first[5].sequence == 7);
  CHECK(first[5].changed == 9);
  std::set<std::string> names;
  for (const CalendarEvent& event : first) names.insert(event.uid);
  CHECK(names.size() == first.size());

  const auto moved = events(estate.week(), {{}, {"loader"}});
  REQUIRE(moved.size() == 3);
  CHECK(moved[0].uid == first[0].uid);
  CHECK(moved[1].uid == first[3].uid);  // the round of Tuesday
  CHECK(moved[2].uid == first[2].uid);  // the loader
  CHECK(moved[2].on == day("2026-05-05"));
  const auto again = events(Estate().usual().done("loader", "engine-oil", "2025-05-02").week(), {{"loader"}});
  REQUIRE(again.size() == 3);
  CHECK(again[2].uid != first[2].uid);

  const RoundsPlan plan = usual_plan();
  const auto of_site = rounds_calendar(rounds_list(plan, plan.week.fleet->site("beck")), {7, 9}).events;
  REQUIRE(of_site.size() == 3);  // the week and two stops
  CHECK(of_site[0].uid != first[0].uid);
  CHECK(of_site[1].uid == first[4].uid);
}

TEST_CASE("cut short, what is told of a machine is told whole") {
  RoundsList list = rounds_list(by_hand(Estate().usual().week(), {{"loader"}}));
  auto& unknown = list.plan.week.unknown;
  const Fleet& fleet = *list.week().fleet;
  unknown = {{fleet.machine("loader"), "a", "", false, false},
             {fleet.machine("loader"), "b", "", false, false},
             {fleet.machine("hoist"), "c", "", false, false},
             {fleet.machine("pump"), "d", "", true, false}};
  keep_first(list, 1);
  CHECK(estate::names_of(unknown) == "loader a, loader b, pump d");
}

TEST_CASE("what the rounds load is taken from stock in the order of the plan") {
  Texts texts;
  texts.machines += "  mower: {name: Mower, schedule: tractor, site: holm, in-service: {on: 2020-03-01, at: 0}}\n";
  Estate place(texts);
  place.usual().done("mower", "engine-oil", "2025-04-21").done("mower", "brakes", "2026-04-06");
  const RoundsPlan plan = by_hand(place.week(), {{"mower", "loader"}});
  RoundsList list = rounds_list(plan);
  PartsList parts;
  parts.as_of = day("2026-05-03");
  Part known;
  known.lead_days = 5;
  const PartNeed need = estate::need_of_filters(known, 1, "2026-05-03");
  PartNeed not_counted = need;
  not_counted.key = "engine-oil-15w40";
  not_counted.unit = "L";
  not_counted.stock.reset();
  parts.needs = {need, not_counted};
  hold_against_stock(list, parts);
  const auto& stops = list.plan.rounds.at(0).stops;
  const auto lacks = [&](const RoundStop& stop) { return lacks_of(list, stop); };
  REQUIRE(lacks(stops[0]).size() == 1);  // nobody counted the oil
  CHECK_FALSE(lacks(stops[0])[0].counted);
  REQUIRE(lacks(stops[1]).size() == 2);
  const PartLack lack = lacks(stops[1])[1];
  CHECK(lack.key == "oil-filter-a");
  CHECK(lack.short_by == PartAmount::units(1));
  CHECK((lack.short_on == day("2026-05-04")));
  CHECK((lack.there == day("2026-05-08")));
  CHECK(lack.in_stock == PartAmount::units(1));
  REQUIRE(lack.kept_for.size() == 1);
  CHECK(lack.kept_for[0].machine == "mower");
  // Of the round together nothing is kept for one of its own machines.
  REQUIRE(lacks_of(list, list.plan.rounds[0]).size() == 2);
  CHECK(lacks_of(list, list.plan.rounds[0])[1].kept_for.empty());
  REQUIRE(list.short_parts.size() == 1);
  CHECK(list.short_parts[0].short_by == PartAmount::units(1));
  CHECK(list.short_parts[0].short_on == day("2026-05-04"));
  LackingWork work = lacking_work(list.loads);
  CHECK((work.parts == std::vector<std::string>{"oil-filter-a"}));
  CHECK(work.visits == 1);
  REQUIRE(work.loads.size() == 1);
  CHECK(work.loads[0]->machine->key == "loader");

  CHECK((lack.order_by == day("2026-05-03")));
  CHECK(lack.late_days == 4);  // for this day, whatever the list of parts says

  known.lead_days = 1;
  parts.needs[0].order_by = day("2026-05-20");
  hold_against_stock(list, parts);
  CHECK((lacks(stops[1])[1].order_by == day("2026-05-03")));
  CHECK(lacks(stops[1])[1].late_days == 0);
  work = lacking_work(list.loads);
  CHECK(work.parts.size() == 1);
  CHECK(work.visits == 0);  // it can be there in time

  parts.needs[0].stock = PartAmount::units(2);
  hold_against_stock(list, parts);
  CHECK(list.short_parts.empty());
  CHECK(lacking_work(list.loads).parts.empty());

  // Of another site nothing is told, and yet it takes.
  parts.needs[0].stock = PartAmount{};
  RoundsList elsewhere = rounds_list(plan, plan.week.fleet->site("beck"));
  hold_against_stock(elsewhere, parts);
  CHECK(elsewhere.short_parts.empty());
}

namespace {

// So many filters in stock, and oil that nobody needs to count.
PartsList filters(const Part& known, std::int64_t stock) {
  PartsList parts;
  parts.as_of = day("2026-05-03");
  parts.needs = {estate::need_of_filters(known, stock, "2026-05-03")};
  return parts;
}

}  // namespace

TEST_CASE("what a kept plan did before the week is in stock no more") {
  Texts texts;
  texts.pump = std::string(texts.pump).replace(texts.pump.find("late: 380"), 9, "late: 380, parts: {oil-filter-a: 1}");
  const GivenPlan kept = as_given(by_hand(Estate(texts).usual().week(), {{"loader"}, {"pump"}}));
  WeekAsk ask{day("2026-05-05"), 6};
  ask.keep = kept;
  const auto list_of = [&](const Estate& place, const PartsList& parts) {
    RoundsList list = rounds_list(by_hand(place.week(ask, "2026-05-05"), {{"pump"}}));
    hold_against_stock(list, parts);
    return list;
  };
  const Part known;
  Estate place(texts);
  place.usual();
  RoundsList list = list_of(place, filters(known, 1));
  REQUIRE(list.short_parts.size() == 1);
  CHECK(list.short_parts[0].short_by == PartAmount::units(1));
  CHECK((list.short_parts[0].short_on == day("2026-05-05")));
  REQUIRE(taken_before(list).parts.size() == 1);
  CHECK(taken_before(list).parts[0].second == PartAmount::units(1));
  CHECK(taken_before(list).fluids.size() == 1);
  CHECK(lacking_work(list.loads).visits == 1);
  // A count after that round has seen it.
  PartsList counted = filters(known, 1);
  counted.needs[0].counted_on = day("2026-05-05");
  CHECK(list_of(place, counted).short_parts.empty());
  // What the book has, a count is less by; what the fleet file says is never less by anything.
  place.done("loader", "engine-oil", "2026-05-04");
  counted.needs[0].counted_on = day("2026-05-01");
  list = list_of(place, counted);
  CHECK(list.short_parts.empty());
  CHECK(taken_before(list).parts.empty());
  list = list_of(place, filters(known, 1));
  REQUIRE(list.short_parts.size() == 1);
  CHECK(list.short_parts[0].short_by == PartAmount::units(1));
  REQUIRE(taken_before(list).parts.size() == 1);
  CHECK(taken_before(list).parts[0].second == PartAmount::units(1));
}

TEST_CASE("what was on board before the week is reckoned the same whether the book has it or not") {
  Texts texts;
  texts.pump = std::string(texts.pump).replace(texts.pump.find("late: 380"), 9, "late: 380, parts: {oil-filter-a: 3}");
  texts.crews = std::string(texts.crews).replace(texts.crews.find("duty"), 4, "carries: {oil-filter-a: 2}, duty");
  WeekAsk ask{day("2026-05-05"), 6};
  ask.keep = as_given(by_hand(Estate(texts).usual().week(), {{"loader"}, {"pump"}}));
  const Part known;
  const auto list_of = [&](const Estate& place, const PartsList& parts) {
    RoundsList list = rounds_list(by_hand(place.week(ask, "2026-05-05"), {{"pump"}}));
    hold_against_stock(list, parts);
    return list;
  };
  // The loader's filter came from the van. So the pump's three are the one that is left there and two from the shelf,
  // on which there is one.
  const auto never_counted = [&](const Estate& place) {
    const RoundsList list = list_of(place, filters(known, 1));
    CHECK(taken_before(list).parts.empty());
    REQUIRE(list.short_parts.size() == 1);
    CHECK(list.short_parts[0].short_by == PartAmount::units(1));
  };
  const auto counted = [&](const Estate& place, std::int64_t stock) {
    PartsList parts = filters(known, stock);
    parts.needs[0].counted_on = day("2026-05-01");
    const RoundsList list = list_of(place, parts);
    CHECK(taken_before(list).parts.empty());
    REQUIRE(list.short_parts.size() == 1);
    CHECK(list.short_parts[0].short_by == PartAmount::units(1));
  };
  Estate place(texts);
  place.usual();
  never_counted(place);
  counted(place, 1);
  place.done("loader", "engine-oil", "2026-05-04");
  never_counted(place);
  counted(place, 0);  // the book has taken one off
}

TEST_CASE("a stop is told what is left of a part after what a kept plan did before") {
  Texts texts;
  texts.pump = "  gland: {do: Repack it, every: {months: 6}, takes: 40 min, late: 380, parts: {oil-filter-a: 2}}\n";
  texts.machines += "  mower: {name: Mower, schedule: pump, site: beck, in-service: {on: 2021-03-01, at: 0}}\n";
  Estate place(texts);
  place.usual().done("mower", "gland", "2025-10-20");
  WeekAsk ask{day("2026-05-05"), 6};
  ask.keep = as_given(by_hand(place.week(), {{"loader"}, {"pump", "mower"}}));
  const Part known;
  const auto told = [&](std::int64_t stock) {
    RoundsList list = rounds_list(by_hand(place.week(ask, "2026-05-05"), {{"pump", "mower"}}));
    hold_against_stock(list, filters(known, stock));
    return lacks_of(list, list.plan.rounds[0].stops[1]);
  };
  // Four in stock: one went to the loader, two go to the pump.
  REQUIRE(told(4).size() == 1);
  CHECK(told(4)[0].short_by == PartAmount::units(1));
  CHECK(told(4)[0].in_stock == PartAmount::units(3));
  CHECK(told(4)[0].taken_before == PartAmount::units(1));
  REQUIRE(told(4)[0].kept_for.size() == 1);
  CHECK(told(4)[0].kept_for[0].machine == "pump");
  // It is the same once that is written down: the fleet file is not less by it.
  place.done("loader", "engine-oil", "2026-05-04");
  REQUIRE(told(4).size() == 1);
  CHECK(told(4)[0].in_stock == PartAmount::units(3));
  // One in stock: it went to the loader, and none is kept for anybody.
  REQUIRE(told(1).size() == 1);
  CHECK_FALSE(told(1)[0].is_kept());
  CHECK(told(1)[0].taken_before == PartAmount::units(1));
}

TEST_CASE("of what is taken as done it is told what was not in stock for it") {
  WeekAsk ask{day("2026-05-05"), 6};
  ask.keep = as_given(by_hand(Estate().usual().week(), {{"loader"}, {"pump"}}));
  Estate place;
  place.usual();
  const Part known;
  const auto list_of = [&](const PartsList& parts) {
    RoundsList list = rounds_list(by_hand(place.week(ask, "2026-05-05"), {{"pump"}}));
    hold_against_stock(list, parts);
    return list;
  };
  const RoundsList list = list_of(filters(known, 0));
  REQUIRE(list.week().not_in_book.size() == 1);
  const NotInBook& oil = list.week().not_in_book.front();
  REQUIRE(short_then(list, oil).size() == 1);  // of the oil nobody said how much there is
  CHECK(short_then(list, oil)[0].key == "oil-filter-a");
  CHECK(short_then(list, oil)[0].short_by == PartAmount::units(1));
  CHECK(list.short_parts.empty());  // no stop of the week lacks it
  const auto nothing_short = [&](const PartsList& parts) {
    const RoundsList other = list_of(parts);
    CHECK(short_then(other, other.week().not_in_book.front()).empty());
  };
  nothing_short(filters(known, 1));
  PartsList counted_since = filters(known, 0);
  counted_since.needs[0].counted_on = day("2026-05-05");
  nothing_short(counted_since);
}

TEST_CASE("what fills up a van is held against stock, and no visit waits for it") {
  Texts texts;
  texts.crews = std::string(texts.crews).replace(texts.crews.find("duty"), 4, "carries: {oil-filter-a: 1}, duty");
  RoundsList list = rounds_list(by_hand(Estate(texts).usual().week(), {{"loader"}, {"pump"}}));
  const Part known;
  hold_against_stock(list, filters(known, 0));
  REQUIRE(list.short_parts.size() == 1);
  CHECK((list.short_parts[0].short_on == day("2026-05-05")));
  CHECK(lacks_of(list, list.plan.rounds[0]).empty());
  REQUIRE(lacks_of(list, list.plan.rounds[1]).size() == 1);
  CHECK(lacks_of(list, list.plan.rounds[1].stops[0]).empty());
  CHECK(lacking_work(list.loads).visits == 0);
  CHECK(lacking_work(list.loads).parts.size() == 1);
  CHECK(lacking_work(list.loads).fills_up_late);
  hold_against_stock(list, filters(known, 1));
  CHECK(list.short_parts.empty());
}

TEST_CASE("a calendar of a plan made anew is above that of the plan kept, and cancels what is in it no more") {
  const Estate estate = std::move(Estate().usual());
  const Week week = estate.week();
  const auto calendar_of = [](const Week& of, const std::vector<std::vector<std::string_view>>& routes) {
    return rounds_calendar(rounds_list(by_hand(of, routes)), {7, 9}).events;
  };
  const auto first = calendar_of(week, {{"loader"}, {"pump", "call c-01"}});
  Week anew = week;
  anew.kept = as_given(by_hand(week, {{"loader"}, {"pump", "call c-01"}}));
  const RoundsList list = rounds_list(by_hand(anew, {{"loader"}}));  // into which its events point
  const auto second = rounds_calendar(list, {7, 9}).events;
  REQUIRE(second.size() == 6);  // the week, a round and its stop; the other round and its two, cancelled
  std::set<std::string> cancelled;
  for (const CalendarEvent& event : second) {
    CHECK(event.sequence == 8);
    CHECK(event.changed == 1009);
    if (event.cancelled) cancelled.insert(event.uid);
  }
  CHECK(bool(cancelled == std::set<std::string>{first[3].uid, first[4].uid, first[5].uid}));
  CHECK(second[4].on == first[4].on);
  REQUIRE(bool(second[4].kept_stop != nullptr));
  CHECK(second[4].kept_stop->visit == "pump");
  CHECK(bool(second[3].kept_stop == nullptr));
  // It goes on from the number that the plan says, and by the name that it says of a stop.
  anew.kept->sequence = 20;
  anew.kept->rounds[1].stops[0].uid = "another@whichever";
  const auto third = calendar_of(anew, {{"loader"}});
  CHECK(third.front().sequence == 21);
  CHECK(std::any_of(third.begin(), third.end(),
                    [](const CalendarEvent& event) { return event.cancelled && event.uid == "another@whichever"; }));
  // What moved is not cancelled; days before the week are over.
  for (const CalendarEvent& event : calendar_of(anew, {{}, {"loader"}})) {
    if (event.uid == first[2].uid) CHECK_FALSE(event.cancelled);
  }
  anew.kept->rounds[1].on = week.from - std::chrono::days{1};
  for (const CalendarEvent& event : calendar_of(anew, {{"loader"}})) CHECK_FALSE(event.cancelled);
}

TEST_CASE("of a machine at which two crews work on one day each is told of the other") {
  Texts texts;
  texts.crews +=
      "  gang: {start: workshop, hours: {tue: \"07:30-16:00\"}, qualified-for: [pressure]}\n"
      "  third: {start: workshop, hours: {tue: \"07:30-16:00\"}}\n";
  texts.calls = "  c-01: {machine: pump, do: Hydraulic leak, takes: 60 min, wait: 20}\n";
  const Week week = Estate(texts).usual().week();
  std::vector<std::vector<std::string_view>> routes(week.crew_days.size());
  for (std::size_t d = 0; d < week.crew_days.size(); ++d) {
    if (week.crew_days[d].on != day("2026-05-05")) continue;
    const std::string& crew = week.crew_days[d].crew->key;
    if (crew == "gang") routes[d] = {"pump"};
    if (crew == "third") routes[d] = {"call c-01"};
    if (crew == "van") routes[d] = {"loader"};
  }
  const RoundsPlan plan = by_hand(week, routes);
  REQUIRE(plan.rounds.size() == 3);
  for (const Round& round : plan.rounds) {
    const std::string& crew = week.crew_days[round.crew_day].crew->key;
    const auto shared = shared_machines(plan, round);
    CAPTURE(crew);
    if (crew == "van") {
      CHECK(shared.empty());
      continue;
    }
    REQUIRE(shared.size() == 1);
    CHECK(shared[0].machine->key == "pump");
    REQUIRE(shared[0].others.size() == 1);
    CHECK(shared[0].others[0]->key == (crew == "gang" ? "third" : "gang"));
  }
}
