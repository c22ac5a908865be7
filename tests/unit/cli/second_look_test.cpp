// What people ran into who used it for the first time.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "unit/cli/place.h"

namespace {

using cli_test::Place;

std::string starter_of(const std::string& name) {
  Place place;
  REQUIRE(place.run("new .") == 0);
  return place.read(name);
}

}  // namespace

TEST_CASE("new goes on where an earlier one was cut short, and never writes over somebody's work") {
  const std::string schedule = starter_of("schedules/example.yaml");
  Place cut_short;
  cut_short.write("schedules/example.yaml", schedule);
  cut_short.write(".schemas/.fleet.schema.json.abcdef.new", "half");
  CHECK(cut_short.run("new .") == 0);
  CHECK(cut_short.run("due") == 0);

  Place mine;
  mine.write("schedules/example.yaml", "# my own work\n");
  CHECK(mine.run("new .") == 65);
  CHECK(mine.read("schedules/example.yaml") == "# my own work\n");
  CHECK_FALSE(std::filesystem::exists(mine.folder / "fleet.yaml"));
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

TEST_CASE("a delay by use needs a task that comes due by use") {
  Place place;
  place.furnish();
  CHECK(place.run("put-off pump gland --until +10h") == 64);
  CHECK(place.complains("does not come due by use"));
  REQUIRE(place.run("reading loader 500 --on 2026-06-01") == 0);
  REQUIRE(place.run("meter-change loader --last 510 --first 0") == 0);
  REQUIRE(place.run("put-off loader engine-oil --until 60h --note hay") == 0);
  REQUIRE(place.run("due") == 0);
  CHECK(place.says("put off until 60.0 h on the meter (use 570.0 h)"));
}

TEST_CASE("laying up a machine that is out of use does not promise that it works again") {
  Place place;
  place.furnish();
  REQUIRE(place.run("out-of-use pump --note guard_off") == 0);
  REQUIRE(place.run("lay-up pump --until 2026-09-01") == 0);
  CHECK(place.says("stays so, whatever the day"));
  CHECK_FALSE(place.says("counts as in use"));
  REQUIRE(place.run("history pump") == 0);
  CHECK(place.says("out of use and laid up"));
}

TEST_CASE("a value at a position that its task does not have is refused") {
  Place place;
  place.furnish();
  place.write(
      "schedules/pump.yaml",
      "schedule: pump\nmeters: {engine: {unit: h}}\ntasks:\n  filter: {do: Clean it, every: {measured: {restriction: "
      "{above: 25, unit: kPa}}}}\n");
  CHECK(place.run("saw pump restriction=12 --position nowhere") == 64);
  CHECK(place.run("saw pump restriction=12") == 0);
}

TEST_CASE("bad rows put aside come back with what the good ones told of the file") {
  Place place;
  place.furnish();
  place.write("facts.csv", "kind;machine;on;at\nreading;loader;13/02/2026;812,5\nreading;loadr;03/04/2026;1.250\n");
  REQUIRE(place.run("import facts.csv --skip-bad") == 0);
  CHECK(place.says("facts.rejected.csv --decimal comma --dates day-first"));
  std::string rows = place.read("facts.rejected.csv");
  rows.replace(rows.find("loadr"), 5, "loader");
  place.write("facts.rejected.csv", rows);
  CHECK(place.run("import facts.rejected.csv") == 65);
  CHECK(place.run("import facts.rejected.csv --decimal comma --dates day-first") == 0);
  place.write("more.csv", "kind;machine;on;at\nreading;loadr;2026-01-01;1\n");
  CHECK(place.run("import more.csv --skip-bad --rejects nowhere/x.csv") == 66);
}

TEST_CASE("headings as people write them, and the columns that spreadsheets leave behind") {
  Place place;
  place.furnish();
  place.write("facts.csv",
              "sep=;\nKind;Machine ; ON;At;;\nreading;loader;2026-01-10;100;;\nreading;pump;2026-01-10;5;;\n");
  REQUIRE_MESSAGE(place.run("import facts.csv") == 0, place.err);
  CHECK(place.says("2 facts new"));
  place.write("facts.csv", "kind;machine;on;at;\nreading;loader;2026-01-11;101;x\n");
  CHECK(place.run("import facts.csv") == 65);
  CHECK(place.complains("facts.csv:2:"));
}

TEST_CASE("each line names its machine where a command concerns several") {
  Place place;
  place.furnish();
  place.write("facts.csv",
              "kind,machine,on,at,task\nservice,loader,2024-05-01,10,engine-oil\nreading,pump,2026-01-10,5,\n");
  REQUIRE(place.run("import facts.csv") == 0);
  CHECK(place.says("  loader engine-oil: "));
}

TEST_CASE("a part of a name is nearer than another short word") {
  const std::vector<std::string> names{"air", "engine-oil", "oil-cooler", "coil"};
  CHECK(service::did_you_mean("oil", names) == "did you mean `engine-oil`, `oil-cooler` or `coil`?");
}

TEST_CASE("a row with the id of another fact is refused, never counted as there") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 100 --on 2026-06-01") == 0);
  REQUIRE(place.run("export") == 0);
  const std::string book = place.out;
  std::string other_value = book;
  other_value.replace(book.find(",100,"), 5, ",150,");
  std::string other_origin = book;
  other_origin.replace(book.rfind(",reading,"), 9, ",van,");
  for (const std::string& changed : {other_value, other_origin}) {
    place.write("changed.csv", changed);
    for (const char* line : {"import changed.csv", "merge changed.csv"}) {
      CAPTURE(line);
      CHECK(place.run(line) == 65);
      CHECK(place.complains("another fact has the id"));
    }
  }
  place.write("twice.csv", book + book.substr(book.find('\n') + 1));
  CHECK(place.run("import twice.csv") == 0);
  CHECK(place.says("2 already there"));
  REQUIRE(place.run("export") == 0);
  CHECK(place.out == book);
}

TEST_CASE("a database is no file of facts, and its own words stay inside") {
  Place place;
  place.furnish();
  CHECK(place.run("import record.db") == 65);
  CHECK(place.complains("whichever merge record.db"));
  CHECK_FALSE(place.complains("SQLite"));
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

TEST_CASE("an option never takes the next option for its value") {
  Place place;
  place.furnish();
  for (const char* line : {"saw loader leak --note --dry-run", "due --machine --all", "due --output= --all",
                           "done loader hoses --by= --dry-run", "due --color mauve", "undo --color mauve"}) {
    CAPTURE(std::string(line));
    CHECK(place.run(line) == 64);
    CHECK_FALSE(place.err.empty());
  }
  REQUIRE(place.run("export") == 0);
  CHECK(place.out.find("leak") == std::string::npos);
  CHECK(place.run("saw loader leak --note=--dry-run") == 0);  // said in one word it is meant
  CHECK(place.run("due --all --machine pump --format json") == 0);
}

TEST_CASE("an answer is never written over what people wrote for their fleet") {
  Place place;
  place.furnish();
  for (const char* file : {"schedules/pump.yaml", "schedules/new.yaml", "./schedules/../schedules/pump.yaml",
                           "fleet.yaml", "register.csv", "record.db", ".compiled-fleet"}) {
    CAPTURE(std::string(file));
    CHECK(place.run(std::string("export --output ") + file) == 64);
    // Nor is anything stored before the name is refused.
    CHECK(place.run(std::string("saw loader leak --output ") + file) == 64);
  }
  CHECK(place.run("saw loader leak --output schedules") == 64);
  REQUIRE(place.run("export") == 0);
  CHECK(place.out.find("leak") == std::string::npos);
  CHECK(place.read("schedules/pump.yaml") == cli_test::pump_schedule);
  CHECK(place.run("export --output book.csv") == 0);
}
