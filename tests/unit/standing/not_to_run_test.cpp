// Which machines nobody may run: each row of such a machine says so, whatever the row is about.
#include "service/not_to_run.h"

#include <doctest/doctest.h>

#include <optional>

#include "service/run_ban.h"
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
  for (const Point& point : list.points) CHECK(answer.holds(*point.machine) == !answer.bans().empty());
  return answer.bans().size();
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

TEST_CASE("an answer keeps why a machine must not be run, though its list is gone") {
  World world = guarded();
  world.sign("pull", "2025-07-20");
  world.sign("rattle", "2025-07-20");
  Fact look;
  look.kind = FactKind::looked_at;
  look.name = "rattle";
  look.on = day("2025-07-21");
  look.found = Found::failed;
  look.note = "a bearing";
  world.add(look);
  world.state(FactKind::out_of_use, "2025-07-22");
  std::optional<NotToRun> kept;
  const Snapshot snapshot = world.snapshot("2025-08-01");
  {
    const DueList list = due_list(snapshot, day("2025-08-31"));
    kept.emplace(NotToRun(list));
  }
  const NotToRun copy = *kept;
  kept.reset();
  REQUIRE(copy.bans().size() == 1);
  const RunBan& ban = copy.bans().front();
  CHECK((copy.ban_of(*ban.machine) == &ban));
  CHECK(ban.out_of_use());
  CHECK((ban.state->since == day("2025-07-22")));
  REQUIRE(ban.points.size() == 1);
  CHECK(ban.points[0]->name == "brakes");
  CHECK(forbidding_limbs(*ban.points[0])[0]->seen == "pull");
  REQUIRE(ban.seen.size() == 1);
  CHECK(ban.seen[0]->sign == "rattle");
  // A row of any list is the one that forbids it by its name.
  const DueList again = due_list(snapshot, day("2025-08-31"));
  for (const Point& point : again.points) CHECK(ban.forbidden_by(point) == (point.name == "brakes"));
  CHECK(NotToRun().bans().empty());
}
