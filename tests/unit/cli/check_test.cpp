// check: all that is wrong with fleet and record, and what is odd.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "unit/cli/asking.h"

using cli_test::findings;
using cli_test::has;
using cli_test::must;
using cli_test::Place;

TEST_CASE("check tells all that is wrong with fleet and record in one run") {
  Place place;
  place.furnish();
  must(place, "check");
  CHECK(place.says("Checked: 2 machines, 0 facts. Nothing is wrong."));
  must(place, "done loader engine-oil --at 100");
  must(place, "reading pump 12");
  // The fleet changes under the book: a machine renamed, a task renamed.
  std::string fleet = cli_test::small_fleet;
  fleet.replace(fleet.find("  pump:"), 7, "  pomp:");
  place.write("fleet.yaml", fleet);
  std::string schedule = cli_test::tractor_schedule;
  schedule.replace(schedule.find("engine-oil:"), 11, "oil-change:");
  place.write("schedules/tractor.yaml", schedule);
  const auto found = findings(place, "check", 65);
  CHECK(has(found, "unlisted-machine"));
  CHECK(has(found, "unknown-task"));
  REQUIRE(place.run("check") == 65);
  CHECK(place.says("record.db: error: done engine-oil at 100.0 h of loader"));
  CHECK(place.says("did you mean `pomp`?"));
  CHECK(place.says("or if it is wrong: whichever strike"));
}

TEST_CASE("check reads the record even where the fleet cannot be read, and the fleet where the record is damaged") {
  Place place;
  place.furnish();
  must(place, "saw loader leak --note lefthand");
  std::string bytes = place.read("record.db");
  for (auto at = bytes.find("lefthand"); at != std::string::npos; at = bytes.find("lefthand")) bytes[at] = 'L';
  place.write("record.db", bytes);
  place.write("fleet.yaml", std::string("flet: x\n") + cli_test::small_fleet);
  const auto found = findings(place, "check", 78);
  CHECK(has(found, "unknown-key"));
  CHECK(has(found, "damaged-fact"));
}

TEST_CASE("check on an earlier day does not call later facts wrong") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 100 --on 2026-06-14") == 0);
  CHECK(place.run("check --as-of 2026-06-01") == 0);
  place.now -= 30 * 86'400'000LL;  // a clock that runs behind: one thing to say, not one a fact
  CHECK(place.run("check --format json") == 65);
  const auto findings = nlohmann::json::parse(place.out)["findings"];
  REQUIRE(findings.size() == 1);
  CHECK(findings[0]["code"] == "clock");
}

TEST_CASE("odd intervals and odd readings are remarks, and errors only where asked for") {
  Place place;
  place.furnish();
  place.write("schedules/pump.yaml",
              "schedule: pump\nmeters: {engine: {unit: h}}\ntasks:\n  gland:\n    do: Repack the gland\n"
              "    every: {hours: 100}\n    first: {hours: 200}\n    in: {wet: {hours: 150}}\n");
  CHECK_FALSE(has(findings(place, "check", 0), "odd-interval"));
  CHECK(has(findings(place, "check --strict", 65), "odd-interval"));
  for (int month = 1; month <= 9; ++month) {
    must(place, "reading loader " + std::to_string(10 * month) + " --on 2025-0" + std::to_string(month) + "-01");
  }
  CHECK_FALSE(has(findings(place, "check", 0), "doubtful-reading"));
  must(place, "reading loader 190 --on 2025-10-01");  // 100 h where the others are 10
  CHECK(has(findings(place, "check", 0), "doubtful-reading"));
  CHECK(place.run("check --exit-code") == 1);
}
