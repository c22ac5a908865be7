// Copies of the record: merge and backup, and what comes of them.
#include <doctest/doctest.h>
#include <sys/stat.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "unit/cli/asking.h"

namespace {

namespace fs = std::filesystem;
using cli_test::book;
using cli_test::findings;
using cli_test::has;
using cli_test::must;
using cli_test::Place;
using cli_test::put_aside;
using cli_test::take_out;

// Three copies of one book that went separate ways.
void three_ways(Place& place) {
  place.furnish();
  must(place, "reading loader 100 --on 2026-01-01");
  put_aside(place, "start.db");
  must(place, "reading loader 150 --on 2026-02-01");
  must(place, "done loader engine-oil --at 150 --on 2026-02-01");
  put_aside(place, "van.db");
  take_out(place, "start.db");
  must(place, "done loader engine-oil --at 150 --on 2026-02-01 --by Ben");
  must(place, "undo");
  must(place, "saw loader leak");
  put_aside(place, "office.db");
  take_out(place, "start.db");
  must(place, "reading pump 12 --on 2026-03-01");
  put_aside(place, "third.db");
}

}  // namespace

TEST_CASE("copies merged in any order, any number of times, give the same bytes") {
  Place place;
  three_ways(place);
  std::vector<std::string> names{"office.db", "start.db", "third.db", "van.db"};
  std::string expected;
  do {
    take_out(place, names[0]);
    for (const std::string& name : names) must(place, "merge " + name);
    for (const std::string& name : names) {
      must(place, "merge " + name);
      CHECK(place.says("0 facts new"));
    }
    if (expected.empty()) expected = book(place);
    CHECK(book(place) == expected);
  } while (std::next_permutation(names.begin(), names.end()));
  CHECK(std::count(expected.begin(), expected.end(), '\n') == 8);  // header and seven facts, one of them a strike
}

TEST_CASE("what export wrote of a copy merges as the copy does") {
  Place place;
  three_ways(place);
  take_out(place, "van.db");
  const std::string csv = book(place);
  must(place, "export --format jsonl");
  place.write("van.jsonl", place.out);
  place.write("van.csv", csv);
  take_out(place, "office.db");
  must(place, "merge van.db");
  const std::string expected = book(place);
  for (const char* name : {"van.csv", "van.jsonl"}) {
    take_out(place, "office.db");
    must(place, std::string("merge ") + name);
    CHECK(book(place) == expected);
  }
}

TEST_CASE("a row with the id of another fact is refused, never counted as there") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 100 --on 2026-06-01") == 0);
  const std::string text = book(place);
  std::string other_value = text;
  other_value.replace(text.find(",100,"), 5, ",150,");
  std::string other_origin = text;
  other_origin.replace(text.rfind(",reading,"), 9, ",van,");
  for (const std::string& changed : {other_value, other_origin}) {
    place.write("changed.csv", changed);
    for (const char* line : {"import changed.csv", "merge changed.csv"}) {
      CAPTURE(line);
      CHECK(place.run(line) == 65);
      CHECK(place.complains("another fact has the id"));
    }
  }
  place.write("twice.csv", text + text.substr(text.find('\n') + 1));
  CHECK(place.run("import twice.csv") == 0);
  CHECK(place.says("2 already there"));
  CHECK(book(place) == text);
}

TEST_CASE("a strike merged later still strikes") {
  Place place;
  place.furnish();
  must(place, "reading loader 100 --on 2026-01-01");
  put_aside(place, "early.db");
  must(place, "undo");
  put_aside(place, "late.db");
  take_out(place, "early.db");
  must(place, "merge late.db");
  must(place, "history loader");
  CHECK(place.says("STRUCK"));
  must(place, "due --machine loader --format json");
  CHECK(nlohmann::json::parse(place.out)["gaps"].size() == 1);  // the meter is unread again
}

TEST_CASE("a service that two people wrote down is kept twice, told, and counts once") {
  Place place;
  place.furnish();
  put_aside(place, "start.db");
  must(place, "done loader engine-oil --at 150 --on 2026-02-01 --by Ann");
  put_aside(place, "van.db");
  take_out(place, "start.db");
  must(place, "done loader engine-oil --at 150 --on 2026-02-01 --by Ben");
  must(place, "merge van.db");
  CHECK(place.says("engine-oil of loader on 2026-02-01 was already written down on that day"));
  CHECK(has(findings(place, "check", 0), "written-twice"));
  CHECK(book(place).find("Ann") != std::string::npos);
  CHECK(book(place).find("Ben") != std::string::npos);
}

TEST_CASE("readings that contradict each other put the meter in doubt until one is struck") {
  Place place;
  place.furnish();
  put_aside(place, "start.db");
  must(place, "reading loader 900 --on 2026-02-01");
  put_aside(place, "van.db");
  take_out(place, "start.db");
  must(place, "reading loader 300 --on 2026-03-01");
  const std::string theirs = place.out;
  must(place, "merge van.db");
  CHECK(place.says("In doubt: loader"));
  const auto found = findings(place, "check", 65);
  REQUIRE(has(found, "contradiction"));
  std::string cure;
  for (const auto& finding : found) {
    if (finding["code"] == "contradiction") cure = finding["hint"];
  }
  must(place, cure.substr(std::string("whichever ").size(), cure.find(", or ") - std::string("whichever ").size()));
  CHECK_FALSE(has(findings(place, "check", 0), "contradiction"));
}

TEST_CASE("a foreign, damaged or missing file is refused, and nothing is stored") {
  Place place;
  three_ways(place);
  const std::string before = book(place);
  place.write("text.db", "no database at all\n");
  place.write("empty.db", "");
  place.write("rows.csv", "kind,machine,on,at\nreading,loader,2026-01-02,101\n");
  std::string bytes = place.read("van.db");
  bytes[bytes.size() - 30] = static_cast<char>(bytes[bytes.size() - 30] ^ 4);
  place.write("bent.db", bytes.substr(0, bytes.size() / 2));
  for (const auto& [line, status] : {std::pair{"merge text.db", 65},
                                     {"merge empty.db", 65},
                                     {"merge rows.csv", 65},
                                     {"merge bent.db", 65},
                                     {"merge nowhere.db", 66},
                                     {"merge fleet.yaml", 65}}) {
    CAPTURE(line);
    CHECK(place.run(line) == status);
    CHECK_FALSE(place.err.empty());
    CHECK(book(place) == before);
  }
  CHECK(place.run("merge rows.csv") == 65);
  CHECK(place.complains("whichever import rows.csv"));

  Place other;
  other.write("fleet.yaml", "fleet: Elsewhere\nmachines:\n  mill: {schedule: mill}\n");
  other.write("schedules/mill.yaml", "schedule: mill\ntasks:\n  belt: {do: Look at the belt, every: {months: 1}}\n");
  REQUIRE(other.run("new .") == 0);
  REQUIRE(other.run("done mill belt") == 0);
  CHECK(place.run("merge " + (other.folder / "record.db").string()) == 65);
  CHECK(place.complains("none about a machine of this fleet"));
  CHECK(book(place) == before);
}

TEST_CASE("a backup is whole, of the record's mode, and never over another file") {
  Place place;
  three_ways(place);
  const std::string before = book(place);
  fs::permissions(place.folder / "record.db", fs::perms::owner_read | fs::perms::owner_write | fs::perms::group_read);
  must(place, "backup copy.db");
  CHECK(place.says("every one read back"));
  struct stat status {};
  REQUIRE(::stat((place.folder / "copy.db").c_str(), &status) == 0);
  CHECK((status.st_mode & 0777U) == 0640U);
  CHECK(place.run("backup copy.db") == 65);
  CHECK(place.run("backup nowhere/copy.db") == 66);
  CHECK(place.run("backup fleet.yaml") == 65);
  must(place, "reading loader 200");
  take_out(place, "copy.db");
  CHECK(book(place) == before);
  std::string bytes = place.read("record.db");
  const auto at = bytes.find("loader");  // in the table of machines, or in its index
  REQUIRE(at != std::string::npos);
  bytes[at] = 'L';
  place.write("record.db", bytes);
  CHECK(place.run("backup other.db") == 65);
  CHECK_FALSE(fs::exists(place.folder / "other.db"));
  CHECK_FALSE(fs::exists(place.folder / "other.db.part"));
}
