// A machine with two meters: which of them a value is of, and what is not known where only one was read.
#include <doctest/doctest.h>

#include <algorithm>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "unit/cli/asking.h"

using cli_test::must;
using cli_test::Place;

namespace {

void furnish(Place& place) {
  place.write("fleet.yaml",
              "fleet: Test\nmachines:\n  combine: {schedule: combine, in-service: {on: 2017-07-14, at: 0}}\n");
  place.write("schedules/combine.yaml",
              "schedule: combine\nmeters: {engine: {unit: h}, separator: {unit: h}}\ntasks:\n"
              "  engine-oil: {do: Oil, every: {hours: 250}}\n"
              "  knife: {do: Knife, every: {usage: {separator: 160}}}\n"
              "  belts: {do: Belts, every: {usage: {separator: 300}}}\n");
  must(place, "new .");
  must(place, "reading combine 2078.2 --on 2026-05-06");
  must(place, "reading combine 1561.9 --meter separator --on 2026-05-06");
}

// Whether the one is said, and the other only after it.
bool comes_before(const std::string& text, const std::string& one, const std::string& other) {
  return text.find(one) != std::string::npos && text.find(one) < text.find(other);
}

}  // namespace

TEST_CASE("a value that another meter of the machine may show is that one's first of all") {
  Place place;
  furnish(place);
  CHECK(place.run("reading combine 1580") == 65);
  CHECK(comes_before(place.err, "--meter separator", "meter-change"));
  CHECK(place.run("reading combine 900") == 65);  // too low for either
  CHECK_FALSE(place.complains("--meter separator"));
  CHECK(place.run("reading combine 1700 --meter engine --on 2026-05-08") == 65);  // the separator never ran so long
  CHECK_FALSE(place.complains("--meter separator"));
}

TEST_CASE("a value that is stored and hard to believe may be another meter's, too") {
  Place place;
  furnish(place);
  must(place, "reading combine 1555 --meter separator --on 2026-01-01");
  must(place, "reading combine 2080 --meter separator --dry-run");
  REQUIRE(place.says("combine separator: 2080.0 h on 2026-06-15 is hard to believe"));
  CHECK(place.says("If it is what meter `engine` shows: the same with --meter engine"));
  must(place, "reading combine 2080 --meter separator");
  CHECK(place.says("If it is what meter `engine` shows: take this back, then the same with --meter engine"));
  must(place, "undo");
  must(place, "reading combine 2070 --meter separator");  // the engine is past that
  REQUIRE(place.says("is hard to believe"));
  CHECK_FALSE(place.says("`engine`"));
  must(place, "undo");
  must(place, "done combine knife --at 2080 --meter separator");  // a service that does not count by the engine
  REQUIRE(place.says("is hard to believe"));
  CHECK_FALSE(place.says("`engine`"));
}

TEST_CASE("of a service it is that one's only where the service counts by it") {
  Place place;
  furnish(place);
  CHECK(place.run("done combine knife belts --at 1570") == 65);
  CHECK(comes_before(place.err, "add --meter separator", "meter-change"));
  CHECK(place.run("done combine knife engine-oil --at 1570") == 65);
  CHECK(comes_before(place.err, "write down knife by itself, with --meter separator", "meter-change"));
  CHECK(place.run("done combine engine-oil --at 1570") == 65);
  CHECK_FALSE(place.complains("--meter separator"));
}

TEST_CASE("a service told with the other meter's value says that its own is not known") {
  Place place;
  furnish(place);
  must(place, "done combine knife --at 2100");
  CHECK(
      place.says("knife: what meter `separator` showed on 2026-06-15 is not known, so use counts from the 1561.9 h "
                 "of 2026-05-06."));
  CHECK(place.says("If you read it: whichever reading combine VALUE --meter separator --on 2026-06-15"));
  CHECK(place.says("at 1721.9 h (separator)"));
  must(place, "reading combine 1590 --meter separator --on 2026-06-15");
  must(place, "due --all");
  CHECK(place.says("160.0 h left of 160 h (separator)"));  // the reading of that day gives the service its value
  must(place, "done combine belts --at 1590 --meter separator");
  CHECK_FALSE(place.says("is not known"));
}

TEST_CASE("a delay by use names its meter, and what that will show, wherever it is told") {
  Place place;
  furnish(place);
  must(place, "meter-change combine --meter separator --last 1561.9 --first 0 --on 2026-05-07");
  must(place, "reading combine 20 --meter separator --on 2026-05-20");
  must(place, "put-off combine knife --until +100h --by Ann --note x");
  CHECK(place.says("put-off knife until 120.0 h on the separator meter, by Ann"));
  must(place, "due combine --all");
  CHECK(place.says("put off until 120.0 h on the separator meter (use 1681.9 h) by Ann: x"));
  must(place, "why combine knife");
  CHECK(place.says("put-off knife until 120.0 h on the separator meter, by Ann"));
  must(place, "history combine");
  CHECK(place.says("until 120.0 h"));
  must(place, "due combine --all --format json");
  CHECK(place.says("\"meter\": \"separator\",\n    \"by\": \"Ann\""));
  must(place, "reading combine 120 --meter separator");
  must(place, "due combine --all");
  CHECK_FALSE(place.says("put off until"));
}

TEST_CASE("CSV says of which meter the use of a point is, and of which the value at its fitting") {
  Place place;
  furnish(place);
  place.write("schedules/combine.yaml",
              "schedule: combine\nmeters: {engine: {unit: h}, separator: {unit: h}}\ntasks:\n"
              "  oil: {do: Oil, every: {hours: 250, usage: {separator: 100}}}\n"
              "  knife: {do: Knife, every: {usage: {separator: 160}}}\n"
              "  paint: {do: Paint, every: {years: 30}}\n");
  must(place, "done combine oil knife --on 2026-05-06");
  must(place, "reading combine 2180 --on 2026-06-10");
  must(place, "reading combine 1661.9 --meter separator --on 2026-06-10");
  REQUIRE(place.run("due --format csv --all") == 0);
  std::istringstream lines(place.out);
  std::string line;
  const auto cells = [&] {
    std::getline(lines, line);
    if (line.ends_with('\r')) line.pop_back();
    std::vector<std::string> all;
    std::string cell;
    bool quoted = false;
    for (const char c : line + ',') {
      if (c == '"') quoted = !quoted;
      if (c == ',' && !quoted) {
        all.push_back(std::exchange(cell, ""));
      } else {
        cell += c;
      }
    }
    return all;
  };
  const auto columns = cells();
  const auto column = [&](const char* name) {
    return static_cast<std::size_t>(std::find(columns.begin(), columns.end(), name) - columns.begin());
  };
  REQUIRE(column("fitted_meter") < columns.size());
  std::string told;
  for (auto row = cells(); row.size() == columns.size(); row = cells()) {
    for (const char* name : {"task", "usage_meter", "usage_used", "fitted_meter", "fitted_at"}) {
      told += row[column(name)] + ' ';
    }
    told += '\n';
  }
  // The separator rules, and the interval is written with the engine first.
  CHECK(told ==
        "oil separator 100 engine 2078.2 \n"
        "knife separator 100 separator 1561.9 \n"
        "paint   engine 0 \n");
}
