// What was decided about a point or its machine: put off, laid up, out of use. The standing stays what it is.
#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "support/world.h"

using service::FactKind;
using service::Standing;
using test::text_or_none;
using test::told;
using test::World;

namespace {

World overdue_by_hours(const std::string& keys = "") {
  World world("  t: {do: Work, every: {hours: 100}" + keys + "}\n", "bought: {on: 2020-01-01, at: 0}");
  world.done("t", "2026-01-01", "1000");
  world.reading("2026-02-01", "1110");
  return world;
}

bool is_put_off(const World& world, std::string_view as_of, std::string_view position = "") {
  return world.point(as_of, "t", position).put_off.has_value();
}

}  // namespace

TEST_CASE("what is put off stays overdue and tells until when, by whom and why") {
  World world = overdue_by_hours();
  service::Fact fact;
  fact.kind = FactKind::put_off;
  fact.task = "t";
  fact.on = test::day("2026-02-02");
  fact.until = test::day("2026-03-15");
  fact.by = "ann";
  fact.note = "no filter in stock";
  const service::FactId id = world.add(fact).id;
  CHECK_FALSE(is_put_off(world, "2026-02-01"));
  const auto point = world.point("2026-02-02", "t");
  CHECK(point.standing == Standing::overdue);
  REQUIRE(point.put_off.has_value());
  CHECK(text_or_none(point.put_off->until) == "2026-03-15");
  CHECK(point.put_off->by == "ann");
  CHECK(point.put_off->why == "no filter in stock");
  CHECK(point.put_off->fact == id);
}

TEST_CASE("what is put off until a day is no longer put off after it") {
  World world = overdue_by_hours();
  world.put_off("t", "2026-02-02", "2026-03-15");
  CHECK(is_put_off(world, "2026-03-14"));
  CHECK_FALSE(is_put_off(world, "2026-03-16"));
}

TEST_CASE("what is put off until a meter value is no longer put off beyond it") {
  World world = overdue_by_hours();
  world.put_off("t", "2026-02-02", "", "1150");
  world.reading("2026-03-01", "1149");
  CHECK(is_put_off(world, "2026-03-01"));
  world.reading("2026-03-02", "1151");
  CHECK_FALSE(is_put_off(world, "2026-03-02"));
}

TEST_CASE("a delay until a use stands until a reading ends it, and says when the estimate is past it") {
  World world = overdue_by_hours();  // 3 to 4 h a day
  world.put_off("t", "2026-02-02", "2027-01-01", "1150");
  const auto soon = world.point("2026-02-03", "t");
  REQUIRE(soon.put_off.has_value());
  CHECK_FALSE(soon.put_off->by_estimate);
  const auto later = world.point("2026-06-01", "t");
  REQUIRE(later.put_off.has_value());
  CHECK(later.put_off->by_estimate);
  World by_day = overdue_by_hours();
  by_day.put_off("t", "2026-02-02", "2027-01-01");
  CHECK_FALSE(by_day.point("2026-06-01", "t").put_off->by_estimate);
}

TEST_CASE("what is put off until a day and a meter value is put off until whichever comes first") {
  World by_value = overdue_by_hours();
  by_value.put_off("t", "2026-02-02", "2026-06-01", "1150");
  World by_day = by_value;
  by_value.reading("2026-03-01", "1151");
  CHECK(is_put_off(by_value, "2026-02-28"));
  CHECK_FALSE(is_put_off(by_value, "2026-03-01"));
  by_day.reading("2026-03-01", "1120");
  CHECK(is_put_off(by_day, "2026-05-31"));
  CHECK_FALSE(is_put_off(by_day, "2026-06-02"));
}

TEST_CASE("a service ends what was put off") {
  World world = overdue_by_hours();
  world.put_off("t", "2026-02-02", "2026-12-01");
  world.done("t", "2026-02-10", "1120");
  CHECK_FALSE(is_put_off(world, "2026-02-10"));
  CHECK_FALSE(is_put_off(world, "2026-02-11"));
  World covered("  big: {do: Big, every: {hours: 500}, covers: [t]}\n  t: {do: Work, every: {hours: 100}}\n",
                "bought: {on: 2020-01-01, at: 0}");
  covered.done("t", "2026-01-01", "1000");
  covered.put_off("t", "2026-02-02", "2026-12-01");
  CHECK(is_put_off(covered, "2026-02-05"));
  covered.done("big", "2026-02-10", "1120");
  CHECK_FALSE(is_put_off(covered, "2026-02-11"));
}

TEST_CASE("the newest word on putting off holds, and a struck one is none") {
  World world = overdue_by_hours();
  const service::FactId first = world.put_off("t", "2026-02-02", "2026-03-01").id;
  const service::FactId second = world.put_off("t", "2026-02-20", "2026-04-01").id;
  CHECK(is_put_off(world, "2026-03-20"));
  world.strike(second);
  CHECK_FALSE(is_put_off(world, "2026-03-20"));
  CHECK(is_put_off(world, "2026-02-25"));
  world.strike(first);
  CHECK_FALSE(is_put_off(world, "2026-02-25"));
}

TEST_CASE("one position may be put off by itself, or all at once") {
  World world("  t: {do: Tyre, every: {months: 12}, positions: [left, right]}\n", "bought: 2020-01-01");
  world.done("t", "2024-01-01");
  World all = world;
  service::Fact fact;
  fact.kind = FactKind::put_off;
  fact.task = "t";
  fact.position = "left";
  fact.on = test::day("2025-02-01");
  fact.until = test::day("2025-06-01");
  world.add(fact);
  CHECK(is_put_off(world, "2025-03-01", "left"));
  CHECK_FALSE(is_put_off(world, "2025-03-01", "right"));
  all.put_off("t", "2025-02-01", "2025-06-01");
  CHECK(is_put_off(all, "2025-03-01", "left"));
  CHECK(is_put_off(all, "2025-03-01", "right"));
}

TEST_CASE("what is a matter of safety is not put off, even where a book says so") {
  World world = overdue_by_hours(", safety: true");
  world.put_off("t", "2026-02-02", "2026-12-01");
  CHECK(world.point("2026-02-03", "t").standing == Standing::overdue);
  CHECK_FALSE(is_put_off(world, "2026-02-03"));
}

TEST_CASE("a machine laid up uses nothing and its calendar keeps running") {
  World world("  t: {do: Work, every: {hours: 100, months: 6}}\n", "bought: {on: 2020-01-01, at: 0}");
  world.reading("2025-01-01", "1000");
  world.reading("2026-01-01", "1365");  // 1 h a day
  world.done("t", "2026-01-01", "1365");
  World laid_up = world;
  laid_up.state(FactKind::laid_up, "2026-01-02");
  // In use the hundred hours are up on 2026-04-11, and the estimate says so.
  CHECK(world.point("2026-04-11", "t").by_estimate);
  CHECK(told(laid_up.point("2026-06-15", "t")) == "coming calendar 2026-07-01");
  CHECK(told(laid_up.point("2026-07-02", "t")) == "overdue calendar 2026-07-01");
}

TEST_CASE("the days of a machine laid up begin when it is back, and end where nobody says when that is") {
  World world("  t: {do: Work, every: {hours: 100}}\n  both: {do: Both, every: {hours: 100, years: 7}}\n",
              "bought: {on: 2024-01-01, at: 0}, expect: {per-year: 365}");
  for (int month = 1; month <= 24; ++month) {
    world.reading(service::to_text(service::add_months(test::day("2024-01-01"), month)), std::to_string(30 * month));
  }
  world.done("t", "2026-01-01", "720");
  world.done("both", "2026-01-01", "720");
  const auto spans = [&](const World& of, std::string_view task) {
    const auto snapshot = of.snapshot("2026-01-20");
    for (const auto& point : service::due_list(snapshot, test::day("2026-02-20")).points) {
      if (point.name != task) continue;
      CHECK((point.due_on == point.due_span.p50));
      return text_or_none(point.due_span.p10) + " " + text_or_none(point.due_span.p90);
    }
    return std::string("no point");
  };
  const std::string used = spans(world, "t");
  CHECK(used > "2026-02-15");
  CHECK(used < "2026-06-15");
  World until = world;
  until.state(FactKind::laid_up, "2026-01-02", "2027-01-02");
  const std::string back = spans(until, "t");  // a hundred hours from that day on
  CHECK(back > "2027-02-15");
  CHECK(back < "2027-06-15");
  World for_good = world;
  for_good.state(FactKind::laid_up, "2026-01-02");
  CHECK(spans(for_good, "t") == "none none");
  // More than five years away, but a calendar limb names it.
  CHECK(spans(for_good, "both") == "2033-01-01 2033-01-01");
}

TEST_CASE("out of use or laid up, a machine keeps its points and their standings") {
  for (const FactKind kind : {FactKind::laid_up, FactKind::out_of_use}) {
    World world = overdue_by_hours();
    world.state(kind, "2026-02-02");
    CHECK(world.point("2026-02-03", "t").standing == Standing::overdue);
    const auto list = world.due("2026-02-03");
    REQUIRE(list.not_in_use.size() == 1);
    CHECK(list.not_in_use.front().machine->key == "m");
    const auto* state = list.state_of(*world.fleet().machine("m"));
    REQUIRE(state != nullptr);
    CHECK(text_or_none(state->since) == "2026-02-02");
    CHECK(world.due("2026-02-01").not_in_use.empty());
    CHECK(world.due("2026-02-01").state_of(*world.fleet().machine("m")) == nullptr);
  }
}
