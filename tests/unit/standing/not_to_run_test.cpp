// Which machines nobody may run: each row of such a machine says so, whatever the row is about.
#include "service/not_to_run.h"

#include <doctest/doctest.h>

#include "support/world.h"

using namespace service;
using test::day;
using test::World;

namespace {

World guarded() {
  World world(
      "  gland: {do: Repack, every: {months: 36, signs: [drip]}}\n"
      "  brakes: {do: Renew the brakes, every: {months: 24, signs: [pull]}, safety: true}\n",
      "in-service: {on: 2025-01-01, at: 0}");
  world.reading("2025-07-01", "100");
  return world;
}

std::size_t stopped(const World& world) {
  const DueList list = due_list(world.snapshot("2025-08-01"), day("2025-08-31"));
  const NotToRun answer(list);
  for (const Point& point : list.points) CHECK(answer.holds(*point.machine) == !answer.machines().empty());
  return answer.machines().size();
}

}  // namespace

TEST_CASE("a machine out of use, or with a sign for safety, or found bad, is run by nobody") {
  CHECK(stopped(guarded()) == 0);

  World drips = guarded();
  drips.sign("drip", "2025-07-20");  // of work that may wait
  CHECK(stopped(drips) == 0);

  World pulls = guarded();
  pulls.sign("pull", "2025-07-20");
  CHECK(stopped(pulls) == 1);
  pulls.done("brakes", "2025-07-21");
  CHECK(stopped(pulls) == 0);

  World out = guarded();
  out.state(FactKind::out_of_use, "2025-07-20");
  CHECK(stopped(out) == 1);
  out.state(FactKind::back, "2025-07-25");
  CHECK(stopped(out) == 0);

  World laid_up = guarded();
  laid_up.state(FactKind::laid_up, "2025-07-20");
  CHECK(stopped(laid_up) == 0);
  laid_up.sign("pull", "2025-07-20");
  CHECK(stopped(laid_up) == 1);

  World strange = guarded();
  strange.sign("rattle", "2025-07-20");  // nobody has looked
  CHECK(stopped(strange) == 0);
  Fact look;
  look.kind = FactKind::looked_at;
  look.name = "rattle";
  look.on = day("2025-07-21");
  look.found = Found::failed;
  look.note = "a bearing";
  strange.add(look);
  CHECK(stopped(strange) == 1);
}
