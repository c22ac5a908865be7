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

TEST_CASE("it is one sum since the value before it stood, with what of that was certainly run while it stood") {
  World world = laid_up_and_run(FactKind::laid_up, "2026-05-01");
  world.reading("2026-06-12", "140");
  CHECK(said(world) ==
        "has run 40.0 h since 2026-05-01, at least 8.2 h of it while laid up since 2026-05-07: is it back, or who ran "
        "it?");
  const auto list = world.due("2026-06-15");
  REQUIRE(list.not_in_use.size() == 1);
  REQUIRE(list.not_in_use[0].state.ran.size() == 1);
  const service::RanSince& ran = list.not_in_use[0].state.ran[0];
  CHECK(ran.used == test::amount("40"));
  CHECK_FALSE(ran.all_of_it);
  CHECK(test::text_or_none(ran.at_least) == "8.2");
  // Whoever tells of it without a list tells the same.
  const auto told = service::state_told(world.snapshot("2026-06-15"), *world.fleet().machine("m"));
  REQUIRE(told.ran.size() == 1);
  CHECK(told.ran[0].used == test::amount("40"));
}

TEST_CASE("where all since the value before may be no use, what was run while it stood is told alone") {
  World world("  t: {do: Work, every: {hours: 10000}}\n", "in-service: {on: 2026-01-01, at: 0}");
  world.reading("2026-05-01", "100");  // perhaps without its tenths
  world.state(FactKind::laid_up, "2026-05-07");
  world.reading("2026-06-10", "100.2");
  world.reading("2026-06-12", "100.9");
  CHECK(said(world) == "has run 0.7 h since 2026-06-10 while laid up since 2026-05-07: is it back, or who ran it?");
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
  for (const auto& values : {std::tuple{"100", "100.9", false}, std::tuple{"100.9", "100", false},
                             std::tuple{"100", "101", true}, std::tuple{"100.2", "100.9", true}}) {
    const char* const before = std::get<0>(values);
    const char* const after = std::get<1>(values);
    const bool ran = std::get<2>(values);
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

namespace {

World over_since(std::string_view until) {
  World world("  t: {do: Work, every: {hours: 10000}}\n", "in-service: {on: 2026-01-01, at: 0}");
  world.reading("2026-05-07", "100");
  world.state(FactKind::laid_up, "2026-05-07", until);
  world.reading("2026-06-10", "131.8");
  return world;
}

}  // namespace

TEST_CASE("that the planned day of its return has come answers nothing") {
  const World world = over_since("2026-06-12");
  CHECK(said(world, "2026-06-11") == "has run 31.8 h while laid up since 2026-05-07: is it back, or who ran it?");
  const std::string over = "has run 31.8 h while laid up from 2026-05-07 until 2026-06-12: was it back, or who ran it?";
  CHECK(said(world, "2026-06-12") == over);
  CHECK(said(world, "2027-01-01") == over);
  REQUIRE(runs(world, "2026-06-12").front().facts.size() == 1);
  CHECK(runs(world, "2026-06-12").front().facts[0] == world.facts().back().id);
  const auto list = world.due("2026-06-12");
  CHECK(list.not_in_use.empty());
  CHECK(needs_doing(list));
}

TEST_CASE("what it works from that day on is none of it, nor what was run within no lay-up") {
  World world = over_since("2026-06-12");
  world.reading("2026-06-12", "135");
  world.reading("2026-06-20", "190");
  CHECK(said(world, "2026-06-25").starts_with("has run 31.8 h while laid up from 2026-05-07 until 2026-06-12"));
  CHECK(runs(world, "2026-06-25").front().facts.empty());  // the value is not the newest one any more
  CHECK(runs(over_since("2026-06-10"), "2026-06-25").empty());
  World stood = over_since("2026-06-12");
  stood.strike(stood.facts().back().id);
  CHECK(runs(stood, "2026-06-25").empty());
}

TEST_CASE("after the planned day it ends when somebody says how it stands, and is said to have ended") {
  for (const FactKind kind : {FactKind::back, FactKind::laid_up, FactKind::out_of_use}) {
    for (const char* on : {"2026-06-11", "2026-06-14"}) {
      CAPTURE(on);
      World world = over_since("2026-06-12");
      const auto before = world.due("2026-06-15");
      world.state(kind, on);
      const auto after = world.due("2026-06-15");
      CHECK(runs(world).empty());
      const auto ended = ended_gaps(before, after);
      REQUIRE(ended.size() == 1);
      CHECK(ended[0].kind == GapKind::ran_while_not_in_use);
      CHECK(ended_gaps(before, before).empty());
    }
  }
  // Of what was run in two parts the first may be answered alone.
  World parts = laid_up_and_run();
  parts.reading("2026-06-12", "140");
  const auto all = parts.due("2026-06-15");
  parts.state(FactKind::laid_up, "2026-06-11");
  const auto rest = parts.due("2026-06-15");
  CHECK(said(parts) == "has run 8.2 h since 2026-06-10 while laid up since 2026-05-07: is it back, or who ran it?");
  REQUIRE(ended_gaps(all, rest).size() == 1);
  CHECK(ended_gaps(all, rest)[0].say.starts_with("has run 40.0 h while laid up since 2026-05-07"));
  parts.reading("2026-06-14", "150");  // more is asked, and nothing was answered
  CHECK(ended_gaps(rest, parts.due("2026-06-15")).empty());
  // Said before that value was shown, it answers nothing.
  World early = over_since("2026-06-12");
  early.state(FactKind::laid_up, "2026-06-09", "2026-06-12");
  CHECK(runs(early).size() == 1);
  World again = over_since("2026-06-12");
  again.state(FactKind::laid_up, "2026-06-11", "2026-06-13");
  CHECK(runs(again).empty());
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
