// Values that are hard to believe, at entry: how to say that one is right, and what to do where it is in the way.
#include <doctest/doctest.h>

#include "unit/cli/asking.h"

using cli_test::must;
using cli_test::Place;

namespace {

// 10 h a week since January, then 200 h at once.
void doubt(Place& place) {
  place.furnish();
  for (int week = 0; week < 22; ++week) {
    const auto day = service::day_of(2026, 1, 5) + std::chrono::days{7 * week};
    must(place, "reading loader " + std::to_string(1000 + 10 * week + week % 3) + ".5 --on " + service::to_text(day));
  }
  must(place, "reading loader 1420 --on 2026-06-14");
}

std::string strike_in(const std::string& text) {
  const std::string words = "whichever strike ";
  const auto at = text.find(words);
  REQUIRE(at != std::string::npos);
  const auto end = text.find_first_of("\n ;,.", at + words.size());
  return "strike " + text.substr(at + words.size(), end - at - words.size());
}

}  // namespace

TEST_CASE("a doubt prints the command that ends it, and the command ends it") {
  Place place;
  doubt(place);
  const std::string command = "reading loader 1420 --on 2026-06-14 --sure";
  CHECK(place.says("is hard to believe"));
  CHECK(place.says("If it is right: whichever " + command));
  REQUIRE(place.run("check") == 0);
  CHECK(place.says("if it is right: whichever " + command));
  must(place, command);
  CHECK_FALSE(place.says("hard to believe"));
  must(place, "check");
  CHECK_FALSE(place.says("hard to believe"));
}

TEST_CASE("a doubt that stands on is said when the meter is read again") {
  Place place;
  doubt(place);
  must(place, "reading loader 1420");
  CHECK(place.says("Still in doubt: loader engine: 1420.0 h on 2026-06-14 is hard to believe"));
  CHECK(place.says("whichever reading loader 1420 --on 2026-06-14 --sure"));
  must(place, "reading loader 1420 --sure");  // of a later day: the meter shows that much
  CHECK_FALSE(place.says("Still in doubt"));
  CHECK(place.says("No more in doubt"));
}

TEST_CASE("a service without a value says that its use counts from a doubtful one") {
  Place place;
  doubt(place);
  must(place, "done loader engine-oil --by M.T.");
  CHECK(place.says("Still in doubt: loader engine: 1420.0 h on 2026-06-14 is hard to believe"));
  CHECK(place.says("whichever reading loader 1420 --on 2026-06-14 --sure"));
  must(place, "done loader engine-oil --on 2026-02-01");  // before it
  CHECK_FALSE(place.says("in doubt"));
  must(place, "done loader hoses");  // which counts no use
  CHECK_FALSE(place.says("in doubt"));
}

TEST_CASE("a doubt that comes with an older service is said to be new") {
  Place place;
  place.furnish();
  must(place, "reading loader 100 --on 2026-05-01");
  must(place, "reading loader 600 --on 2026-06-01");
  must(place, "done loader hoses --at 60 --on 2025-10-01");
  REQUIRE(place.says("loader engine: 600.0 h on 2026-06-01 is hard to believe"));
  CHECK(place.says("New doubt of an older value, by what is known now: loader"));
  must(place, "reading loader 600");
  CHECK(place.says("Still in doubt: loader"));
}

TEST_CASE("a dry run names no command about a value that is not stored") {
  Place place;
  doubt(place);
  must(place, "undo");
  must(place, "reading loader 1420 --on 2026-06-14 --dry-run");
  CHECK(place.says("If it is right, say so with --sure."));
  CHECK_FALSE(place.says("whichever reading"));
}

TEST_CASE("a right reading below a doubtful one is led to the doubtful one first") {
  Place place;
  doubt(place);
  CHECK(place.run("reading loader 1225") == 65);
  const auto at = place.err.find("1420 h of 2026-06-14 is in doubt: whichever strike ");
  REQUIRE(at != std::string::npos);
  CHECK(at < place.err.find("the value is wrong"));
  must(place, strike_in(place.err));
  must(place, "reading loader 1225");
}

TEST_CASE("an older value above one of the book names that one, with its day and the way to strike it") {
  Place place;
  place.furnish();
  must(place, "reading loader 500 --on 2026-06-09");
  CHECK(place.run("reading loader 600 --on 2026-06-01") == 65);
  CHECK(place.complains("the value or its day is wrong: mend it; 500 h of 2026-06-09 is wrong: whichever strike "));
  must(place, strike_in(place.err));
  must(place, "reading loader 600 --on 2026-06-01");
}

TEST_CASE("below a value read without its tenths it is the value before that holds, with its own day and id") {
  Place place;
  place.furnish();
  must(place, "reading loader 500.7 --on 2026-06-09");
  const std::string line = "reading loader 500 --on 2026-06-14";
  must(place, line);
  CHECK(place.run("reading loader 500.2") == 65);
  CHECK(place.complains("which is lower than 500.7 h on 2026-06-09"));
  must(place, strike_in(place.err));
  CHECK(place.says("struck: loader: reading engine 500.7 h of 2026-06-09"));
  must(place, "reading loader 500.2");
}

TEST_CASE("that a doubt has ended is said, by whatever ended it") {
  const std::string words = "No more in doubt: loader engine: 1420.0 h of 2026-06-14\n";
  for (const char* const line :
       {"reading loader 1420 --on 2026-06-14 --sure", "reading loader 1430", "done loader hoses --at 1430"}) {
    CAPTURE(line);
    Place place;
    doubt(place);
    must(place, line);
    CHECK(place.says(words));
    must(place, "due --overdue");
    CHECK_FALSE(place.says("hard to believe"));
  }
  Place place;
  doubt(place);
  must(place, "reading loader 1420");  // equal: it ends nothing
  CHECK_FALSE(place.says("No more in doubt"));
  must(place, "reading loader 1430 --format json");
  const auto ended = nlohmann::json::parse(place.out)["ended_doubts"];
  REQUIRE(ended.size() == 1);
  CHECK(ended[0]["machine"] == "loader");
  CHECK(ended[0]["meter"] == "engine");
  CHECK(ended[0]["on"] == "2026-06-14");
  CHECK(ended[0]["shown"] == 1420.0);
  CHECK(ended[0]["unit"] == "h");
  must(place, "reading loader 1431");
  CHECK_FALSE(place.says("No more in doubt"));  // it had ended before
}

TEST_CASE("messages say it too, and a struck value is not said to be right") {
  Place place;
  doubt(place);
  place.write("messages.txt", "loader 1430\n");
  must(place, "import --messages messages.txt");
  CHECK(place.says("No more in doubt: loader engine: 1420.0 h of 2026-06-14"));
  must(place, "undo");
  CHECK(place.says("New doubt of an older value, by what is known now: loader engine: 1420.0 h on 2026-06-14"));
  must(place, "sheet --readings");
  must(place, strike_in(Place::unfolded(place.out)));
  CHECK_FALSE(place.says("No more in doubt"));
}

TEST_CASE("at a doubtful value paper says what to do where the meter shows less") {
  Place place;
  doubt(place);
  for (const char* const line : {"sheet loader --within 24m", "sheet loader --within 24m --format html",
                                 "sheet --readings", "sheet --readings --format html", "report --format html"}) {
    CAPTURE(line);
    must(place, line);
    const std::string text = Place::unfolded(place.out);
    const std::string words = "If it shows less, strike that value before you type in what it shows: whichever strike ";
    const auto at = text.find(words);
    REQUIRE(at != std::string::npos);
    CHECK(text.find("is hard to believe") < at);
    CHECK(text.find(words, at + 1) == std::string::npos);  // once
  }
  must(place, "sheet --readings");
  must(place, strike_in(Place::unfolded(place.out)));
  must(place, "reading loader 1225");
  must(place, "sheet --readings");
  CHECK_FALSE(place.says("If it shows less"));
}
