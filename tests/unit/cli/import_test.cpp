// Files from spreadsheets, bad rows left out, and what was understood.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "unit/cli/asking.h"

namespace {

using cli_test::book;
using cli_test::Place;
using cli_test::utf16;

// The facts without ids and times: what a file said.
std::string content(Place& place) {
  REQUIRE(place.run("export --format jsonl") == 0);
  std::string text;
  std::istringstream lines(place.out);
  for (std::string line; std::getline(lines, line);) {
    auto fact = nlohmann::json::parse(line);
    for (const char* key : {"id", "entered", "entered-by", "origin", "batch"}) fact.erase(key);
    text += fact.dump() + "\n";
  }
  return text;
}

std::string with(std::string text, char from, char to) {
  std::replace(text.begin(), text.end(), from, to);
  return text;
}

std::string with_crlf(const std::string& text) {
  std::string out;
  for (const char c : text) out += c == '\n' ? "\r\n" : std::string(1, c);
  return out;
}

}  // namespace

TEST_CASE("one file in every dress that spreadsheets know gives one book") {
  const std::string plain =
      "kind,machine,on,at,note\nreading,loader,2026-02-13,812.5,\nservice,loader,2026-03-04,1250,\n";
  const std::string european =
      "kind;machine;on;at;note\nreading;loader;13.02.2026;812,5;\nservice;loader;04.03.2026;1.250;\n";
  const auto task = [](std::string text) {  // the service needs its task
    const char separator = text.find(';') != std::string::npos    ? ';'
                           : text.find('\t') != std::string::npos ? '\t'
                                                                  : ',';
    const std::string one(1, separator);
    text.insert(text.find('\n'), one + "task");
    const auto first = text.find('\n', text.find("reading"));
    text.insert(first, one);
    text.insert(text.find('\n', text.find("service")), one + "engine-oil");
    return text;
  };
  std::string expected;
  for (const std::string& dress :
       {task(plain), task(european), with(task(european), ';', '\t'), "\xef\xbb\xbf" + task(european),
        utf16(task(european), true), utf16(task(european), false), with_crlf(task(plain)), with_crlf(task(european)),
        utf16(with_crlf(with(task(european), ';', '\t')), true)}) {
    Place place;
    place.furnish();
    place.write("facts.csv", dress);
    REQUIRE_MESSAGE(place.run("import facts.csv") == 0, place.err);
    if (expected.empty()) expected = content(place);
    CHECK(content(place) == expected);
    REQUIRE(place.run("import facts.csv") == 0);
    CHECK(place.says("0 facts new, 2 already there"));
  }
  CHECK(expected.find("812.5") != std::string::npos);
  CHECK(expected.find("2026-03-04") != std::string::npos);
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

TEST_CASE("a file that allows two readings is refused, both are shown, and saying which settles it") {
  Place place;
  place.furnish();
  place.write("numbers.csv", "kind;machine;on;at\nreading;loader;2026-06-01;1.250\n");
  CHECK(place.run("import numbers.csv") == 65);
  CHECK(place.complains("numbers.csv:2:27: error: `1.250` can be 1.250 or 1250"));
  CHECK(place.complains("--decimal point or --decimal comma"));
  CHECK(place.run("import numbers.csv --skip-bad") == 65);  // no row can be believed
  CHECK(book(place).find("reading") == std::string::npos);
  REQUIRE(place.run("import numbers.csv --decimal comma") == 0);
  CHECK(place.says("decimal comma (as you said)"));
  CHECK(book(place).find(",1250,") != std::string::npos);

  place.write("days.csv", "kind;machine;on;at\nreading;pump;03/04/2025;12\n");
  CHECK(place.run("import days.csv") == 65);
  CHECK(place.complains("`03/04/2025` can be 2025-04-03 or 2025-03-04"));
  CHECK(place.run("import days.csv --dates first-day") == 64);
  REQUIRE(place.run("import days.csv --dates month-first") == 0);
  CHECK(book(place).find("2025-03-04") != std::string::npos);
}

TEST_CASE("our own export is plain, whatever its numbers look like") {
  Place place;
  place.furnish();
  REQUIRE(place.run("saw loader tread=20.125 --position front-left") == 0);
  const std::string text = book(place);
  place.write("book.csv", text);
  std::filesystem::remove(place.folder / "record.db");
  REQUIRE(place.run("new .") == 0);
  REQUIRE(place.run("import book.csv") == 0);
  CHECK(book(place) == text);
}

TEST_CASE("bad rows can be left out, go to a file, and come in once they are mended") {
  Place place;
  place.furnish();
  place.write("facts.csv",
              "kind,machine,on,at\nreading,loader,2026-01-10,100\nreading,loadr,2026-01-11,110\n"
              "reading,loader,2026-02-30,120\nreading,loader,2026-03-01,90\nreading,pump,2026-03-01,5\n");
  CHECK(place.run("import facts.csv") == 65);
  CHECK(book(place).find("reading") == std::string::npos);
  REQUIRE(place.run("import facts.csv --skip-bad --dry-run") == 0);
  CHECK(place.says("2 facts new, 0 already there, 3 refused"));
  CHECK_FALSE(std::filesystem::exists(place.folder / "facts.rejected.csv"));
  REQUIRE(place.run("import facts.csv --skip-bad") == 0);
  CHECK(place.says("2 facts new, 0 already there, 3 refused"));
  CHECK(place.says("facts.rejected.csv"));
  for (const char* line : {"facts.csv:3:", "facts.csv:4:", "facts.csv:5:"}) CHECK(place.complains(line));
  CHECK(place.read("facts.rejected.csv") ==
        "kind,machine,on,at\nreading,loadr,2026-01-11,110\nreading,loader,2026-02-30,120\nreading,loader,2026-03-01,"
        "90\n");

  CHECK(place.run("import facts.csv --skip-bad") == 65);  // the bad rows are still to be mended
  CHECK(place.complains("facts.rejected.csv is there already"));
  REQUIRE(place.run("import facts.csv --skip-bad --rejects other.csv --format json") == 0);
  CHECK(place.says("\"already_there\": 2"));
  CHECK(place.says("\"refused\": 3"));
  CHECK(place.says("other.csv\""));
  place.write("facts.rejected.csv",
              "kind,machine,on,at\nreading,loader,2026-01-11,110\nreading,loader,2026-02-28,120\n"
              "reading,loader,2026-03-01,130\n");
  REQUIRE(place.run("import facts.rejected.csv") == 0);
  CHECK(place.says("3 facts new"));
  CHECK(place.run("import facts.csv --rejects x.csv") == 64);
  place.input = "kind,machine,on,at\nreading,loadr,2026-01-11,110\n";
  CHECK(place.run("import - --skip-bad") == 64);
  CHECK(place.run("import - --skip-bad --rejects bad.csv") == 0);
  CHECK(place.read("bad.csv") == place.input);
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

TEST_CASE("a dry run says how a file is read and what becomes of each meter") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 100 --on 2026-01-01") == 0);
  place.write("facts.csv", "kind;machine;on;at\nreading;loader;13/02/2026;150,5\nreading;pump;14/02/2026;7\n");
  const std::string before = book(place);
  REQUIRE(place.run("import facts.csv --dry-run") == 0);
  CHECK(
      place.says("read as CSV with semicolons, decimal comma (told by `150,5`), day first in days (told by "
                 "`13/02/2026`)"));
  CHECK(place.says("newest reading of loader engine: 100.0 h on 2026-01-01 -> 150.5 h on 2026-02-13"));
  CHECK(place.says("newest reading of pump engine: 0.0 h on 2025-01-10 -> 7.0 h on 2026-02-14"));
  CHECK(book(place) == before);
}

TEST_CASE("each line names its machine where a command concerns several") {
  Place place;
  place.furnish();
  place.write("facts.csv",
              "kind,machine,on,at,task\nservice,loader,2024-05-01,10,engine-oil\nreading,pump,2026-01-10,5,\n");
  REQUIRE(place.run("import facts.csv") == 0);
  CHECK(place.says("  loader engine-oil: "));
}

TEST_CASE("text in another encoding is refused by name, with its place") {
  Place place;
  place.furnish();
  place.write("facts.csv", "kind,machine,on,name,note\nsign,loader,2026-01-01,leak,\"am K\xfchler\"\n");
  CHECK(place.run("import facts.csv") == 65);
  CHECK(place.complains("facts.csv:2:"));
  CHECK(place.complains("Windows-1252"));
  place.write("facts.csv", std::string("\xff\xfek\0i\0n", 7));
  CHECK(place.run("import facts.csv") == 65);
  CHECK(place.complains("UTF-16"));
}

TEST_CASE("a database is no file of facts, and its own words stay inside") {
  Place place;
  place.furnish();
  CHECK(place.run("import record.db") == 65);
  CHECK(place.complains("whichever merge record.db"));
  CHECK_FALSE(place.complains("SQLite"));
}

TEST_CASE("services imported as history owe no checks, unless their row says otherwise") {
  Place place;
  place.furnish();
  place.write("old.csv",
              "kind,machine,on,at,task,history\nreading,loader,2026-06-01,400,,\n"
              "service,loader,2025-05-01,300,engine-oil,\n");
  REQUIRE(place.run("import old.csv --history") == 0);
  CHECK_FALSE(place.says("check-leaks"));
  REQUIRE(place.run("due --all") == 0);
  CHECK_FALSE(place.says("check-leaks"));
  REQUIRE(place.run("why loader engine-oil") == 0);
  CHECK(place.says("its checks are not asked for: the service was told of later"));
  CHECK(place.run("why loader engine-oil/check-leaks") == 64);
  REQUIRE(place.run("export") == 0);
  CHECK(place.says(",yes,"));  // kept in the book
  place.write("own.csv", "kind,machine,on,at,task,history\nservice,loader,2025-06-01,310,engine-oil,no\n");
  REQUIRE(place.run("import own.csv --history") == 0);
  REQUIRE(place.run("due --all") == 0);
  CHECK(place.says("engine-oil/check-leaks"));
}

TEST_CASE("what comes back of a find-out list is history") {
  Place place;
  place.write("fleet.yaml", "fleet: F\nmachines:\n  loader: {schedule: tractor, bought: {on: 2024-03-02, at: 100}}\n");
  place.write("schedules/tractor.yaml", cli_test::tractor_schedule);
  REQUIRE(place.run("new .") == 0);
  REQUIRE(place.run("find-out --format csv") == 0);
  std::string csv = place.out;
  const std::string asked = "service,loader,,engine,,engine-oil,";
  REQUIRE(csv.find(asked) != std::string::npos);
  csv.replace(csv.find(asked), asked.size(), "service,loader,2025,engine,150,engine-oil,");
  place.write("blanks.csv", csv);
  REQUIRE(place.run("import blanks.csv") == 0);
  CHECK(place.says("engine-oil"));
  CHECK_FALSE(place.says("check-leaks"));
}

TEST_CASE("near misses of people who fill in a list are told what to write") {
  Place place;
  place.furnish();
  place.write("blanks.csv",
              "kind,machine,on,at,task\nservice,loader,2025,7100 h,engine-oil\nservice,loader,,7100,engine-oil\n");
  CHECK(place.run("import blanks.csv") == 65);
  CHECK(place.complains("write the number alone, without its unit"));
  CHECK(place.complains("a year is enough (2023)"));
  place.write("comma.csv",
              "kind;machine;on;at;task\nreading;pump;2026-01-01;10,5;\nreading;loader;2026-01-01;3900,4 h;\n");
  CHECK(place.run("import comma.csv") == 65);
  CHECK(place.complains("`at` is not the number alone: `3900,4 h`"));
  CHECK_FALSE(place.complains("has a comma"));
  place.write("headed.csv", "kind,machine,Date,Hours\nreading,loader,2026-01-01,5\n");
  CHECK(place.run("import headed.csv") == 65);
  CHECK(place.complains("call it `on`"));
  CHECK(place.complains("call it `at`"));
}
