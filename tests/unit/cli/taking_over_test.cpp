// `new --from`: all files of a fleet or none, from a spreadsheet, and back again.
#include <doctest/doctest.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>

#include "unit/cli/asking.h"

namespace {

using cli_test::must;
using cli_test::Place;

constexpr const char* list =
    "Maschine;Stunden;abgelesen;Farbe\nM\xe4hdrescher;2.345,5 h;27/05/2026;rot\nPumpe;402;;blau\nSumme;2.747,5;;\n";

bool is_there(const Place& place, const std::string& name) { return std::filesystem::exists(place.folder / name); }

}  // namespace

TEST_CASE("a spreadsheet becomes a fleet that answers at once, and all that was understood is shown") {
  Place place;
  place.write("list.csv", list);
  must(place, "new farm --from list.csv");
  for (const char* said :
       {"Windows-1252", "semicolons", "decimal comma (told by `2.345,5`)", "day first in days", "left alone",
        "line 4: it is a total: Summe;2.747,5;;", "maehdrescher", "2345.5 on 2026-05-27", "2026-06-15", "register.csv",
        "schedules/example.yaml are examples", "whichever --fleet farm find-out"}) {
    CAPTURE(said);
    CHECK(place.says(said));
  }
  must(place, "due --fleet farm");
  CHECK(place.says("maehdrescher and 1 more"));
  CHECK(place.says("are examples"));
  CHECK(place.run("due --fleet farm --exit-code") == 1);
  must(place, "history maehdrescher --fleet farm");
  CHECK(place.says("2345.5"));
  must(place, "check --fleet farm");
  CHECK(place.run("new farm --from list.csv") == 65);
  CHECK(place.complains("has a fleet.yaml already"));
  must(place, "find-out --fleet farm --format csv");
  CHECK(place.says("service,pumpe,,engine,,engine-oil,,,,,,,yes"));
}

TEST_CASE("undo asks first before it takes back the readings of a fleet taken over") {
  Place place;
  place.write("list.csv", list);
  must(place, "new farm --from list.csv");
  CHECK(place.run("undo --fleet farm") == 65);
  must(place, "export --fleet farm --format jsonl");
  const auto fact = nlohmann::json::parse(place.out.substr(0, place.out.find('\n')));
  CHECK(fact["origin"] == "new list.csv");
  const std::string command = fact["batch"];
  CHECK(place.run("undo --fleet farm") == 65);
  CHECK(place.complains(command));
  must(place, "undo " + command + " --fleet farm");
  must(place, "due --fleet farm");
  CHECK(place.says("nothing is recorded of it"));
}

TEST_CASE("what is asked back, and what fails at the last, leaves nothing behind") {
  Place place;
  place.write("twice.csv", "Machine;Hours\nOne;1\nOne ;2\n");
  CHECK(place.run("new a/farm --from twice.csv") == 65);
  CHECK(place.complains("twice.csv:3:1"));
  CHECK(place.complains("--skip-bad"));
  CHECK_FALSE(is_there(place, "a"));
  place.write("list.csv", list);
  const auto draw = place.world.draw;
  place.world.draw = []() -> std::array<std::uint8_t, 10> {
    throw service::Failure(service::FailureKind::io, {"no-chance", "there is no chance left", ""});
  };
  CHECK(place.run("new a/farm --from list.csv") == 74);
  CHECK_FALSE(is_there(place, "a"));
  place.write("b/schedules/example.yaml", "schedule: example\ntasks:\n  oil: {do: Oil, every: {hours: 100}}\n");
  CHECK(place.run("new b --from list.csv") == 74);
  CHECK(is_there(place, "b/schedules/example.yaml"));
  CHECK_FALSE(is_there(place, "b/register.csv"));
  CHECK_FALSE(is_there(place, "b/record.db"));
  place.world.draw = draw;
  must(place, "new b --from list.csv");  // with the schedule that was there
  CHECK_FALSE(place.says("are examples"));
  must(place, "new a/farm --from twice.csv --skip-bad");
  CHECK(place.says("`One` is there already, on line 2"));
}

TEST_CASE("a dry run writes nothing and shows the same") {
  Place place;
  place.write("list.csv", list);
  must(place, "new farm --from list.csv --dry-run");
  CHECK(place.says("Would be made in farm"));
  CHECK(place.says("maehdrescher"));
  CHECK_FALSE(is_there(place, "farm"));
  must(place, "new farm --from list.csv --dry-run --format json");
  auto dry = nlohmann::json::parse(place.out);
  CHECK(dry["dry_run"] == true);
  must(place, "new farm --from list.csv --format json");
  auto made = nlohmann::json::parse(place.out);
  CHECK(made["taken_over"] == dry["taken_over"]);
  CHECK(made["taken_over"]["machines"][0]["machine"] == "maehdrescher");
  CHECK(made["taken_over"]["machines"][0]["at"] == 2345.5);
  CHECK(made["taken_over"]["columns"][3]["column"].is_null());
  CHECK(made["taken_over"]["encoding"] == "Windows-1252");
}

TEST_CASE("a try that was cut short before the fleet file can be made again; somebody's record cannot be overwritten") {
  Place place;
  place.write("list.csv", list);
  must(place, "new farm --from list.csv");
  std::filesystem::remove(place.folder / "farm/fleet.yaml");
  for (const char* left : {".fleet.yaml.abcdef.new", ".record.db.abcdef.new", ".record.db.abcdef.new-journal"}) {
    place.write(std::string("farm/") + left, "half");
  }
  CHECK(place.run("new farm") == 65);
  CHECK(place.complains("give the same command again"));
  must(place, "new farm --from list.csv");
  CHECK_FALSE(is_there(place, "farm/.fleet.yaml.abcdef.new"));
  CHECK_FALSE(is_there(place, "farm/.record.db.abcdef.new-journal"));
  must(place, "export --fleet farm");
  CHECK(std::count(place.out.begin(), place.out.end(), '\n') == 3);  // a header and two readings
  must(place, "reading pumpe 403 --fleet farm");
  std::filesystem::remove(place.folder / "farm/fleet.yaml");
  const std::string book = place.read("farm/record.db");
  CHECK(place.run("new farm --from list.csv") == 65);
  CHECK(place.read("farm/record.db") == book);
  place.write("here/list.csv", list);  // the list may lie in the folder itself
  place.world.folder = place.folder / "here";
  must(place, "new . --from list.csv");
  place.world.folder = place.folder;
  CHECK(is_there(place, "here/fleet.yaml"));
  CHECK(place.read("here/list.csv") == list);
  place.write("other/letter.txt", "dear all");
  CHECK(place.run("new other --from list.csv") == 65);
  CHECK(place.complains("letter.txt"));
  CHECK_FALSE(is_there(place, "other/fleet.yaml"));
}

TEST_CASE("columns, a schedule and the day of readings are told on the command line") {
  Place place;
  place.write("list.csv", "Was, genau;Zahl\nPumpe;1.250\n");
  const auto run = [&](std::vector<std::string> more) {
    std::vector<std::string> words{"new", "farm", "--from", "list.csv", "--dry-run"};
    words.insert(words.end(), more.begin(), more.end());
    return place.run_words(words);
  };
  CHECK(run({}) == 65);
  CHECK(place.complains("--columns"));
  CHECK(place.complains("`Was, genau`, `Zahl`"));
  CHECK(run({"--columns", "Was, genau=name, Zahl=at"}) == 65);
  CHECK(place.complains("--decimal"));
  REQUIRE(run({"--columns", "Was, genau=name", "--columns", "Zahl=at", "--decimal", "comma", "--schedule", "pump",
               "--on", "2026-06-01"}) == 0);
  CHECK(place.says("1250.0 on 2026-06-01"));
  CHECK(place.says("schedules/pump.yaml"));
  CHECK(place.says("as you said"));
  CHECK(run({"--columns", "Was"}) == 64);
  CHECK(run({"--columns", "Was, genau=hours"}) == 64);
  CHECK(run({"--columns", "Was, genau=name", "--schedule", "No Name"}) == 64);
  CHECK(run({"--columns", "Was, genau=name", "--dates", "backwards"}) == 64);
  CHECK(place.run("new farm --skip-bad") == 64);
  CHECK(place.run("new farm --from nothing.csv") == 66);
  place.input = "Machine\nOne\n";
  must(place, "new farm --from -");
}

TEST_CASE("what is left alone, left out, alike or not known is said in words") {
  Place place;
  place.write("list.csv",
              "ID;Vehicle;Hours;Date;In service;\n1;Pumpe 1;1200?;13.05.2026;2005;x\n2;Pumpe #1;20;;2005;\n");
  must(place, "new farm --from list.csv --skip-bad");
  for (const char* said :
       {"(column 6, no heading)  left alone", "line 2: pumpe-1, Hours: `1200?` is not a number alone",
        "line 3: `Pumpe #1` would be pumpe-1, as `Pumpe 1` on line 2 is: it is called pumpe-1-2",
        "2 machines went into service so long ago", "In register.csv that day is"}) {
    CAPTURE(said);
    CHECK(place.says(said));
  }
  place.write("twice.csv", "ID;Vehicle;Hours\n1;Pump;3\n2;Pump;4\n");
  CHECK(place.run("new other --from twice.csv") == 65);
  CHECK(place.complains("--columns \"ID=machine\""));
  place.write("wrong.csv", "Machine;Hours;Date;In service\nA;900;2026-06-01;2026-05-20\nB;1;2027-01-01;\n");
  CHECK(place.run("new other --from wrong.csv") == 65);
  for (const char* never : {"meter-change", "fleet file", "in the book"}) {
    CAPTURE(never);
    CHECK_FALSE(place.complains(never));
  }
}

TEST_CASE("commands that are printed about a fleet given by --fleet carry it, and run as printed") {
  Place place;
  place.write("list.csv", "Machine;Hours\nPump;402\n");
  must(place, "new farm --from list.csv");
  must(place, "find-out --fleet farm");
  CHECK(place.says("whichever --fleet farm import blanks.csv"));
  CHECK(place.says("(goes into register.csv)"));
  must(place, "due --fleet farm");
  CHECK(place.says("to fill in: whichever --fleet farm find-out pump"));
  must(place, "--fleet farm find-out pump");
  place.world.folder = place.folder / "farm";
  must(place, "due");
  CHECK(place.says("to fill in: whichever find-out pump"));
}
