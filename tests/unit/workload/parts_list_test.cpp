// The day on which a part is needed, where another service includes the next one of a point.
#include <doctest/doctest.h>

#include "service/workload.h"
#include "support/world.h"

using namespace service;
using test::day;
using test::World;

TEST_CASE("a part is needed on the day of the first service that no other one includes") {
  World world(
      "  small: {do: Small, every: {hours: 100}, parts: {filter: 1}}\n"
      "  big: {do: Big, every: {hours: 200}, covers: [small]}\n",
      "in-service: {on: 2025-01-01, at: 0}");
  world.done("big", "2025-11-12", "630");
  world.done("small", "2026-01-01", "730");
  // At 2 h a day both come due on 20 February, when the big one serves; the small one is on its own on 11 April, and at
  // 1030 h on 31 May the big one includes it again.
  const auto list = parts_list(world.snapshot("2026-01-01"), day("2026-06-30"), straight_line());
  REQUIRE(list.needs.size() == 1);
  REQUIRE(list.needs[0].uses.size() == 1);
  CHECK(test::text_or_none(list.needs[0].uses[0].done.p50) == "2026-04-11");
  CHECK(test::text_or_none(list.needs[0].short_on) == "2026-04-11");
}

TEST_CASE("what is used by the piece and poured comes out of one stock") {
  World world(
      "  small: {do: Small, every: {months: 6}, parts: {oil: 2}}\n"
      "  big: {do: Big, every: {months: 8}, fluids: {oil: 3 L}}\n",
      "in-service: {on: 2026-01-01, at: 0}", "parts:\n  oil: {what: Oil, unit: L, stock: 4, price: 4}\n");
  const auto list = parts_list(world.snapshot("2026-01-02"), day("2026-10-01"), straight_line());
  REQUIRE(list.needs.size() == 1);
  CHECK(list.needs[0].need == service::PartAmount::units(5));
  CHECK(list.needs[0].short_by == service::PartAmount::units(1));
  CHECK(test::text_or_none(list.needs[0].short_on) == "2026-09-01");
  CHECK(list.needs[0].uses.size() == 2);
}

TEST_CASE("parts of a machine that is laid up are needed on the day it is back, not before") {
  World world(
      "  oil: {do: Oil, every: {months: 6}, parts: {filter: 1}}\n"
      "  belt: {do: Belt, every: {months: 8}, parts: {belt: 1}}\n",
      "in-service: {on: 2026-01-01, at: 0}");
  world.state(service::FactKind::laid_up, "2026-07-10", "2026-08-15");
  const auto list = parts_list(world.snapshot("2026-07-20"), day("2026-12-31"), straight_line());
  REQUIRE(list.needs.size() == 2);  // both are short: by the day to order
  CHECK(list.needs[0].key == "filter");
  CHECK(test::text_or_none(list.needs[0].uses[0].done.p10) == "2026-08-15");
  CHECK(test::text_or_none(list.needs[0].uses[0].due.p10) == "2026-07-01");  // and it comes due when the due list says
  CHECK(test::text_or_none(list.needs[0].uses[0].done.p90) == "2026-08-15");
  CHECK(list.needs[1].key == "belt");
  CHECK(test::text_or_none(list.needs[1].uses[0].done.p10) == "2026-09-01");  // comes due when it is back
}

TEST_CASE("parts and labour of what is put off before it comes due are needed when that ends") {
  World world("  oil: {do: Oil, every: {months: 6}, takes: 60 min, parts: {filter: 1}}\n",
              "in-service: {on: 2026-01-01, at: 0}");
  world.put_off("oil", "2026-06-15", "2026-09-10");
  const Snapshot snapshot = world.snapshot("2026-06-15");
  CHECK(parts_list(snapshot, day("2026-09-09"), straight_line()).needs.empty());
  const auto list = parts_list(snapshot, day("2026-10-01"), straight_line());
  REQUIRE(list.needs.size() == 1);
  CHECK(test::text_or_none(list.needs[0].uses[0].done.p10) == "2026-09-10");
  CHECK(test::text_or_none(list.needs[0].uses[0].due.p10) == "2026-07-01");
  CHECK(workload(snapshot, day("2026-09-09"), Step::month, straight_line()).labour_hours.mean == 0);
  CHECK(workload(snapshot, day("2026-10-01"), Step::month, straight_line()).labour_hours.mean == 1);
}
