// Decisions and counts: put-off, lay-up, out-of-use, back, count; and what is to be found out.
#include <doctest/doctest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <string>

#include "unit/cli/asking.h"

namespace {

using cli_test::must;
using cli_test::Place;

// The loader's oil is overdue by hours, its hoses by years if nothing is recorded; the pump is well.
void make_overdue(Place& place) {
  place.furnish();
  REQUIRE(place.run("done loader engine-oil --at 100 --on 2024-06-01 --checked") == 0);
  REQUIRE(place.run("reading loader 500 --on 2026-06-01") == 0);
  REQUIRE(place.run("reading pump 10 --on 2026-06-01") == 0);
}

nlohmann::json point(Place& place, const std::string& machine, const std::string& task) {
  REQUIRE(place.run("due --all --format json") == 0);
  const auto list = nlohmann::json::parse(place.out);
  for (const auto& each : list["points"]) {
    if (each["machine"] == machine && each["task"] == task) return each;
  }
  return nullptr;
}

std::string heading(Place& place, const std::string& task) {
  REQUIRE(place.run("due --overdue --format json") == 0);
  const auto list = nlohmann::json::parse(place.out);
  for (const auto& each : list["points"]) {
    if (each["task"] == task) return each["heading"];
  }
  return "none";
}

}  // namespace

TEST_CASE("a task put off stays overdue, under its own heading, until its day") {
  Place place;
  make_overdue(place);
  CHECK(heading(place, "engine-oil") == "overdue");
  REQUIRE(place.run("put-off loader engine-oil --until 2026-07-01 --by Ann --note hay") == 0);
  CHECK(place.says("from `Overdue` to `Put off`"));
  CHECK(heading(place, "engine-oil") == "put-off");
  const auto put_off = point(place, "loader", "engine-oil");
  CHECK(put_off["standing"] == "overdue");
  CHECK(put_off["put_off"]["by"] == "Ann");
  CHECK(put_off["put_off"]["until"] == "2026-07-01");
  REQUIRE(place.run("due --overdue --as-of 2026-07-01 --format json") == 0);
  CHECK(place.says("\"heading\": \"overdue\""));
  REQUIRE(place.run("done loader engine-oil --at 501") == 0);
  CHECK(heading(place, "engine-oil") == "none");
}

TEST_CASE("a task can be put off by use: more of it, or what the meter shows") {
  Place place;
  make_overdue(place);
  REQUIRE(place.run("put-off loader engine-oil --until +50h --note hay") == 0);
  CHECK(point(place, "loader", "engine-oil")["put_off"]["at"] == 550.0);
  REQUIRE(place.run("meter-change loader --last 510 --first 0") == 0);
  REQUIRE(place.run("put-off loader engine-oil --until 20h --until 2026-08-01 --note hay") == 0);
  const auto put_off = point(place, "loader", "engine-oil")["put_off"];
  CHECK(put_off["at"] == 530.0);  // usage: the new meter began at 510
  CHECK(put_off["until"] == "2026-08-01");
  REQUIRE(place.run("reading loader 20") == 0);
  CHECK(point(place, "loader", "engine-oil")["put_off"].is_null());
}

TEST_CASE("a delay whose use is past by estimate says so in every list, and so does a forecast") {
  Place place;
  make_overdue(place);
  must(place, "put-off loader engine-oil --until +50h --by Ann --note hay");
  const std::string over = "by Ann: hay; over by estimate: read the meter";
  must(place, "due --overdue");
  CHECK_FALSE(place.says("over by estimate"));
  for (const char* ask :
       {"due loader", "due --overdue", "due --format md", "why loader engine-oil", "forecast loader"}) {
    CAPTURE(ask);
    must(place, ask + std::string(" --as-of 2027-06-15"));
    CHECK(place.says(over));
  }
  must(place, "forecast --as-of 2027-06-15 --format json");
  const auto points = nlohmann::json::parse(place.out)["points"];
  const auto oil = std::find_if(points.begin(), points.end(), [](const auto& each) {
    return each["machine"] == "loader" && each["task"] == "engine-oil";
  });
  REQUIRE((oil != points.end()));
  CHECK((*oil)["put_off"]["by"] == "Ann");
  CHECK((*oil)["put_off"]["by_estimate"] == true);
  CHECK((*oil)["by_estimate"] == false);  // it is overdue by facts
  for (const char* list : {"forecast", "due"}) {
    must(place, list + std::string(" --as-of 2027-06-15 --format csv"));
    CHECK(place.says("put_off_by_estimate"));
    CHECK(place.says(",Ann,hay,"));
  }
}

TEST_CASE("who puts off is known, and a missing reason is said") {
  Place place;
  make_overdue(place);
  place.variables["USER"] = "ben";
  REQUIRE(place.run("put-off loader engine-oil --until 2026-07-01") == 0);
  CHECK(place.says("No reason is kept"));
  CHECK(point(place, "loader", "engine-oil")["put_off"]["by"] == "ben");
}

TEST_CASE("what cannot be a delay is refused, and says what can") {
  Place place;
  make_overdue(place);
  const std::pair<const char*, int> cases[] = {
      {"put-off loader engine-oil", 64},                                        // until when?
      {"put-off loader engine-oil --until soon", 64},                           //
      {"put-off loader engine-oil --until +50km", 64},                          // the meter counts hours
      {"put-off loader engine-oil --until 400h", 64},                           // it shows 500 already
      {"put-off loader engine-oil --until 2026-06-15", 65},                     // today is no delay
      {"put-off loader engine-oil --until +5h --until +6h", 64},                //
      {"put-off loader engine-oil --until 2026-07-01 --until 2026-07-02", 64},  //
      {"put-off loader engine-oli --until 2026-07-01", 64},                     //
      {"put-off loader engine-oil --until 2026-02-30", 64},                     //
  };
  for (const auto& each : cases) {
    CAPTURE(each.first);
    CHECK(place.run(each.first) == each.second);
    CHECK_FALSE(place.err.empty());
    CHECK(place.complains("hint:"));
  }
  CHECK(heading(place, "engine-oil") == "overdue");
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

TEST_CASE("a safety task is never put off") {
  Place place;
  place.furnish();
  place.write(
      "schedules/pump.yaml",
      "schedule: pump\nmeters: {engine: {unit: h}}\ntasks:\n  guard: {do: Look at the guard, every: {months: 1}, "
      "safety: true}\n");
  CHECK(place.run("put-off pump guard --until 2026-07-01") == 65);
  CHECK(place.complains("safety task"));
  CHECK(place.complains("whichever out-of-use pump"));
}

TEST_CASE("whoever brings a machine back is told what never waits, and whoever works on one out of use that it is") {
  Place place;
  place.furnish();
  place.write("schedules/pump.yaml",
              "schedule: pump\nmeters: {engine: {unit: h}}\ntasks:\n"
              "  guard: {do: Look at the guard, every: {months: 1}, safety: true, cautions: [shafts-and-belts]}\n"
              "  exam: {do: Examine, every: {months: 6}, by-whom: competent-person}\n"
              "  gland: {do: Repack, every: {months: 1}}\n");
  REQUIRE(place.run("out-of-use pump --note guard_off") == 0);
  CHECK_FALSE(place.says("Out of use: do not run: pump"));
  REQUIRE(place.run("done pump gland") == 0);
  CHECK(place.out.starts_with("Out of use: do not run: pump: out of use since 2026-06-15: guard_off\n"));
  REQUIRE(place.run("back pump --dry-run --format json") == 0);
  CHECK(place.says("\"before_work\": {\n  \"points\": [\n   {\n    \"machine\": \"pump\",\n    \"task\": \"guard\""));
  REQUIRE(place.run("done pump guard") == 0);
  REQUIRE(place.run("saw pump knocking") == 0);
  REQUIRE(place.run("back pump") == 0);
  CHECK(place.says("See to these before it works:\n  exam: overdue; by a competent person; "));
  CHECK(place.says("\n  knocking, seen 2026-06-15\n"));
  CHECK_FALSE(place.says("guard: "));
}

TEST_CASE("whoever brings a machine back is told the listed signs that nobody has found good, of any task") {
  Place place;
  place.furnish();
  must(place, "saw loader leak");
  must(place, "back loader --dry-run");
  CHECK(place.says("See to these before it works:\n  hoses: due; leak seen 2026-06-15"));
  must(place, "back loader --dry-run --format json");
  const auto before = nlohmann::json::parse(place.out)["before_work"];
  REQUIRE(before["signs"].size() == 1);
  CHECK(before["signs"][0]["task"] == "hoses");
  CHECK(before["points"].empty());
  must(place, "looked loader leak --note dry");
  must(place, "back loader --dry-run");
  CHECK_FALSE(place.says("leak"));
}

TEST_CASE("a machine laid up is asked for no reading and mailed under its own heading") {
  Place place;
  make_overdue(place);
  REQUIRE(place.run("lay-up loader --until 2026-09-01 --note shed") == 0);
  CHECK(place.says("from `Overdue` to `Laid up`"));
  CHECK(heading(place, "engine-oil") == "laid-up");
  REQUIRE(place.run("due --overdue --as-of 2026-08-31") == 0);
  CHECK_FALSE(place.says("no reading for 91 days"));
  REQUIRE(place.run("due --overdue --as-of 2026-09-01") == 0);  // the planned day has come
  CHECK(place.says("no reading for 92 days"));
  REQUIRE(place.run("back loader") == 0);
  CHECK(place.says("from `Laid up` to `Overdue`"));
  CHECK(heading(place, "engine-oil") == "overdue");
  CHECK(place.run("back loader") == 0);
  CHECK(place.says("loader was in use already on that day; was another machine meant?"));
}

TEST_CASE("out of use, back and out of use again on one day leave the machine out of use") {
  Place place;
  make_overdue(place);
  for (const char* const typed :
       {"out-of-use loader --note brakes", "back loader", "out-of-use loader --note brakes"}) {
    REQUIRE(place.run(typed) == 0);
  }
  REQUIRE(place.run("due --overdue") == 0);
  CHECK(place.says("Out of use: do not run"));
}

TEST_CASE("a machine out of use comes first, until it is back") {
  Place place;
  make_overdue(place);
  REQUIRE(place.run("out-of-use pump --note guard_off") == 0);
  CHECK(place.run("out-of-use pump") == 0);
  CHECK(place.says("out of use already since"));
  REQUIRE(place.run("due --overdue") == 0);
  const auto out = place.out.find("Out of use: do not run");
  REQUIRE(out != std::string::npos);
  CHECK(out < place.out.find("Overdue\n"));
  CHECK(place.run("due --machine pump --exit-code") == 1);
  REQUIRE(place.run("lay-up pump") == 0);  // both at once: it stays out of use
  REQUIRE(place.run("due --overdue") == 0);
  CHECK(place.says("guard_off; laid up since 2026-06-15"));
  REQUIRE(place.run("back pump") == 0);
  REQUIRE(place.run("due --overdue") == 0);
  CHECK_FALSE(place.says("Out of use"));
}

TEST_CASE("laying up a machine that is out of use does not promise that it works again") {
  Place place;
  place.furnish();
  REQUIRE(place.run("out-of-use pump --note guard_off") == 0);
  REQUIRE(place.run("lay-up pump --until 2026-09-01") == 0);
  CHECK(place.says("stays so, whatever the day"));
  CHECK_FALSE(place.says("counts as in use"));
  REQUIRE(place.run("history pump") == 0);
  CHECK(place.says("guard_off; laid up since 2026-06-15 until 2026-09-01"));
}

TEST_CASE("a count is of a part that the fleet lists") {
  Place place;
  place.furnish();
  place.write("fleet.yaml", std::string(cli_test::small_fleet) + "parts:\n  filter: {what: Oil filter, unit: piece}\n");
  REQUIRE(place.run("count filter 4") == 0);
  CHECK(place.says("count filter 4"));
  CHECK_FALSE(place.says("due list"));
  CHECK(place.run("count filtre 4") == 64);
  CHECK(place.complains("did you mean `filter`?"));
  CHECK(place.run("count filter -1") == 65);
  CHECK(place.run("count filter four") == 64);
}

TEST_CASE("what is to be found out goes out as blanks and comes back as facts") {
  Place place;
  place.furnish();
  place.write("fleet.yaml", std::string(cli_test::small_fleet) + "  old:\n    name: Old one\n    schedule: tractor\n");
  REQUIRE(place.run("due") == 0);
  CHECK(place.says("whichever find-out old"));
  REQUIRE(place.run("find-out old") == 0);
  CHECK(place.says("follow the operator's manual"));
  CHECK(place.says("put in service new"));
  CHECK(place.says("tyre@front-left"));
  REQUIRE(place.run("find-out old --format csv") == 0);
  const std::string blanks = place.out;
  place.write("blanks.csv", blanks);
  REQUIRE(place.run("import blanks.csv") == 0);
  CHECK(place.says("left blank"));
  CHECK(place.says("0 facts new"));

  // One year scrawled on a filter.
  std::string filled = blanks;
  const std::string row = "service,old,,engine,,engine-oil,";
  const auto at = filled.find(row);
  REQUIRE(at != std::string::npos);
  filled.replace(at, row.size(), "service,old,2019,engine,,engine-oil,");
  place.write("filled.csv", filled);
  REQUIRE(place.run("import filled.csv") == 0);
  CHECK(place.says("1 fact new"));
  CHECK(point(place, "old", "engine-oil")["standing"] == "overdue");
  REQUIRE(place.run("find-out loader pump --format json") == 0);
  CHECK(nlohmann::json::parse(place.out)["machines"].size() == 1);  // the pump has nothing that counts hours
  REQUIRE(place.run("reading loader 100") == 0);
  REQUIRE(place.run("reading pump 10") == 0);
  REQUIRE(place.run("find-out loader pump") == 0);
  CHECK(place.says("Nothing is to be found out: of 2 machines every point has its record."));
}
