// Lists that send people to a machine carry what to beware of, in every format; what never waits is marked.
#include "service/cautions.h"

#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "unit/cli/place.h"

using cli_test::Place;

namespace {

constexpr const char* schedule = R"(schedule: pump
meters: {engine: {unit: h}}
tasks:
  guard:
    do: Look at the guard
    every: {months: 1}
    safety: true
    cautions: [shafts-and-belts]
    follow-up: {again: {do: Look again, within: {days: 1}}}
  exam: {do: Examine, every: {months: 1}, by-whom: competent-person}
  large: {do: Do all, every: {months: 1}, covers: [small], parts: {seal: 1}, cautions: ["Mind the geese"]}
  small: {do: Do a little, every: {months: 1}, cautions: [used-oil]}
)";

constexpr std::string_view foot = "Before you touch it: level, brake, lowered;";

// All of the pump is overdue, and the loader is fresh but for its positions.
void furnish(Place& place) {
  place.furnish();
  place.write("schedules/pump.yaml", schedule);
  REQUIRE(place.run("done pump large --on 2026-03-01") == 0);
  REQUIRE(place.run("done pump guard --on 2026-03-01") == 0);
  REQUIRE(place.run("done pump exam --on 2026-03-01 --by Moe") == 0);
}

nlohmann::json answer(Place& place, const std::string& line) {
  REQUIRE(place.run(line + " --format json") == 0);
  return nlohmann::json::parse(place.out);
}

std::string cautions_of(const nlohmann::json& points, const std::string& task) {
  for (const auto& point : points) {
    if (point["task"] == task) return point["cautions"].dump();
  }
  return "no such point";
}

TEST_CASE("due, overdue, workload and parts end with one line of cautions, in Markdown too") {
  Place place;
  furnish(place);
  for (const char* line : {"due pump", "due pump --overdue", "due pump --format md", "workload pump", "parts pump",
                           "parts pump --format md"}) {
    CAPTURE(line);
    REQUIRE(place.run(line) == 0);
    const auto at = place.out.find(foot);
    REQUIRE(at != std::string::npos);
    CHECK(place.out.find("manual.\n", at) + 8 == place.out.size());
  }
}

TEST_CASE("an empty overdue list prints nothing, no caution either") {
  Place place;
  place.furnish();
  REQUIRE(place.run("done pump gland") == 0);
  REQUIRE(place.run("reading pump 10") == 0);
  REQUIRE(place.run("due pump --overdue") == 0);
  CHECK(place.out.empty());
}

TEST_CASE("what is taken to the machine has all steps in their order, and what comes afterwards") {
  Place place;
  place.furnish();
  place.write("schedules/pump.yaml", schedule);
  place.write("fleet.yaml",
              "fleet: T\nseasons: {harvest: {from: 08-01, to: 09-20}}\n"
              "machines: {pump: {schedule: pump, bought: {on: 2025-01-01, at: 5}}}\n");
  REQUIRE(place.run("find-out pump") == 0);
  std::size_t at = 0;
  for (const std::string_view step : service::base_cautions().steps) {
    const auto found = place.out.find(step.substr(0, 30), at);
    REQUIRE(found != std::string::npos);
    at = found;
  }
  CHECK(place.out.find("Afterwards: tools out", at) != std::string::npos);
  CHECK(place.says("Look at the guard; safety; mind: shafts-and-belts\n"));
  CHECK(place.says("Examine; by a competent person\n"));
  CHECK(place.says("mind: used-oil, Mind the geese"));
  CHECK(place.says("\nWhat to mind\n  shafts-and-belts: Shafts, belts and chains catch clothing"));
  CHECK(place.says("  Mind the geese\n"));
}

TEST_CASE("a job sheet has all steps first, then each caution once with its tasks, and what comes afterwards") {
  Place place;
  furnish(place);
  for (const char* line : {"sheet pump", "sheet pump --format html"}) {
    CAPTURE(line);
    REQUIRE(place.run(line) == 0);
    std::size_t at = 0;
    for (const std::string_view step : service::base_cautions().steps) {
      const auto found = place.out.find(step.substr(0, 8), at);
      REQUIRE(found != std::string::npos);
      at = found;
    }
    const auto mind = place.out.find("What to mind", at);
    const auto to_do = place.out.find("To do", mind);
    REQUIRE(to_do != std::string::npos);
    CHECK(place.out.find("Shafts, belts and chains catch clothing", mind) < to_do);
    CHECK(place.out.find("Shafts, belts and chains catch clothing", to_do) == std::string::npos);
    CHECK(place.out.find("Mind the geese", mind) < to_do);
    const auto afterwards = place.out.find("Afterwards", to_do);
    REQUIRE(afterwards != std::string::npos);
    for (const char* box : {"Tools out", "Guards on", "Everybody clear"}) {
      CHECK(place.out.find(box, afterwards) != std::string::npos);
    }
  }
  REQUIRE(place.run("sheet --readings") == 0);
  CHECK(place.says(std::string(foot)));
}

TEST_CASE("JSON and CSV carry all steps, and each point its own, of what it covers and what it follows too") {
  Place place;
  furnish(place);
  for (const char* line : {"due pump", "due pump --overdue"}) {
    CAPTURE(line);
    const auto json = answer(place, line);
    REQUIRE(json["cautions"].size() == 9);
    CHECK(json["cautions"][4] == "only then let pressure off");
    CHECK(cautions_of(json["points"], "large") == R"(["used-oil","Mind the geese"])");
    CHECK(cautions_of(json["points"], "guard/again") == R"(["shafts-and-belts"])");
    CHECK(json["caution_sentences"][1]["sentence"] == service::caution("used-oil")->sentence);
    CHECK(json["caution_sentences"].size() == 2);
  }
  for (const char* line : {"workload pump", "parts pump", "why pump guard", "find-out pump", "forecast pump",
                           "sheet pump", "sheet --readings pump"}) {
    CAPTURE(line);
    CHECK(answer(place, line)["cautions"].size() == 9);
  }
  REQUIRE(place.run("due pump --format csv") == 0);
  CHECK(place.says(",yes,no,shafts-and-belts,,,engine,no,no,1,,,,,,\r\n"));
  CHECK(place.says(",no,yes,,,,engine,no,no,1,,,,,,\r\n"));
  CHECK(place.says(",no,no,\"used-oil; Mind the geese\",,,engine,no,no,1,,,,,,\r\n"));
}

TEST_CASE("what never waits is marked in every format, and comes first") {
  Place place;
  furnish(place);
  const auto points = answer(place, "due pump")["points"];
  std::string order;
  for (const auto& point : points) {
    order += point["task"].get<std::string>() + (point["safety"] ? " safety" : "") +
             (point["competent_person"] ? " competent" : "") + "; ";
  }
  CHECK(order == "guard/again safety; guard safety; exam competent; large; small; ");
  REQUIRE(place.run("due pump") == 0);
  CHECK(place.out.find(" safety\n") < place.out.find("large"));
  CHECK(place.says(" by a competent person\n"));
  REQUIRE(place.run("due pump --format md") == 0);
  CHECK(place.says("| safety |\n"));
  CHECK(place.says("| by a competent person |\n"));
}

TEST_CASE("a machine out of use is said first, wherever it appears") {
  Place place;
  furnish(place);
  REQUIRE(place.run("out-of-use pump --note guard_off") == 0);
  for (const char* line : {"due pump", "due pump --overdue", "workload pump", "parts pump", "parts pump --format md",
                           "why pump guard", "history pump", "forecast pump"}) {
    CAPTURE(line);
    REQUIRE(place.run(line) == 0);
    const auto at = place.out.find("out of use since 2026-06-15: guard");
    REQUIRE(at != std::string::npos);
    // Nothing but the answer's own heading stands before it.
    CHECK(place.out.find("large") > at);
    CHECK(place.out.find("seal") > at);
    CHECK(place.out.substr(0, at).find("2026-03-01") == std::string::npos);
  }
}

}  // namespace
