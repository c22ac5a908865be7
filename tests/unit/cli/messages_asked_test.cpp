// Messages that are asked back: names that may be two, lines that say two things, and hints that must not mislead.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "unit/cli/field.h"
#include "unit/cli/voices.h"

using cli_test::as_of;
using cli_test::Field;
using cli_test::must;
using cli_test::Voices;
using nlohmann::json;

namespace {

// Machines whose names are the beginning of another one's.
class Alike : public Field {
 public:
  Alike() {
    write("fleet.yaml", R"(fleet: Field
machines:
  traktor-1: {schedule: pump, in-service: {on: 2025-01-10, at: 0}}
  traktor-10: {schedule: pump, in-service: {on: 2025-01-10, at: 0}}
  traktor-1b: {name: Green one, schedule: pump, in-service: {on: 2025-01-10, at: 0}}
  mower: {name: Mower 2, schedule: pump, in-service: {on: 2025-01-10, at: 0}}
  other: {name: Mower 20, schedule: pump, in-service: {on: 2025-01-10, at: 0}}
)");
  }
};

}  // namespace

TEST_CASE("a name that is another one with the next words joined on is asked back, behind every command") {
  Alike field;
  for (const char* text :
       {"out-of-use traktor 1 0 brakes gone", "out-of-use traktor 1 b", "out of use traktor-1 b, leaks",
        "saw traktor 1 0 oil leak", "saw traktor 1 -b oil leak", "looked traktor 1 b leak found good",
        "done traktor 1 0 gland", "done traktor-1 b gland", "traktor 1 0", "reading traktor 1 0", "saw mower 2 0 leak",
        "Traktor 1 B: 100", "saw traktor 1 0: leak"}) {
    CHECK_MESSAGE(field.refused(text) == "several-names", text);
    CHECK(field.says("write which, with a colon behind it"));
  }
  CHECK(field.refused("out-of-use traktor 1 0 brakes gone") != "");
  CHECK(field.says("traktor-1: ..., or traktor-10: ..."));
  // What a colon, a comma or quotes end is certain, and so is what is no other's name.
  CHECK(field.taken("out-of-use traktor 1: 0 brakes") == "out-of-use traktor-1 2026-06-15 0 brakes");
  CHECK(field.taken("traktor 1: 0") == "reading traktor-1 2026-06-15 0 engine");
  CHECK(field.taken("\"traktor 1\" 0") == "reading traktor-1 2026-06-15 0 engine");
  CHECK(field.taken("traktor 10 5") == "reading traktor-10 2026-06-15 5 engine");
  CHECK(field.taken("traktor-1b 7") == "reading traktor-1b 2026-06-15 7 engine");
  CHECK(field.taken("traktor 1 100") == "reading traktor-1 2026-06-15 100 engine");
  CHECK(field.taken("saw traktor 1 brakes gone") == "sign traktor-1 2026-06-15 brakes gone");
}

TEST_CASE("two machines, or a value and what was seen, are led to two lines") {
  Field field;
  const auto hint = [&](const std::string& text) {
    CHECK(field.refused(text) == "not-understood");
    return field.answer["lines"][0]["wrong"][0]["hint"].get<std::string>();
  };
  for (const char* text : {"pump 70, combine 80", "pump 70 combine 80", "pump 70 and combine 80", "pump 70; combine 80",
                           "pump 70 , combine 80", "pump 70 & combine 80"}) {
    CHECK_MESSAGE(hint(text) == "say each in a line of its own: pump 70; and combine 80", text);
  }
  CHECK(hint("pump 70 h, combine 80") == "say each in a line of its own: pump 70 h; and combine 80");
  CHECK(hint("pump 70, out-of-use hot") == "say each in a line of its own: pump 70; and out-of-use pump hot");
  for (const char* text : {"loader 1511.4, front left tyre flat", "loader 1511.4; front left tyre flat",
                           "loader 1511,4, front left tyre flat"}) {
    const std::string said = hint(text);
    CHECK_MESSAGE(
        said.find("alone, and in a line of its own what it is: saw loader front left tyre flat; where it must "
                  "not run, out-of-use loader") != std::string::npos,
        said);
  }
  CHECK(hint("loader 1511.4, 12 bolts loose").find("saw loader 12 bolts loose") != std::string::npos);
  CHECK(hint("loader 1511.4, by M.T.") == "send it without that: loader 1511.4 by M.T.");
  CHECK(hint("pump 70, south 80").find("MACHINE VALUE") == std::string::npos);  // a machine that is called so
  CHECK(hint("pump 70, the other 80").find("what `the other 80` is: MACHINE VALUE") != std::string::npos);
  CHECK(field.refused("loader 1511.4 not sure") == "in-doubt");
  // Digits alone are still a number that nobody can read.
  CHECK(hint("loader 1,511").find("point") != std::string::npos);
}

TEST_CASE("what is near to words that deny is offered to nobody") {
  Field field;
  for (const char* text :
       {"done loader engine-oil, no brakes 1511 by M.T.", "done loader engine-oil, not brakes", "done loader no brakes",
        "done loader engine-oil and no filter", "done loader without brakes", "done loader engine-oil, ohne brakes",
        "done loader engine-oil, pas filter", "done loader ikke brakes", "done loader engine-oil, brakes not",
        "done loader sans filter"}) {
    CHECK_MESSAGE(field.refused(text) == "done-or-not", text);
    CHECK_FALSE(field.says("did you mean"));
    const std::string hint = field.answer["lines"][0]["wrong"][0]["hint"];
    CHECK_MESSAGE(hint.find("done loader") == std::string::npos, hint);
  }
  CHECK(field.refused("done loader brake by M.T.") == "unknown-task");
  CHECK(field.says("did you mean `brakes`"));
}

TEST_CASE("a reading that ends what was not known is held beside a line that may say otherwise, and says so") {
  Field field;
  const json held = field.lines("loader 1600\nloader no that is wrong\n", 65, " --dry-run");
  CHECK(held[0]["fate"] == "taken");  // read six weeks ago
  field.write("fleet.yaml", R"(fleet: Field
stale-after: 30 days
machines:
  loader: {name: Loader tractor, schedule: tractor, in-service: {on: 2024-03-02, at: 0}}
  pump: {name: Old pump, schedule: pump, bought: {on: 2025-01-10}}
)");
  for (const char* text : {"loader 1600\nloader no that is wrong\n", "pump 12.5\npump no that was the other one\n"}) {
    const json lines = field.lines(text, 65, " --dry-run");
    CHECK_MESSAGE(lines[0]["wrong"][0]["code"] == "untaken-beside", text);
    CHECK(field.answer["facts"].empty());
  }
  // Alone it is taken, and the answer says what it ended.
  field.lines("loader 1600\n", 0, " --dry-run");
  REQUIRE(field.answer["ended_gaps"].size() == 1);
  CHECK(field.answer["ended_gaps"][0]["kind"] == "stale");
  CHECK(field.run(std::string("reading loader 1600 --dry-run") + as_of) == 0);
  CHECK(field.says("No longer on the find-out list: loader: no reading for 45 days"));
  CHECK(field.run(std::string("reading pump 12.5 --dry-run") + as_of) == 0);
  CHECK(field.says("No longer on the find-out list: pump: nothing is recorded of it"));
  must(field, std::string("reading loader 1600") + as_of);
  CHECK(field.run(std::string("reading loader 1601 --dry-run") + as_of) == 0);
  CHECK_FALSE(field.says("find-out list"));
}

TEST_CASE("a check done at a sign of what never waits is asked back: put right, or only looked at") {
  Field field;
  must(field, std::string("saw loader long-pedal --on 2026-06-13") + as_of);
  CHECK(field.refused("done loader brakes by M.T.") == "sign-ends");
  CHECK(field.says("renewed or put right, or only looked at"));
  CHECK(field.says("looked loader long-pedal by WHO found good"));
  CHECK(field.says("whichever done loader brakes --on 2026-06-15 --by M.T."));
  // What says that it stays is taken, and so is what says of the sign that it is good.
  CHECK(field.taken("done loader brakes found worn by M.T.") == "service loader 2026-06-15 brakes worn M.T.");
  CHECK(field.lines("looked loader long-pedal by M.T. found good\ndone loader brakes by M.T.\n", 0,
                    " --dry-run")[1]["fate"] == "taken");
  // In one text too; a sign that was answered, one of work that may wait, and one of work that renews are no such.
  CHECK(field.lines("[14.06.2026, 08:00] A: saw loader long-pedal\n[15.06.2026, 08:00] A: done loader brakes by M.T.\n",
                    65, " --dry-run")[1]["wrong"][0]["code"] == "sign-ends");
  must(field, std::string("saw loader leak --on 2026-06-13") + as_of);
  CHECK(field.lines("done loader hoses\n", 0, " --dry-run")[0]["fate"] == "taken");
  must(field, std::string("done loader brakes --by ann --on 2026-06-14") + as_of);
  CHECK(field.taken("done loader brakes 2026-06-15 by M.T.") == "service loader 2026-06-15 brakes M.T.");
}
