// That nobody may run a machine is said by whatever is told of it, by its sheet and by the list of meters to read.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "unit/cli/asking.h"

using cli_test::json_of;
using cli_test::must;
using cli_test::Place;

namespace {

void furnish_guarded(Place& place) {
  place.furnish();
  place.write("schedules/tractor.yaml",
              "schedule: tractor\nmeters: {engine: {unit: h}}\ntasks:\n"
              "  engine-oil: {do: Change the oil, every: {hours: 250}, fluids: {oil: 8 L}, cautions: [hot-fluid], "
              "follow-up: {look: {do: Look for leaks, within: {hours: 1}}}}\n"
              "  hoses: {do: Renew worn hoses, every: {years: 6, signs: [leak]}, parts: {hose: 1}, safety: true}\n"
              "  fork: {do: Measure the fork, every: {years: 6, measured: {wear: {above: 10, unit: mm}}}, "
              "positions: [left, right], safety: true}\n"
              "  brakes: {do: Try the brakes, every: {months: 12, signs: [pull]}, safety: true}\n"
              "  exam: {do: Examine, every: {months: 18}, by-whom: competent-person}\n");
  must(place, "done loader brakes --on 2026-06-01");
  must(place, "done loader exam --by somebody --on 2026-06-01");
}

}  // namespace

TEST_CASE("what is told of a machine says that nobody may run it now, and what is told later says it too") {
  Place place;
  furnish_guarded(place);
  must(place, "saw loader leak");
  CHECK(place.says("Do not run loader before this is mended: hoses, leak seen 2026-06-15."));
  CHECK_FALSE(place.says("Where it may not run"));
  must(place, "done loader engine-oil --at 100");
  CHECK(place.says("Do not run loader before this is mended: hoses, leak seen 2026-06-15."));
  CHECK(place.says("engine-oil/look: once what forbids to run it is mended: Look for leaks"));
  const auto told = json_of(place, "done loader engine-oil --at 101 --dry-run");
  REQUIRE(told["not_to_run"].size() == 1);
  CHECK(told["not_to_run"][0]["points"][0]["task"] == "hoses");
  CHECK(told["checks_owed"][0]["once_mended"] == true);
  must(place, "looked loader leak --by ann --found failed --note cut");
  CHECK(place.says("Do not run loader before this is mended"));
  must(place, "saw loader wear=10 --position left");
  CHECK(
      place.says("hoses, leak seen 2026-06-15; looked at 2026-06-15, found failed: cut; fork@left, wear 10 mm, limit "
                 "10 mm."));
  must(place, "done loader hoses fork --on 2026-06-15");
  CHECK_FALSE(place.says("Do not run"));
}

TEST_CASE("what follows work on a machine out of use follows when it is back") {
  Place place;
  furnish_guarded(place);
  must(place, "out-of-use loader --note bent --on 2026-06-10");
  must(place, "done loader engine-oil --at 100");
  CHECK(place.says("engine-oil/look: after it is back: Look for leaks"));
  CHECK(json_of(place, "done loader engine-oil --at 100 --dry-run")["checks_owed"][0]["once_back"] == true);
}

TEST_CASE("whoever brings a machine back is told at each line what forbids to run it, and to do just these") {
  Place place;
  furnish_guarded(place);
  must(place, "back loader --dry-run");
  CHECK(place.says("Do what is due before it works"));
  must(place, "saw loader wear=11 --position left");
  must(place, "back loader --dry-run");
  CHECK(place.says("fork@left: due; safety; do not run it before this is mended; wear 11 mm, limit 10 mm") !=
        place.says("fork@left: overdue; safety; do not run it before this is mended; wear 11 mm, limit 10 mm"));
  CHECK(place.says("Do these before it works"));
  CHECK(json_of(place, "back loader --dry-run")["before_work"]["points"][0]["do_not_run"] == true);
}

TEST_CASE("a value that was found worn and not renewed is to be measured again") {
  Place place;
  furnish_guarded(place);
  must(place, "saw loader wear=12 --position left --on 2026-06-14");
  must(place, "sheet loader");
  CHECK(
      place.says("Renewed or put right, tried, and good now, and what it measures now (not yet: leave the first line "
                 "out, and nobody runs it):"));
  CHECK(
      place.says("whichever done loader fork@left --at VALUE --by WHO --on DAY whichever saw loader wear=____ "
                 "--position left --on DAY"));
  must(place, "done loader fork@left --found worn --dry-run");
  CHECK(place.says("it was found so, not renewed. A service ends what was measured before it: measure again"));
  CHECK_FALSE(place.says("renewed or put right"));
  CHECK(json_of(place, "done loader fork@left --found worn --dry-run")["values_ended"][0]["found_bad"] == true);
  must(place, "done loader fork@left --dry-run");
  CHECK(place.says("It counts no more, for this says that it was renewed or put right."));
}

TEST_CASE("a check of which a sign was seen is typed in when that is put right") {
  Place place;
  furnish_guarded(place);
  must(place, "saw loader pull --on 2026-06-14");
  must(place, "sheet loader");
  CHECK(place.says(
      "Renewed or put right, tried, and good now (not yet: leave it out, and nobody runs it): whichever done "
      "loader brakes --at VALUE --by WHO --on DAY"));
}

TEST_CASE("the head of a sheet names what is overdue and never waits, the list of meters what nobody may run") {
  Place place;
  furnish_guarded(place);
  must(place, "sheet loader --as-of 2027-12-20");
  CHECK(place.says("!! Overdue, for safety: brakes, 202 days over 12 months\n"));
  CHECK(place.says("!! Examination overdue: exam, 19 days over 18 months; ask before it works\n"));
  must(place, "sheet --readings");
  CHECK_FALSE(place.says("do not run"));
  must(place, "saw loader leak");
  must(place, "sheet --readings");
  CHECK(place.says("do not run it before this is mended: hoses, leak seen 2026-06-15"));
  CHECK(place.says("\nDo not run before this is mended\n   loader  hoses, leak seen 2026-06-15\n"));
  must(place, "sheet --readings --format html");
  CHECK(place.says("do not run it before this is mended: hoses, leak seen 2026-06-15"));
  CHECK(place.says("Do not run before this is mended: loader: hoses, leak seen 2026-06-15"));
  const auto machine = json_of(place, "sheet --readings")["machines"][0];
  CHECK(machine["do_not_run"] == true);
  CHECK(machine["not_to_run"]["points"][0]["task"] == "hoses");
}

TEST_CASE("every row of a sheet says in data whether anybody may run the machine") {
  Place place;
  furnish_guarded(place);
  must(place, "done loader engine-oil --at 100 --on 2026-06-10");
  must(place, "saw loader leak");
  const auto sheet = json_of(place, "sheet loader --within 24m")["sheets"][0];
  REQUIRE(sheet["to_mend"].size() == 1);
  const auto& mend = sheet["to_mend"][0];
  CHECK(mend["machine"] == "loader");
  CHECK(mend["task"] == "hoses");
  CHECK(mend["sign"] == "leak");
  CHECK(mend["on"] == "2026-06-15");
  CHECK(mend["sightings"].size() == 1);
  CHECK(mend["found"].is_null());
  CHECK(mend["name"].is_null());
  CHECK(sheet["tasks"].size() > 1);
  for (const auto& task : sheet["tasks"]) {
    for (const auto& point : task["points"]) CHECK(point["do_not_run"] == true);
  }
}

TEST_CASE("work that waits for a value of the meter is told by that value in every place") {
  Place place;
  furnish_guarded(place);
  must(place, "reading loader 300 --on 2026-05-01");
  must(place, "reading loader 350 --on 2026-06-14");
  must(place, "put-off loader engine-oil --until +2h --note parts --by ann");
  must(place, "sheet loader --within 6w --as-of 2026-06-20");
  for (const char* before : {"* from ", "From ", "engine-oil from ", "not before ", "Put off, so not before "}) {
    CAPTURE(before);
    CHECK(place.says(std::string(before) + "352.0 h on the meter (over by estimate: read it first)"));
  }
  const auto sheet = json_of(place, "sheet loader --within 6w --as-of 2026-06-20")["sheets"][0];
  CHECK(sheet["later_work"][0]["from"] == "2026-06-20");
  CHECK(sheet["later_work"][0]["from_shown"] == 352.0);
  CHECK(sheet["parts"][0]["from"] == "2026-06-20");
}
