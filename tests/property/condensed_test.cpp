// What is left of a book answers as the whole book does, to the byte.
#include <doctest/doctest.h>

#include <algorithm>
#include <set>
#include <string>

#include "property/twin_compare.h"
#include "render/due/due.h"
#include "service/due_list.h"
#include "support/condense.h"
#include "twin/worlds.h"

namespace {

constexpr std::uint64_t worlds = 4'000;

struct Tried {
  int machines = 0;
  std::size_t left_out = 0;
};

std::string answer(const service::Snapshot& snapshot, const service::Forecaster& forecaster) {
  cli::DueAnswer due;
  due.list = service::due_list(snapshot, {snapshot.as_of() + std::chrono::days{60}, {}}, forecaster);
  due.newest_fact = snapshot.newest_fact();
  return cli::due_as_json(due);
}

// The facts as they are known on `known`, asked about then and `later` days after.
void hold(const test::Built& world, service::Day known, int later, Tried& tried) {
  std::vector<service::Fact> facts = world.facts;
  std::erase_if(facts, [&](const service::Fact& fact) { return service::has_day(fact) && fact.on.first > known; });
  std::set<std::string> machines{""};
  for (const auto& machine : world.fleet->machines) machines.insert(machine.key);
  for (const auto& fact : facts) machines.insert(fact.machine);
  const service::Day on = known + std::chrono::days{later};
  const service::Snapshot whole(world.fleet, service::whole_book(facts), on, true);
  const auto condensed = test::condense(whole, machines, on);
  tried.machines += condensed.machines;
  tried.left_out += condensed.left_out;
  REQUIRE((answer(condensed.snapshot, service::learnt_from(condensed.snapshot)) ==
           answer(whole, service::learnt_from(whole))));
  REQUIRE((answer(condensed.snapshot, service::straight_line()) == answer(whole, service::straight_line())));
}

}  // namespace

TEST_CASE("random books: what is left answers as all facts do") {
  Tried tried;
  for (std::uint64_t seed = 1; seed <= worlds; ++seed) {
    CAPTURE(seed);
    const auto world = test::build(twin::random_world(14'000'000 + seed));
    const service::Day known = world.as_of + std::chrono::days{static_cast<int>(seed % 5) * 200 - 400};
    hold(world, known, static_cast<int>(seed * 37 % 800) * static_cast<int>(seed % 2), tried);
  }
  CHECK(tried.machines > static_cast<int>(worlds));
  CHECK(tried.left_out > worlds);
}

TEST_CASE("small worlds of all families: what is left answers as all facts do") {
  Tried tried;
  for (int family = 0; family < twin::family_count(); ++family) {
    const std::string name = twin::family_name(family);
    CAPTURE(name);
    const std::size_t stride = std::max<std::size_t>(1, twin::family_size(family) / 400);
    for (std::size_t i = 0; i < twin::family_size(family); i += stride) {
      CAPTURE(i);
      const auto world = test::build(twin::family_world(family, i));
      hold(world, world.as_of, 0, tried);
    }
  }
  CHECK(tried.machines > 1'000);
  CHECK(tried.left_out > 1'000);
}
