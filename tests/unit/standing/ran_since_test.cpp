// Use that a meter shows of a machine laid up or out of use: a gap, until somebody says how it stands.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "support/world.h"

using service::FactKind;
using service::Gap;
using service::GapKind;
using test::World;

namespace {

// Read on the day on which it was laid up, and used to 131.8 h since.
World laid_up_and_run(FactKind kind = FactKind::laid_up, std::string_view before = "2026-05-07") {
  World world("  t: {do: Work, every: {hours: 10000}}\n", "in-service: {on: 2026-01-01, at: 0}");
  world.reading(before, "100");
  world.state(kind, "2026-05-07");
  world.reading("2026-06-10", "131.8");
  return world;
}

std::vector<Gap> runs(const World& world, std::string_view as_of = "2026-06-15") {
  std::vector<Gap> found;
  for (const Gap& gap : world.due(as_of).gaps) {
    if (gap.kind == GapKind::ran_while_not_in_use) found.push_back(gap);
  }
  return found;
}

std::string said(const World& world, std::string_view as_of = "2026-06-15") {
  const auto found = runs(world, as_of);
  return found.empty() ? "nothing" : found.front().say;
}

}  // namespace

TEST_CASE("a machine that ran while it was laid up is a gap, with the value that shows it") {
  const World world = laid_up_and_run();
  const auto found = runs(world);
  REQUIRE(found.size() == 1);
  CHECK(found[0].machine == "m");
  CHECK(found[0].meter == "engine");
  CHECK(test::text_or_none(found[0].since) == "2026-05-07");
  REQUIRE(found[0].facts.size() == 1);
  CHECK(found[0].facts[0] == world.facts().back().id);
  CHECK(found[0].say == "has run 31.8 h while laid up since 2026-05-07: is it back, or who ran it?");
  CHECK(service::to_text(GapKind::ran_while_not_in_use) == "ran-while-not-in-use");
  CHECK(runs(world, "2026-06-09").empty());
}

TEST_CASE("so is one that ran while it was out of use, and it is asked first that nobody runs it") {
  CHECK(said(laid_up_and_run(FactKind::out_of_use)) ==
        "has run 31.8 h while out of use since 2026-05-07: do not run it; is it mended and back, or who ran it?");
}

TEST_CASE("of use since a value from before it stood nobody knows how much was before") {
  CHECK(said(laid_up_and_run(FactKind::laid_up, "2026-05-01")) ==
        "has run 31.8 h since 2026-05-01, and is laid up since 2026-05-07: was that before, is it back, or who ran "
        "it?");
}

TEST_CASE("what was certainly run while it stood is told before what may have been run before") {
  World world = laid_up_and_run(FactKind::laid_up, "2026-05-01");
  world.reading("2026-06-12", "140");
  CHECK(said(world).starts_with("has run 8.2 h since 2026-06-10 while laid up since 2026-05-07"));
}

TEST_CASE("the value of the very day, and a meter that stands still, are no use") {
  World world("  t: {do: Work, every: {hours: 10000}}\n", "in-service: {on: 2026-01-01, at: 0}");
  world.reading("2026-05-01", "80");
  world.state(FactKind::laid_up, "2026-05-07");
  world.reading("2026-05-07", "100");
  CHECK(runs(world).empty());
  world.reading("2026-06-10", "100");
  CHECK(runs(world).empty());
}

TEST_CASE("a value that was read without its tenths shows no use, whichever of the two it was") {
  for (const auto& [before, after, ran] : {std::tuple{"100", "100.9", false}, std::tuple{"100.9", "100", false},
                                           std::tuple{"100", "101", true}, std::tuple{"100.2", "100.9", true}}) {
    CAPTURE(before);
    CAPTURE(after);
    World world("  t: {do: Work, every: {hours: 10000}}\n", "in-service: {on: 2026-01-01, at: 0}");
    world.reading("2026-05-07", before);
    world.state(FactKind::laid_up, "2026-05-07");
    world.reading("2026-06-10", after);
    CHECK(runs(world).size() == (ran ? 1 : 0));
  }
}

TEST_CASE("it ends when the machine is back, when it is said anew how it stands, and by a strike") {
  World back = laid_up_and_run();
  back.state(FactKind::back, "2026-06-12");
  CHECK(runs(back).empty());
  for (const FactKind kind : {FactKind::laid_up, FactKind::out_of_use}) {
    World anew = laid_up_and_run();
    anew.state(kind, "2026-06-10");
    CHECK(runs(anew).empty());
    anew.reading("2026-06-14", "140");  // and begins again
    CHECK(runs(anew).size() == 1);
  }
  World struck = laid_up_and_run();
  struck.strike(struck.facts().back().id);
  CHECK(runs(struck).empty());
}

TEST_CASE("a lay-up whose last day has come is over, and tells nothing") {
  World world("  t: {do: Work, every: {hours: 10000}}\n", "in-service: {on: 2026-01-01, at: 0}");
  world.reading("2026-05-07", "100");
  world.state(FactKind::laid_up, "2026-05-07", "2026-06-12");
  world.reading("2026-06-10", "131.8");
  CHECK(runs(world, "2026-06-11").size() == 1);
  CHECK(runs(world, "2026-06-12").empty());
}

TEST_CASE("each meter tells it by itself, also one by which nothing comes due") {
  World world("  t: {do: Work, every: {usage: {engine: 10000}}}\n", "in-service: {on: 2026-01-01, at: 0}", "",
              "meters: {engine: {unit: h}, road: {unit: km}}\n");
  world.reading("2026-05-07", "100");
  world.reading("2026-05-07", "3000", "road");
  world.state(FactKind::laid_up, "2026-05-07");
  world.reading("2026-06-10", "3120", "road");
  CHECK(said(world).starts_with("has run 120.0 km by meter `road` while laid up since 2026-05-07"));
}

TEST_CASE("it stands under find out, at the machine that is out of use, and something needs doing") {
  const auto list = laid_up_and_run(FactKind::out_of_use).due("2026-06-15");
  CHECK(needs_doing(list));
  REQUIRE(list.not_in_use.size() == 1);
  CHECK(list.not_in_use[0].state.ran.size() == 1);
  std::string told;
  for (const auto& entry : overdue_list(list)) told += std::string(to_text(entry.heading)) + ' ';
  CHECK(told == "out-of-use find-out ");
  const auto laid_up = laid_up_and_run().due("2026-06-15");
  CHECK(needs_doing(laid_up));
}
