// Files read: those of the fleet, of facts and the record itself, and failures of all of them.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "unit/cli/place.h"

using cli_test::Place;

TEST_CASE("mistakes in fleet files are all told with their places") {
  Place place;
  place.furnish();
  place.write("schedules/pump.yaml",
              "schedule: pump\ntasks:\n  gland:\n    do: x\n    every: {months: many}\n    oops: 1\n");
  CHECK(place.run("due") == 78);
  CHECK(place.out.empty());
  CHECK(place.complains("pump.yaml:5:"));
  CHECK(place.complains("pump.yaml:6:"));
  CHECK_FALSE(place.err.starts_with("whichever: "));
  CHECK(place.run("due --format json") == 78);
  const auto first = nlohmann::json::parse(place.err.substr(0, place.err.find('\n')));
  CHECK(first["error"]["line"] == 5);
  CHECK(first["error"]["file"].get<std::string>().ends_with("pump.yaml"));
  CHECK(place.run("export") == 0);  // the book can be had even so
}

TEST_CASE("twenty thousand mistakes on one line are told without eating the memory") {
  Place place;
  std::string fleet = "fleet: F\nmachines: {a: {schedule: k}";
  for (int i = 0; i < 20'000; ++i) fleet += ", a: {}";
  place.write("fleet.yaml", fleet + "}\n");
  place.write("schedules/k.yaml", "schedule: k\ntasks:\n  t: {do: T, every: {months: 1}}\n");
  CHECK(place.run("due") == 78);
  CHECK(place.err.size() < 8'000'000);
  CHECK(place.complains("fleet.yaml:2:"));
}

TEST_CASE("an import stores all rows or none") {
  Place place;
  place.furnish();
  place.write("facts.csv",
              "kind,machine,on,at,task\nreading,loader,2026-06-01,100,\nreading,lodaer,2026-06-02,110,\n"
              "reading,loader,2026-06-31,120,\nservice,loader,2026-06-03,,engine-oli\n");
  CHECK(place.run("import facts.csv") == 65);
  CHECK(place.complains("facts.csv:3:"));
  CHECK(place.complains("facts.csv:4:"));
  CHECK(place.complains("facts.csv:5:"));
  CHECK(place.complains("did you mean `loader`"));
  REQUIRE(place.run("export") == 0);
  CHECK(place.out.find("loader") == std::string::npos);
}

TEST_CASE("the same file twice changes nothing") {
  Place place;
  place.furnish();
  place.write("facts.csv", "kind,machine,on,at\nreading,loader,2026-06-01,100\nreading,loader,2026-06-08,140\n");
  REQUIRE(place.run("import facts.csv --dry-run") == 0);
  CHECK(place.says("2 facts new"));
  REQUIRE(place.run("import facts.csv") == 0);
  CHECK(place.says("2 facts new, 0 already there, 0 refused"));
  const auto undo = place.out.find("undo ");
  REQUIRE(undo != std::string::npos);
  const std::string command = place.out.substr(undo, 5 + 26);
  REQUIRE(place.run("export") == 0);
  const std::string book = place.out;
  CHECK(book.find(",import facts.csv,") != std::string::npos);
  REQUIRE(place.run("import facts.csv") == 0);
  CHECK(place.says("0 facts new, 2 already there, 0 refused"));
  REQUIRE(place.run("export") == 0);
  CHECK(place.out == book);
  REQUIRE(place.run(command) == 0);
  CHECK(place.says("struck"));
}

TEST_CASE("an export is imported into an empty record as the same book") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 100 --on 2026-06-01") == 0);
  REQUIRE(place.run("done loader engine-oil --at 120 --on 2026-06-05") == 0);
  REQUIRE(place.run("undo") == 0);
  for (const std::string format : {"csv", "jsonl"}) {
    REQUIRE(place.run("export --format " + format) == 0);
    const std::string book = place.out;
    Place other;
    other.furnish();
    other.input = book;
    REQUIRE(other.run("import -") == 0);
    REQUIRE(other.run("export --format " + format) == 0);
    CHECK(other.out == book);
    REQUIRE(other.run("import -") == 0);
    CHECK(other.says("0 facts new"));
  }
}

TEST_CASE("files that are not there are told apart from files that are wrong") {
  Place place;
  place.furnish();
  CHECK(place.run("import nowhere.csv") == 66);
  place.write("empty.csv", "");
  CHECK(place.run("import empty.csv") == 65);
  place.write("record.db", "");
  CHECK(place.run("due") == 65);
}

TEST_CASE("of a damaged record the rest can be saved, and is never taken for the whole") {
  Place place;
  place.furnish();
  REQUIRE(place.run("saw loader leak --note lefthand") == 0);
  REQUIRE(place.run("reading loader 100") == 0);
  REQUIRE(place.run("export --legible") == 0);  // a sound one is written as ever
  CHECK(place.err.empty());
  std::string bytes = place.read("record.db");
  for (auto at = bytes.find("lefthand"); at != std::string::npos; at = bytes.find("lefthand")) bytes[at] = 'L';
  place.write("record.db", bytes);

  for (const char* line : {"due", "export", "history loader"}) {
    CAPTURE(line);
    CHECK(place.run(line) == 65);
    CHECK(place.out.empty());
    CHECK(place.complains("does not agree with its checksum"));
    CHECK(place.complains("whichever export --legible"));
  }
  CHECK(place.run("export --legible") == 65);
  CHECK(place.says("reading,"));
  CHECK_FALSE(place.says("efthand"));
  CHECK(place.complains("does not agree with its checksum"));
  place.write("left.csv", place.out);
  std::filesystem::remove(place.folder / "record.db");
  REQUIRE(place.run("new .") == 0);
  CHECK(place.run("import left.csv") == 0);
  CHECK(place.says("1 fact new"));
}

TEST_CASE("whoever writes leaves the fleet's files parsed for whoever asks") {
  Place place;
  place.furnish();
  REQUIRE(place.run("due") == 0);
  CHECK_FALSE(std::filesystem::exists(place.folder / ".compiled-fleet"));
  REQUIRE(place.run("reading loader 100 --dry-run") == 0);
  CHECK_FALSE(std::filesystem::exists(place.folder / ".compiled-fleet"));
  REQUIRE(place.run("reading loader 100") == 0);
  const std::string compiled = place.read(".compiled-fleet");
  CHECK_FALSE(compiled.empty());
  REQUIRE(place.run("due --all --format json") == 0);
  const std::string with = place.out;
  std::filesystem::remove(place.folder / ".compiled-fleet");
  REQUIRE(place.run("due --all --format json") == 0);
  CHECK(place.out == with);
}

TEST_CASE("today is the day where the machines stand") {
  Place place;
  place.furnish();
  place.now = place.now + 11 * 3'600'000LL;  // 23:00 UTC of 15 June
  REQUIRE(place.run("due --format json") == 0);
  CHECK(nlohmann::json::parse(place.out)["as_of"] == "2026-06-15");
  place.write("fleet.yaml", std::string("time-zone: Europe/Oslo\n") + cli_test::small_fleet);
  REQUIRE(place.run("due --format json") == 0);
  CHECK(nlohmann::json::parse(place.out)["as_of"] == "2026-06-16");
  place.write("fleet.yaml", std::string("time-zone: America/Los_Angeles\n") + cli_test::small_fleet);
  REQUIRE(place.run("due --format json") == 0);
  CHECK(nlohmann::json::parse(place.out)["as_of"] == "2026-06-15");
  place.write("fleet.yaml", std::string("time-zone: Nowhere/Town\n") + cli_test::small_fleet);
  CHECK(place.run("due") == 78);
  CHECK(place.complains("Nowhere/Town"));
  CHECK(place.run("due --as-of 2026-06-15") == 78);
}
