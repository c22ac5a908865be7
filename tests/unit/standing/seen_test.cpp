// What somebody saw never vanishes: until a look finds it good.
#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "support/world.h"

using service::DueList;
using service::FactKind;
using service::Found;
using service::OverdueHeading;
using test::day;
using test::World;

namespace {

const std::string oil = "  oil: {do: Oil, every: {hours: 250, signs: [leak, hard-start]}}\n";

World oiled() {
  World world(oil, "in-service: {on: 2026-01-01, at: 0}");
  world.reading("2026-05-01", "10");
  return world;
}

service::Fact& look(World& world, std::string_view sign, std::string_view on, std::optional<Found> found = {}) {
  service::Fact fact;
  fact.kind = FactKind::looked_at;
  fact.machine = "m";
  fact.on = day(on);
  fact.name = sign;
  fact.note = "looked";
  fact.found = found;
  return world.add(fact);
}

std::string seen(const World& world, std::string_view as_of = "2026-06-15") {
  std::string text;
  for (const auto& one : world.due(as_of).seen) {
    text += one.sign + ' ' + service::to_text(one.on);
    if (one.found) text += ' ' + std::string(service::to_text(*one.found));
    text += ';';
  }
  return text;
}

std::string standing(const World& world) {
  return std::string(service::to_text(world.due("2026-06-15").points.front().standing));
}

}  // namespace

TEST_CASE("a sign that no task lists stays on the list until a look finds it good") {
  World world = oiled();
  world.sign("strange noise", "2026-06-01");
  CHECK(seen(world) == "strange noise 2026-06-01;");
  CHECK(needs_doing(world.due("2026-06-15")));
  world.sign("strange noise", "2026-06-03");
  CHECK(seen(world) == "strange noise 2026-06-01;");  // one, since it was seen first
  look(world, "another noise", "2026-06-04");
  CHECK(seen(world) == "strange noise 2026-06-01;");
  look(world, "strange noise", "2026-06-05", Found::worn);
  CHECK(seen(world) == "strange noise 2026-06-01 worn;");
  look(world, "strange noise", "2026-06-06");  // good unless told
  CHECK(seen(world).empty());
  CHECK(seen(world, "2026-06-05") == "strange noise 2026-06-01 worn;");
  CHECK_FALSE(needs_doing(world.due("2026-06-15")));
  world.sign("strange noise", "2026-06-06");  // after the look, on the same day
  CHECK(seen(world) == "strange noise 2026-06-06;");
}

TEST_CASE("what was seen stands in the overdue list between what is overdue and the meters to read") {
  World world = oiled();
  world.sign("strange noise", "2026-06-01");
  const DueList list = world.due("2026-06-15");
  const auto entries = overdue_list(list);
  REQUIRE(entries.size() == 1);
  CHECK(entries.front().heading == OverdueHeading::seen);
  CHECK(entries.front().seen == &list.seen.front());
  CHECK(OverdueHeading::overdue < OverdueHeading::seen);
  CHECK(OverdueHeading::seen < OverdueHeading::read_the_meter);
}

TEST_CASE("a listed sign is due until its task is done or a look finds it good") {
  World world = oiled();
  world.sign("leak", "2026-06-15");
  CHECK(seen(world).empty());
  CHECK(standing(world) == "due");
  look(world, "leak", "2026-06-15", Found::failed);
  CHECK(standing(world) == "due");
  const DueList list = world.due("2026-06-15");
  const auto* limb = limb_of(list.points.front(), service::LimbKind::sign);
  REQUIRE(limb != nullptr);
  CHECK((limb->found == Found::failed));
  look(world, "leak", "2026-06-15");
  CHECK(standing(world) == "later");
  world.sign("leak", "2026-06-15");
  CHECK(standing(world) == "due");
  world.done("oil", "2026-06-15", "20");
  CHECK(standing(world) == "later");
}

TEST_CASE("a look answers its own sign alone; the first of the others decides") {
  World world = oiled();
  world.sign("leak", "2026-06-01");
  world.sign("hard-start", "2026-06-03");
  look(world, "leak", "2026-06-04");
  const DueList list = world.due("2026-06-15");
  const auto* limb = limb_of(list.points.front(), service::LimbKind::sign);
  REQUIRE(limb != nullptr);
  CHECK(limb->seen == "hard-start");
  CHECK(service::to_text(*limb->due_on) == "2026-06-03");
}

TEST_CASE("near to a listed sign is a name that is mistyped, or that holds one among its words") {
  const World world = oiled();
  const auto near = [&](std::string_view written) {
    return service::near_sign(world.fleet(), *world.fleet().machine("m"), written).value_or("none");
  };
  CHECK(near("leek") == "leak");
  CHECK(near("oil leak") == "leak");
  CHECK(near("leak") == "none");
  CHECK(near("strange knocking noise") == "none");
}
