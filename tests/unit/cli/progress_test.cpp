// What is said on standard error while somebody waits.
#include <doctest/doctest.h>

#include <cstdint>
#include <string>

#include "terminal/progress_line.h"
#include "unit/cli/place.h"

using cli_test::Place;

namespace {

constexpr const char* take_away = "\r\033[K";

// A clock that goes on by so much at each look.
void let_time_pass(Place& place, std::int64_t milliseconds) {
  place.world.elapsed = [now = std::int64_t{0}, milliseconds]() mutable { return now += milliseconds; };
}

constexpr const char* some_facts =
    "kind,machine,on,at,task\n"
    "reading,loader,2026-01-10,400,\n"
    "service,loader,2026-01-10,400,engine-oil\n"
    "reading,loader,2026-03-10,480,\n";

}  // namespace

TEST_CASE("nothing is said within a second, then a few times a second, and the line is taken away") {
  Place place;
  std::int64_t now = 0;
  place.world.elapsed = [&now] { return now; };
  place.world.error_terminal = true;
  {
    cli::ProgressLine line(place.world);
    const auto at = [&](std::int64_t time, std::size_t done) {
      now = time;
      line.say("counting", done, 8);
    };
    at(0, 0);
    at(999, 1);
    CHECK(place.err.empty());
    at(1000, 2);
    CHECK(place.err == std::string(take_away) + "counting: 25 % ");
    at(1100, 3);
    at(1199, 4);
    at(1200, 5);
    CHECK(place.err == std::string(take_away) + "counting: 25 % " + take_away + "counting: 62 % ");
    line.say("counting", 0, 0);  // of nothing there is no share
    line.clear();
    CHECK(place.err.ends_with(std::string("62 % ") + take_away));
    line.clear();
    CHECK(place.err.ends_with(std::string("62 % ") + take_away));
    at(1300, 6);
  }
  CHECK(place.err.ends_with(std::string("75 % ") + take_away));  // who goes takes it away too
}

TEST_CASE("a long import says what it is at, and leaves nothing of that on the screen") {
  Place place;
  place.furnish();
  place.write("facts.csv", some_facts);
  place.world.error_terminal = true;
  let_time_pass(place, 2000);
  REQUIRE(place.run("import facts.csv --as-of 2026-04-01") == 0);
  for (const char* at : {"reading facts.csv: ", "storing: 0 %", "working out what is kept beside the facts: 0 %",
                         "stored; working out what it changes: 0 %", "stored; working out what it changes: 50 %"}) {
    CAPTURE(at);
    CHECK(place.complains(at));
  }
  CHECK(place.err.ends_with(take_away));
  REQUIRE(place.run("import facts.csv --as-of 2026-04-01 --dry-run") == 0);
  CHECK(place.complains("working out what it would change: 0 %"));
  place.variables["TERM"] = "dumb";
  REQUIRE(place.run("import facts.csv --as-of 2026-04-01 --dry-run") == 0);
  CHECK(place.err.empty());
}

TEST_CASE("a long question says how far it is, on a terminal alone") {
  Place place;
  place.furnish();
  place.write("facts.csv", some_facts);
  REQUIRE(place.run("import facts.csv --as-of 2026-04-01") == 0);
  let_time_pass(place, 2000);
  for (const std::string command : {"due", "due --overdue", "find-out", "export", "forecast"}) {
    CAPTURE(command);
    place.world.error_terminal = false;
    const int status = place.run(command);
    REQUIRE(status == 0);
    CHECK(place.err.empty());
    const std::string said = place.out;
    place.world.error_terminal = true;
    REQUIRE(place.run(command) == status);
    CHECK(place.complains(" % "));
    CHECK(place.err.ends_with(take_away));
    CHECK(place.out == said);
  }
}
