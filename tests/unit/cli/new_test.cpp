// The folder of a fleet: made by new, found from below.
#include <doctest/doctest.h>

#include <filesystem>
#include <string>

#include "unit/cli/place.h"

using cli_test::Place;

TEST_CASE("new makes a starter fleet that answers at once") {
  Place place;
  REQUIRE(place.run("new farm") == 0);
  CHECK(place.says(
      "fleet.yaml, schedules/example.yaml, .schemas/fleet.schema.json, .schemas/schedule.schema.json, record.db"));
  REQUIRE(place.run("due --fleet farm") == 0);
  CHECK(place.says("Nothing that is known is due within 30 days. 1 machine"));
  CHECK(place.says("the values of schedules/example.yaml are examples"));
  REQUIRE(place.run("reading loader 100 --fleet farm") == 0);
  CHECK(place.read("farm/schedules/example.yaml").find("take it from the operator's manual") != std::string::npos);
}

TEST_CASE("new leaves alone what is there") {
  Place place;
  place.furnish();
  const std::string record = place.read("record.db");
  CHECK(place.run("new .") == 65);
  CHECK(place.read("record.db") == record);
  CHECK(place.read("fleet.yaml") == cli_test::small_fleet);
  place.write("full/letter.txt", "dear all");
  CHECK(place.run("new full") == 65);
  CHECK_FALSE(std::filesystem::exists(place.folder / "full/record.db"));
  CHECK(place.run("new fleet.yaml") == 65);
}

TEST_CASE("new goes on where an earlier one was cut short, and never writes over somebody's work") {
  Place whole;
  REQUIRE(whole.run("new .") == 0);
  const std::string schedule = whole.read("schedules/example.yaml");
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

TEST_CASE("the nearest fleet upwards is found, and none is an error") {
  Place place;
  place.furnish();
  place.world.folder = place.folder / "schedules";
  CHECK(place.run("due") == 0);
  place.world.folder = std::filesystem::temp_directory_path();
  CHECK(place.run("due") == 66);
  CHECK(place.complains("--fleet"));
  CHECK(place.complains("WHICHEVER_FLEET"));
  place.variables["WHICHEVER_FLEET"] = place.folder.string();
  CHECK(place.run("due") == 0);
  CHECK(place.run("due --fleet /nowhere/at/all") == 66);  // the option wins
}
