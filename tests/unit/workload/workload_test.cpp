// Workload, parts and season where the answer can be reckoned by hand.
#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "service/season.h"
#include "support/world.h"

using namespace service;
using test::day;
using test::World;

namespace {

const std::string parts_list_text =
    "currency: GBP\n"
    "costs: {hour: 60}\n"
    "parts:\n"
    "  filter: {what: Oil filter, unit: piece, pack: 5, price: 10, lead-time: 14 days, stock: 1, supplier: shop}\n"
    "  oil: {what: Oil, unit: L, pack: 20, price: 4, lead-time: 7 days, stock: 30, supplier: shop}\n";

// Two hours a day for a year, up to 2026-01-01, then for certain.
World certain(const std::string& tasks, const std::string& more = parts_list_text, const std::string& machine = "") {
  World world(tasks, "in-service: {on: 2025-01-01, at: 0}" + machine, more);
  world.reading("2026-01-01", "730");
  return world;
}

const std::string oil_task =
    "  oil: {do: Oil, every: {hours: 100}, takes: 45 min, people: 2, parts: {filter: 1}, fluids: {oil: 12 L}}\n";

Workload load_of(const World& world, std::string_view to, Step step, const Forecaster& forecaster = straight_line()) {
  return workload(world.snapshot("2026-01-01"), day(to), step, forecaster);
}

double sum_of(const Workload& load, Spread WorkloadRow::*what) {
  double sum = 0;
  for (const WorkloadRow& row : load.rows) sum += (row.*what).mean;
  return sum;
}

}  // namespace

TEST_CASE("labour, money and parts of a year of certain use") {
  World world = certain(oil_task);
  world.done("oil", "2026-01-01", "730");
  const auto load = load_of(world, "2026-12-31", Step::month);
  // At 2 h a day every 50 days: 20 February, 11 April, ... seven times in 364 days.
  CHECK(load.services.mean == 7);
  CHECK(load.services.p10 == 7);
  CHECK(load.services.p90 == 7);
  CHECK(load.labour_hours.mean == 7 * 1.5);
  CHECK(load.cost.mean == 7 * (10 + 12 * 4 + 1.5 * 60));
  REQUIRE(load.parts.size() == 1);
  CHECK(load.parts[0].key == "filter");
  CHECK(load.parts[0].amount.mean == 7);
  CHECK(load.parts[0].amount.p90 == 7);
  CHECK(test::text_or_none(load.parts[0].price) == "10");
  CHECK(load.pieces.mean == 7);
  REQUIRE(load.fluids.size() == 1);
  CHECK(load.fluids[0].unit == "L");
  CHECK(load.fluids[0].amount.mean == 84);
  CHECK(test::text_or_none(load.fluids[0].price) == "4");
  REQUIRE(load.rows.size() == 12);
  CHECK(load.rows[0].services.mean == 0);
  CHECK(load.rows[1].services.mean == 1);
  CHECK(load.rows[1].labour_hours.mean == 1.5);
  CHECK(load.rows[0].parts.empty());
  REQUIRE(load.rows[1].parts.size() == 1);
  CHECK(load.rows[1].parts[0].amount.p10 == 1);
  REQUIRE(load.rows[1].fluids.size() == 1);
  CHECK(load.rows[1].fluids[0].amount.mean == 12);
  CHECK(load.no_time.empty());
  CHECK(load.no_price.empty());
  CHECK(load.labour_priced);
}

TEST_CASE("weeks and months cover the same days and add up to the same") {
  World world = certain(oil_task + "  grease: {do: Grease, every: {hours: 10}, takes: 7 min}\n");
  for (const char* text : {"2025-03-01", "2025-05-01", "2025-06-15", "2025-09-01"}) {
    world.reading(text, std::to_string(2 * days_between(day("2025-01-01"), day(text)) + 7));
  }
  const auto snapshot = world.snapshot("2026-01-01");
  const auto learnt = learnt_from(snapshot);
  const auto weeks = workload(snapshot, day("2026-11-17"), Step::week, learnt);
  const auto months = workload(snapshot, day("2026-11-17"), Step::month, learnt);
  for (const auto* load : {&weeks, &months}) {
    CHECK(load->rows.front().from == day("2026-01-01"));
    CHECK(load->rows.back().to == day("2026-11-17"));
    for (std::size_t i = 1; i < load->rows.size(); ++i) {
      CHECK(load->rows[i].from == load->rows[i - 1].to + std::chrono::days{1});
    }
    CHECK(sum_of(*load, &WorkloadRow::labour_hours) == doctest::Approx(load->labour_hours.mean).epsilon(1e-9));
    CHECK(sum_of(*load, &WorkloadRow::cost) == doctest::Approx(load->cost.mean).epsilon(1e-9));
    CHECK(sum_of(*load, &WorkloadRow::services) == doctest::Approx(load->services.mean).epsilon(1e-9));
  }
  CHECK(weeks.rows[0].to == day("2026-01-04"));  // a Sunday
  CHECK(weeks.rows[1].from == day("2026-01-05"));
  CHECK(weeks.labour_hours.mean == months.labour_hours.mean);
  CHECK(weeks.labour_hours.p10 == months.labour_hours.p10);
  CHECK(weeks.labour_hours.p90 == months.labour_hours.p90);
  CHECK(weeks.cost.p50 == months.cost.p50);
  CHECK(months.labour_hours.p10 < months.labour_hours.p90);
}

TEST_CASE("what has no time, no price or no record is said") {
  World world = certain(
      "  oil: {do: Oil, every: {hours: 100}, parts: {gasket: 1}}\n"
      "  look: {do: Look, every: {months: 1}, takes: 10 min}\n",
      "");
  const auto load = load_of(world, "2026-06-30", Step::month);
  REQUIRE(load.no_time.size() == 1);
  CHECK(load.no_time[0].task == "oil");
  CHECK((load.no_price == std::vector<std::string>{"gasket"}));
  CHECK_FALSE(load.labour_priced);

  World used("  oil: {do: Oil, every: {hours: 100}}\n", "bought: {on: 2025-01-01, at: 50}");
  used.reading("2026-01-01", "730");
  const auto unknown = load_of(used, "2026-06-30", Step::month);
  REQUIRE(unknown.unknown.size() == 1);
  CHECK(unknown.unknown[0].task == "oil");
  CHECK(unknown.services.mean == 0);

  World stands = certain(oil_task);
  stands.state(FactKind::out_of_use, "2025-12-01");
  CHECK(load_of(stands, "2026-06-30", Step::month).not_in_use.size() == 1);
}

TEST_CASE("parts needed against stock: packs, the day it is missed, the day to order") {
  World world = certain(oil_task);
  world.done("oil", "2026-01-01", "730");
  const auto list = parts_list(world.snapshot("2026-01-01"), day("2026-06-30"), straight_line());
  // Three services: 20 February, 11 April and 31 May. One filter is there, and oil for two.
  REQUIRE(list.needs.size() == 2);
  const PartNeed& filter = list.needs[0];
  CHECK(filter.key == "filter");
  CHECK(filter.need == PartAmount::units(3));
  CHECK(filter.short_by == PartAmount::units(2));
  CHECK(test::text_or_none(filter.packs) == "1");
  CHECK(filter.buy == PartAmount::units(5));
  CHECK(test::text_or_none(filter.price) == "10");  // of one
  CHECK(test::text_or_none(filter.cost) == "50");   // of all five
  CHECK(test::text_or_none(filter.short_on) == "2026-04-11");
  CHECK(test::text_or_none(filter.order_by) == "2026-03-28");
  const PartNeed& oil = list.needs[1];
  CHECK(oil.need == PartAmount::units(36));
  CHECK(oil.short_by == PartAmount::units(6));
  CHECK(oil.buy == PartAmount::units(20));
  CHECK(test::text_or_none(oil.short_on) == "2026-05-31");
  CHECK(test::text_or_none(oil.order_by) == "2026-05-24");

  // A count takes the place of what the fleet file says, and services written down since use it up.
  Fact count;
  count.kind = FactKind::count;
  count.on = day("2025-12-01");
  count.part = "filter";
  count.value = *parse_measure("4");
  world.add(count);
  const auto counted = parts_list(world.snapshot("2026-01-01"), day("2026-06-30"), straight_line());
  for (const PartNeed& need : counted.needs) {
    if (need.key != "filter") continue;
    CHECK(test::text_or_none(need.stock) == "3");
    CHECK(test::text_or_none(need.counted_on) == "2025-12-01");
    CHECK(need.short_by == PartAmount{});
    CHECK_FALSE(need.order_by.has_value());
  }
}

TEST_CASE("the day to order is the early end of the span that the due list says, less the lead time") {
  World world = certain(oil_task);
  for (const char* text : {"2025-03-01", "2025-05-01", "2025-06-15", "2025-09-01"}) {
    world.reading(text, std::to_string(2 * days_between(day("2025-01-01"), day(text)) + 11));
  }
  world.done("oil", "2025-12-20", "712");
  Fact count;
  count.kind = FactKind::count;
  count.on = day("2025-12-31");
  count.part = "filter";
  count.value = *parse_measure("0");
  world.add(count);
  const auto snapshot = world.snapshot("2026-01-01");
  const auto due = due_list(snapshot, day("2026-06-30"));
  REQUIRE(due.points.size() == 1);
  REQUIRE(due.points[0].due_span.p10.has_value());
  const auto list = parts_list(snapshot, day("2026-06-30"), learnt_from(snapshot));
  REQUIRE(list.needs.size() == 2);
  const PartNeed& filter = list.needs[0].key == "filter" ? list.needs[0] : list.needs[1];
  CHECK(*filter.order_by == *due.points[0].due_span.p10 - std::chrono::days{14});
}

namespace {

const std::string season_text = "seasons: {harvest: {from: 08-01, to: 09-20}, winter: {from: 11-15, to: 02-28}}\n";

std::vector<std::string> names(const std::vector<SeasonItem>& items) {
  std::vector<std::string> all;
  for (const SeasonItem& item : items) all.push_back(item.point.name);
  return all;
}

SeasonPlan plan_of(const World& world, std::string_view as_of, const std::string& season,
                   std::optional<int> year = std::nullopt) {
  const auto snapshot = world.snapshot(as_of);
  static std::vector<std::shared_ptr<const Fleet>> kept;  // the plan points into the fleet
  kept.push_back(snapshot.fleet_ptr());
  return season_plan(snapshot, {snapshot.fleet().season(season), year}, straight_line());
}

}  // namespace

TEST_CASE("what comes due before the season or is helped by doing it early is done beforehand, and the rest is named") {
  World world(
      "  soon: {do: Soon, every: {months: 8}, takes: 30 min}\n"
      "  within: {do: Within, every: {hours: 250}, takes: 1 h, people: 2}\n"
      "  after: {do: After, every: {hours: 900}}\n"
      "  brakes: {do: Brakes, every: {months: 7}, safety: true}\n",
      "in-service: {on: 2025-01-01, at: 0}", season_text);
  world.reading("2025-12-31", "728");
  world.reading("2026-01-01", "730");
  for (const char* task : {"soon", "within", "after", "brakes"}) world.done(task, "2026-01-01", "730");
  // At 2 h a day: 250 h on 6 May, 900 h in March of next year; 8 months on 1 September, 7 on 1 August.
  const auto plan = plan_of(world, "2026-03-01", "harvest");
  CHECK(plan.from == day("2026-08-01"));
  CHECK(plan.to == day("2026-09-20"));
  CHECK_FALSE(plan.under_way());
  CHECK((names(plan.beforehand) == std::vector<std::string>{"brakes", "within", "soon"}));  // safety first, then by day
  CHECK(plan.beforehand[0].do_by == day("2026-07-31"));
  CHECK(plan.beforehand[1].do_by == day("2026-05-06"));
  CHECK(plan.beforehand[2].do_by == day("2026-07-31"));  // comes on 1 September, inside the season
  CHECK(plan.beforehand[0].reason == SeasonReason::helped);
  CHECK(plan.beforehand[1].reason == SeasonReason::before);
  CHECK(plan.beforehand[2].reason == SeasonReason::helped);
  CHECK(plan.beforehand[1].odds.value == 1);
  CHECK(plan.beforehand[1].odds_before.value == 1);
  CHECK(plan.beforehand[2].odds_before.value == 0);
  // On its day nothing is left of it; of what is done the day before the season one day of 212, and 32 of 243.
  CHECK(*plan.beforehand[1].gives_up == doctest::Approx(0));
  CHECK(*plan.beforehand[0].gives_up == doctest::Approx(1.0 / 212));
  CHECK(*plan.beforehand[2].gives_up == doctest::Approx(32.0 / 243));
  // Done on 31 July, 250 h last 125 days and 8 months until the next spring.
  CHECK(plan.beforehand[1].odds_done.value().value == 0);
  CHECK(plan.beforehand[2].odds_done.value().value == 0);
  // Done on 6 May, 250 h are up again on 8 September.
  REQUIRE(plan.have_ready.size() == 1);
  CHECK(plan.have_ready[0].point.name == "within");
  CHECK(plan.have_ready[0].again());
  CHECK(plan.have_ready[0].odds.value == 1);
  CHECK(plan.have_ready[0].do_by == day("2026-07-31"));
  REQUIRE(plan.not_before_end.size() == 1);
  CHECK(plan.not_before_end[0].point.name == "after");
  CHECK(plan.not_before_end[0].odds.value().value == 0);
  CHECK(plan.find_out.empty());
  CHECK(plan.before_sums.labour_minutes == 30 + 120);
  CHECK(plan.ready_sums.labour_minutes == 120);
  REQUIRE(plan.before_sums.no_time.size() == 1);
  CHECK(plan.before_sums.no_time[0].task == "brakes");
}

TEST_CASE("a season over the turn of the year, one under way, and one that is over") {
  World world("  belt: {do: Belt, every: {months: 1}}\n", "in-service: {on: 2025-01-01, at: 0}", season_text);
  world.done("belt", "2026-01-20");
  const auto next = plan_of(world, "2026-03-01", "winter");
  CHECK(next.from == day("2026-11-15"));
  CHECK(next.to == day("2027-02-28"));
  const auto now = plan_of(world, "2026-02-01", "winter");
  CHECK(now.from == day("2025-11-15"));
  CHECK(now.to == day("2026-02-28"));
  CHECK(now.under_way());
  REQUIRE(now.beforehand.size() == 1);
  CHECK(now.beforehand[0].do_by == day("2026-02-20"));  // the season is under way: its own day
  CHECK(plan_of(world, "2026-02-01", "winter", 2027).from == day("2027-11-15"));
  CHECK_THROWS_AS(plan_of(world, "2026-03-01", "winter", 2025), Failure);
}

TEST_CASE("a service that includes others stands for them, and what is not known is named") {
  World world(
      "  small: {do: Small, every: {months: 6}, takes: 1 h, parts: {filter: 1}}\n"
      "  big: {do: Big, every: {months: 8}, takes: 3 h, parts: {filter: 1}, covers: [small]}\n"
      "  hidden: {do: Hidden, every: {hours: 100}}\n",
      "bought: {on: 2025-01-01}", season_text + parts_list_text);
  world.done("small", "2026-01-01");
  world.done("big", "2026-01-01");
  const auto plan = plan_of(world, "2026-03-01", "harvest");
  REQUIRE(plan.beforehand.size() == 1);
  CHECK(plan.beforehand[0].point.name == "big");
  REQUIRE(plan.beforehand[0].covered.size() == 1);
  CHECK(plan.beforehand[0].covered[0].name.task == "small");
  CHECK(plan.beforehand[0].do_by == day("2026-07-01"));  // the small one's day
  CHECK(plan.before_sums.labour_minutes == 180);
  REQUIRE(plan.parts.size() == 1);
  CHECK(plan.parts[0].need == PartAmount::units(1));
  REQUIRE(plan.find_out.size() == 1);
  CHECK(plan.find_out[0].name == "hidden");
}

TEST_CASE("what is likely enough is not put among the rest") {
  World world("  oil: {do: Oil, every: {hours: 500}}\n  brakes: {do: Brakes, every: {hours: 500}, safety: true}\n",
              "in-service: {on: 2024-01-01, at: 0}", season_text);
  double used = 0;
  for (int month = 1; month <= 26; ++month) {
    used += month % 3 == 0 ? 90 : 25;
    const auto date = std::chrono::year{2024} / std::chrono::month{1} / 1 + std::chrono::months{month};
    world.reading(to_text(Day{std::chrono::sys_days{date}}), std::to_string(static_cast<int>(used)));
  }
  world.done("oil", "2026-01-01", "");
  world.done("brakes", "2026-01-01", "");
  const auto snapshot = world.snapshot("2026-03-02");
  const auto plan = [&](double threshold) {
    return season_plan(snapshot, {snapshot.fleet().season("harvest"), {}, Probability{threshold}},
                       learnt_from(snapshot));
  };
  const auto low = plan(0.0001);
  REQUIRE(low.beforehand.size() == 2);
  const double odds = low.beforehand[1].odds.value;
  CHECK(odds > 0.01);
  CHECK(odds < 0.99);
  CHECK((names(plan(odds - 0.005).beforehand) == std::vector<std::string>{"brakes", "oil"}));
  const auto high = plan(odds + 0.005);
  CHECK((names(high.beforehand) == std::vector<std::string>{"brakes"}));  // safety never waits
  REQUIRE(high.not_before_end.size() == 1);
  CHECK(high.not_before_end[0].point.name == "oil");
  CHECK(high.not_before_end[0].odds.value().value == doctest::Approx(odds));
}
