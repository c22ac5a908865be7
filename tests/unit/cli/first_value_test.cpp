// The first value of a meter: what cannot be is refused, what is far above its kind is said, and it counts all the
// same.
#include <doctest/doctest.h>

#include "unit/cli/asking.h"

using cli_test::must;
using cli_test::Place;

namespace {

// Two generators of which nothing is known but that one of them has run 2140 h, and one of which nobody read.
void furnish(Place& place) {
  place.furnish();
  place.write("schedules/generator.yaml",
              "schedule: generator\nmeters: {engine: {unit: h}}\ntasks:\n  oil: {do: Oil, every: {hours: 250}}\n");
  place.write("fleet.yaml", std::string(cli_test::small_fleet) +
                                "  main: {schedule: generator, site: yard}\n"
                                "  standby: {schedule: generator, site: yard}\n"
                                "  spare: {schedule: generator, site: yard}\n");
}

}  // namespace

TEST_CASE("a first value that cannot be is refused, and the true one is taken") {
  Place place;
  furnish(place);
  CHECK(place.run("reading standby 20600000") == 65);
  CHECK(place.complains("over 24 h a day for a hundred years"));
  CHECK(place.complains("a missing decimal point?"));
  must(place, "reading standby 2060.3");
}

TEST_CASE("a first value far above what any of the kind has run is said, with the way to take it back") {
  Place place;
  furnish(place);
  must(place, "reading main 2140");
  CHECK_FALSE(place.says("decimal point"));
  must(place, "reading standby 6420");  // three times of it
  CHECK_FALSE(place.says("decimal point"));
  must(place, "undo");
  must(place, "reading standby 20603 --dry-run");
  CHECK(place.says("Is a decimal point missing?"));
  CHECK_FALSE(place.says("strike"));
  must(place, "reading standby 20603");
  CHECK(place.says(
      "standby engine: 20603.0 h is the first value known, and far above the 2140.0 h that main has run, the "
      "most of its kind. Is a decimal point missing? If it is wrong: whichever strike "));
  const std::string said = place.out;
  must(place, "due");
  CHECK_FALSE(place.says("hard to believe"));  // nothing of its own speaks against it
  const auto at = said.find("whichever strike ") + std::string("whichever ").size();
  must(place, said.substr(at, said.find('\n', at) - at));
  must(place, "reading standby 20603 --format json");
  const auto high = nlohmann::json::parse(place.out)["high_first_values"];
  REQUIRE(high.size() == 1);
  CHECK(high[0]["machine"] == "standby");
  CHECK(high[0]["shown"] == 20603.0);
  CHECK(high[0]["most_used"] == "main");
  CHECK(high[0]["most"] == 2140.0);
  must(place, "reading standby 20610");
  CHECK_FALSE(place.says("decimal point"));  // not the first
}

TEST_CASE("where somebody is sure, nothing is said of a first value") {
  Place place;
  furnish(place);
  must(place, "reading main 2140");
  must(place, "reading standby 20603 --sure");
  CHECK_FALSE(place.says("decimal point"));
}

TEST_CASE("where none of the kind was read, ten years by day and night are far above it") {
  Place place;
  furnish(place);
  must(place, "reading standby 87648");
  CHECK_FALSE(place.says("decimal point"));
  must(place, "undo");
  must(place, "reading standby 87649");
  CHECK(place.says("is the first value known, and more than ten years by day and night. Is a decimal point missing?"));
}

TEST_CASE("of a file and of messages it is said as well") {
  Place place;
  furnish(place);
  place.write("facts.csv",
              "kind,machine,on,at\nreading,main,2026-06-01,2140\nreading,standby,2026-06-01,20603\n"
              "reading,spare,2026-06-01,1800.5\n");
  must(place, "import facts.csv");
  CHECK(place.says("standby engine: 20603.0 h is the first value known, and far above"));
  CHECK_FALSE(place.says("spare engine: 1800.5 h is the first"));
  Place other;
  furnish(other);
  other.write("messages.txt", "main 2140\nstandby 20603\n");
  must(other, "import --messages messages.txt");
  CHECK(other.says("standby engine: 20603.0 h is the first value known"));
}
