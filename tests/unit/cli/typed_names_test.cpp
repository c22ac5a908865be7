// Names, days and shares as people type them, in commands that ask and in commands that write.
#include <doctest/doctest.h>

#include "unit/cli/asking.h"

using cli_test::must;
using cli_test::Place;

namespace {

void furnish(Place& place) {
  place.write("fleet.yaml", std::string(cli_test::small_fleet) +
                                "seasons: {harvest: {from: 08-01, to: 09-20}}\n"
                                "parts: {oil-filter: {what: Filter}, oil: {what: Oil, unit: L}}\n");
  place.write("schedules/tractor.yaml", cli_test::tractor_schedule);
  place.write("schedules/pump.yaml", cli_test::pump_schedule);
  must(place, "new .");
}

}  // namespace

TEST_CASE("seasons, sites, machines, tasks, positions and meters are found whatever their case, blanks for hyphens") {
  Place place;
  furnish(place);
  must(place, "season Harvest LOADER");
  must(place, "parts --before HARVEST");
  must(place, "due --site Yard");
  must(place, "reading Loader 100 --meter Engine");
  CHECK(place.says("loader engine"));
  REQUIRE(place.run_words({"done", "Loader", "Engine oil"}) == 0);
  CHECK(place.says("loader: done engine-oil"));
  REQUIRE(place.run_words({"done", "Loader", "tyre@Front left", "engine oil/Check leaks"}) == 0);
  CHECK(place.says("done tyre@front-left"));
  CHECK(place.says("done engine-oil/check-leaks"));
  must(place, "lay-up PUMP");
  CHECK(place.says("pump"));
}

TEST_CASE("where a season is no machine, its parts are named too") {
  Place place;
  furnish(place);
  for (const char* command : {"parts harvest", "workload harvest", "due Harvest"}) {
    CHECK(place.run(command) == 64);
    CHECK(place.complains("whichever season harvest"));
    CHECK(place.complains("whichever parts --before harvest"));
  }
}

TEST_CASE("until when may be so far ahead; a day in other words is no use of a meter") {
  Place place;
  furnish(place);
  must(place, "reading loader 100");
  must(place, "put-off loader engine-oil --until +2w --dry-run --as-of 2026-06-15");
  CHECK(place.says("2026-06-29"));
  must(place, "lay-up pump --until +3m --dry-run --as-of 2026-06-15");
  CHECK(place.says("2026-09-15"));
  REQUIRE(place.run_words({"put-off", "loader", "engine-oil", "--until", "20 September"}) == 64);
  CHECK(place.complains("write a day as"));
  CHECK_FALSE(place.complains("20h"));
  CHECK(place.run("put-off loader engine-oil --until +20km") == 64);
  CHECK_FALSE(place.complains("+20h"));
  must(place, "put-off loader engine-oil --until +20h --dry-run");
}

TEST_CASE("odds below one are a share of one or of a hundred, and asked back") {
  Place place;
  furnish(place);
  CHECK(place.run("season harvest --odds 0.2") == 64);
  CHECK(place.complains("write 20% or 0.2%"));
  must(place, "season harvest --odds 0.2%");
  must(place, "season harvest --odds 20");
  must(place, "season harvest --odds 1");
}

TEST_CASE("pieces are whole, and the answer says the unit and the count before") {
  Place place;
  furnish(place);
  CHECK(place.run("count oil-filter 2,5") == 64);
  CHECK(place.complains("not whole"));
  must(place, "count oil-filter 3 --on 2026-06-01");
  CHECK(place.says("count oil-filter 3 pieces"));
  CHECK(place.says("It was not counted before."));
  must(place, "count oil-filter 1");
  CHECK(place.says("count oil-filter 1 piece,"));
  CHECK(place.says("Counted before: 3 pieces on 2026-06-01."));
  must(place, "count oil 2,5");
  CHECK(place.says("count oil 2.5 L"));
}
