// What figures of the months ahead rest on, and nobody knows.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "service/season.h"
#include "support/world.h"

using namespace service;
using test::day;
using test::World;

namespace {

const std::string two_of_a_kind =
    "fleet: Test\nseasons: {harvest: {from: 08-01, to: 09-20}}\nparts: {filter: {what: Filter, unit: piece}}\n"
    "sites: {yard: {name: Yard}, mere: {name: Mere}}\nmachines:\n"
    "  near: {schedule: kind, site: yard, in-service: {on: 2025-01-01, at: 0}}\n"
    "  far: {schedule: kind, site: mere, in-service: {on: 2025-01-01, at: 0}}\n"
    "  other: {schedule: bare, site: mere, in-service: {on: 2025-01-01, at: 0}}\n";

// `far` was read long ago, and takes the same filters as `near`; `other` takes none.
World world() {
  FleetFiles files;
  files.texts["fleet.yaml"] = two_of_a_kind;
  files.texts["schedules/kind.yaml"] =
      "schedule: kind\nmeters: {engine: {unit: h}}\ntasks:\n"
      "  oil: {do: Oil, every: {hours: 100}, parts: {filter: 1}}\n";
  files.texts["schedules/bare.yaml"] =
      "schedule: bare\nmeters: {engine: {unit: h}}\ntasks:\n  look: {do: Look, every: {hours: 100}}\n";
  World made(files);
  for (const auto& [machine, on] : {std::pair{"near", "2026-06-10"}, {"far", "2026-02-10"}, {"other", "2026-02-10"}}) {
    made.reading(on, "700").machine = machine;
  }
  return made;
}

std::vector<std::string> stale(const std::vector<Gap>& gaps) {
  std::vector<std::string> machines;
  for (const Gap& gap : gaps) {
    if (gap.kind == GapKind::stale) machines.push_back(gap.machine);
  }
  return machines;
}

using Names = std::vector<std::string>;

}  // namespace

TEST_CASE("workload and parts say what their figures rest on, as the due list does") {
  const World made = world();
  const auto whole = made.snapshot("2026-06-15");
  const DueList list = due_list(whole, {day("2026-07-15"), {}}, straight_line());
  CHECK((stale(list.gaps) == Names{"far", "other"}));
  CHECK((stale(workload(whole, day("2026-12-31"), Step::month, straight_line()).gaps) == Names{"far", "other"}));
  CHECK((stale(parts_list(whole, day("2026-12-31"), straight_line()).gaps) == Names{"far", "other"}));
  CHECK((stale(parts_before(whole, {whole.fleet().season("harvest")}, straight_line()).gaps) == Names{"far", "other"}));
}

TEST_CASE("the parts of a scope rest on every machine that takes them, for their figures are the fleet's") {
  const World made = world();
  const auto near = made.snapshot("2026-06-15").within({Names{"near"}});
  CHECK((stale(parts_list(near, day("2026-12-31"), straight_line()).gaps) == Names{"far"}));
  CHECK(stale(workload(near, day("2026-12-31"), Step::month, straight_line()).gaps).empty());
  const auto nobody = made.snapshot("2024-06-15").within({Names{"near"}});
  for (const auto& gaps : {workload(nobody, day("2024-12-31"), Step::month, straight_line()).gaps,
                           parts_list(nobody, day("2024-12-31"), straight_line()).gaps}) {
    CHECK(std::any_of(gaps.begin(), gaps.end(), [](const Gap& gap) { return gap.kind == GapKind::no_machine; }));
  }
}

TEST_CASE("a machine that is laid up is named, though it counts from the day on which it is back") {
  World made = world();
  made.state(FactKind::laid_up, "2026-06-01", "2026-09-01").machine = "near";
  const auto snapshot = made.snapshot("2026-06-15");
  for (const auto& uses : {workload(snapshot, day("2026-12-31"), Step::month, straight_line()).not_in_use,
                           parts_list(snapshot, day("2026-12-31"), straight_line()).not_in_use}) {
    REQUIRE(uses.size() == 1);
    CHECK(uses[0].machine->key == "near");
  }
}
