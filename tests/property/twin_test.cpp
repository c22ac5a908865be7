// The library against a second answer, written from the rules alone and walking day by day.
#include <doctest/doctest.h>

#include <cstdlib>
#include <map>
#include <string>

#include "property/twin_compare.h"
#include "twin/to_text.h"
#include "twin/worlds.h"

namespace {

constexpr int show_at_most = 3;

std::uint64_t random_worlds() {
  const char* const wanted = std::getenv("TWIN_WORLDS");  // more for a long look
  return wanted != nullptr ? std::strtoull(wanted, nullptr, 10) : 8'000;
}

}  // namespace

TEST_CASE("every small world has the twin's answer") {
  for (int family = 0; family < twin::family_count(); ++family) {
    const std::string name = twin::family_name(family);
    CAPTURE(name);
    int different = 0;
    const std::size_t size = twin::family_size(family);
    REQUIRE(size > 0);
    for (std::size_t i = 0; i < size; ++i) {
      const std::string text = test::disagreement(twin::family_world(family, i), test::Way::direct);
      if (!text.empty() && ++different <= show_at_most) MESSAGE(name << ' ' << i << '\n' << text);
    }
    CHECK(different == 0);
  }
}

TEST_CASE("random worlds with every feature have the twin's answer") {
  std::map<std::string, int> covered;
  int different = 0;
  test::Compared compared;
  const std::uint64_t worlds = random_worlds();
  for (std::uint64_t seed = 1; seed <= worlds; ++seed) {
    const auto world = twin::random_world(seed);
    for (const std::string& feature : twin::features(world)) ++covered[feature];
    const std::string text = test::disagreement(world, test::Way::exported, &compared);
    if (!text.empty() && ++different <= show_at_most) MESSAGE("seed " << seed << '\n' << text);
  }
  CHECK(different == 0);
  for (const std::string& feature : twin::all_features()) {
    CAPTURE(feature);
    CHECK(covered[feature] > 0);
  }
  CHECK(compared.past_by_estimate > 0);
  CHECK(compared.reached_and_past > 0);
}

TEST_CASE("facts entered as plain rows are accepted, roll-overs found, and the answer is the same") {
  int different = 0;
  int roll_overs = 0;
  const std::uint64_t worlds = random_worlds() / 4;
  for (std::uint64_t seed = 1; seed <= worlds; ++seed) {
    twin::RandomOptions options;
    options.strikes = false;
    const auto world = twin::random_world(1'000'000 + seed, options);
    if (twin::has_found_roll_overs(world)) ++roll_overs;
    const std::string text = test::disagreement(world, test::Way::judged);
    if (!text.empty() && ++different <= show_at_most) MESSAGE("seed " << seed << '\n' << text);
  }
  CHECK(different == 0);
  CHECK(roll_overs > 0);
}
