// `undo`: one's own newest command, and what has to be named.
#include <doctest/doctest.h>

#include "place.h"

using cli_test::Place;

namespace {

// The id in `whichever undo ID`, from where that was last said.
std::string id_in(const std::string& text) {
  const std::string words = "whichever undo ";
  const auto at = text.find(words);
  REQUIRE(at != std::string::npos);
  return text.substr(at + words.size(), 26);
}

void must(Place& place, const std::string& line) { REQUIRE_MESSAGE(place.run(line) == 0, line, ": ", place.err); }

void as(Place& place, const std::string& name) { place.variables["WHICHEVER_USER"] = name; }

}  // namespace

TEST_CASE("what somebody else entered is shown and taken back only by name") {
  Place place;
  place.furnish();
  as(place, "ann");
  must(place, "reading loader 1250 --on 2026-06-06");
  as(place, "bob");
  must(place, "reading loader 1260 --on 2026-06-07");
  as(place, "ann");
  CHECK(place.run("undo") == 65);
  CHECK(place.complains("not ann's"));
  CHECK(place.complains("entered by bob on 2026-06-15 (loader: reading engine 1260.0 h, 2026-06-07)"));
  CHECK(
      place.complains("The last one of ann: `reading`, entered by ann on 2026-06-15 (loader: reading engine 1250.0 h"));
  const std::string own = id_in(place.err);  // one's own comes first
  const std::string id = id_in(place.err.substr(place.err.find(own)));
  must(place, "undo " + own + " --dry-run");
  CHECK(place.says("1250.0 h"));
  must(place, "undo " + id + " --dry-run");
  CHECK(place.says("Nothing was stored"));
  must(place, "undo " + id);
  CHECK(place.says("struck: loader: reading engine 1260.0 h"));
  must(place, "undo");  // now one's own is the newest that stands
  CHECK(place.says("struck: loader: reading engine 1250.0 h"));
  CHECK(place.run("undo " + id) == 65);
  CHECK(place.complains("nothing of this command stands"));
}

TEST_CASE("who entered nothing has nothing to take back, and is told so") {
  Place place;
  place.furnish();
  as(place, "bob");
  must(place, "reading loader 1260 --on 2026-06-07");
  as(place, "ann");
  CHECK(place.run("undo") == 65);
  CHECK(place.complains("nothing that stands in the record was entered by ann"));
  CHECK_FALSE(place.complains("whichever undo"));
}

TEST_CASE("that undo goes on is said only where it does") {
  Place place;
  place.furnish();
  as(place, "bob");
  must(place, "reading loader 1240 --on 2026-06-05");
  as(place, "ann");
  must(place, "reading loader 1250 --on 2026-06-06");
  must(place, "reading loader 1260 --on 2026-06-07");
  must(place, "undo");
  CHECK(place.says("Take back the command before it too: whichever undo"));
  must(place, "undo");
  CHECK_FALSE(place.says("command before it"));  // that one is bob's
}

TEST_CASE("a command older than a day is taken back only by name, whatever day is asked about") {
  Place place;
  place.furnish();
  must(place, "reading loader 1250 --on 2026-06-06");
  place.now += 2LL * 86'400'000;
  CHECK(place.run("undo --as-of 2026-06-15") == 65);
  CHECK(place.complains("older than a day"));
  must(place, "undo " + id_in(place.err));
}

TEST_CASE("a file of many facts is taken back only by name, which is told when it is taken in") {
  Place place;
  place.furnish();
  place.write("facts.csv",
              "kind,machine,on,at\nreading,loader,2026-06-01,100\nreading,loader,2026-06-08,140\n"
              "reading,loader,2026-06-09,141\nreading,loader,2026-06-10,142\n");
  must(place, "import facts.csv");
  const std::string id = id_in(place.out);
  CHECK(place.run("undo") == 65);
  CHECK(place.complains("a file of 4 facts"));
  CHECK(place.complains("and 1 more"));
  CHECK(id_in(place.err) == id);
  must(place, "undo " + id.substr(20));  // its last six characters will do
  CHECK(place.says("struck: loader: reading engine 142.0 h"));
  must(place, "undo " + id_in(place.out));  // what undo itself did, by name: the readings count again
  CHECK(place.says("counts again"));
  must(place, "history loader");
  CHECK_FALSE(place.says("STRUCK"));
  must(place, "undo " + id);

  place.write("one.csv", "kind,machine,on,at\nreading,loader,2026-06-01,100\n");
  must(place, "import one.csv");
  must(place, "undo");
}

TEST_CASE("what answers to no command is a slip, and nothing is stored") {
  Place place;
  place.furnish();
  must(place, "reading loader 1250 --on 2026-06-06");
  CHECK(place.run("undo zzzzzz") == 64);
  CHECK(place.run("undo zzzzzzzzzzzzzzzzzzzzzzzzzz") == 64);
  must(place, "history loader --format csv");
  const auto dash = place.out.find("-1,");
  REQUIRE(dash != std::string::npos);
  const std::string fact = place.out.substr(dash - 26, 28);
  CHECK(place.run("undo " + fact) == 64);
  CHECK(place.complains("whichever strike " + fact));
  must(place, "history loader --all");
  CHECK_FALSE(place.says("STRUCK"));
}
