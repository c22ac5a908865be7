// Values of one meter in one paste that cannot both be right: neither is certain, so both are asked back.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "unit/cli/field.h"

using cli_test::as_of;
using cli_test::Field;
using cli_test::must;
using nlohmann::json;

namespace {

// By line: `+` taken, `=` there already, else the code of what is wrong with it.
std::string fates(Field& field, const std::string& text, const std::string& more = " --dry-run") {
  field.input = text;
  field.run(std::string("import --messages -") + as_of + more + " --format json");
  const json answer = json::parse(field.out.empty() ? field.err : field.out);
  std::string all;
  for (const json& line : answer["lines"]) {
    if (line["fate"] == "heading") continue;
    const bool refused = line["fate"] == "refused";
    all += (all.empty() ? "" : " ") + (refused                           ? line["wrong"][0]["code"].get<std::string>()
                                       : line["fate"] == "already-there" ? "="
                                                                         : "+");
  }
  return all;
}

}  // namespace

TEST_CASE("two values of a meter that the time between them does not allow are both asked back") {
  Field field;
  const std::string swapped = "[15.06.2026, 10:02] Anna: loader 1506.1\n[15.06.2026, 10:03] Ola: loader 1560.1\n";
  CHECK(fates(field, swapped) == "values-apart values-apart");
  // The higher one first: no meter runs backwards, and which one is wrong nobody knows all the same.
  CHECK(fates(field, "[15.06.2026, 10:02] Anna: loader 1560.1\n[15.06.2026, 10:03] Ola: loader 1506.1\n") ==
        "values-apart values-apart");
  // However they stand in the text, and in one message.
  CHECK(fates(field, "[15.06.2026, 10:03] Ola: loader 1560.1\n[15.06.2026, 10:02] Anna: loader 1506.1\n") ==
        "values-apart values-apart");
  CHECK(fates(field, "[15.06.2026, 10:02] Anna: loader 1506.1\nloader 1560.1\n") == "values-apart values-apart");
  CHECK(fates(field, "[14.06.2026, 20:00] Anna: loader 1506.1\n[15.06.2026, 06:00] Ola: loader 1517.2\n") ==
        "values-apart values-apart");
  // Of a service too, and of each meter by itself.
  CHECK(fates(field, "[15.06.2026, 10:02] Anna: done loader filter 1506.1\n[15.06.2026, 10:03] Ola: loader 1560.1\n") ==
        "values-apart values-apart");
  CHECK(fates(field, "[15.06.2026, 10:02] Anna: combine 80\n[15.06.2026, 10:03] Ola: combine separator 40\n") == "+ +");
  // Both lines, both values, and what would settle it.
  field.input = swapped;
  CHECK(field.run(std::string("import --messages -") + as_of) == 65);
  CHECK(field.says("line 1 says that meter `engine` of loader shows 1506.1 h at 10:02, line 2 1560.1 h at 10:03"));
  CHECK(field.says("one of the two is wrong, and nothing tells which"));
  CHECK(field.says("read the meter again and send what it shows"));
  CHECK(field.says("whichever reading loader 1506.1 --meter engine --on 2026-06-15"));
  CHECK(field.says("whichever reading loader 1560.1 --meter engine --on 2026-06-15"));
}

TEST_CASE("values that the time between them allows are taken") {
  Field field;
  // A day's work, the tenth that ticks over, one without its tenths, and one that is sent a while after it was read.
  CHECK(fates(field, "[15.06.2026, 08:00] Anna: loader 1506.1\n[15.06.2026, 17:00] Anna: loader 1515.1\n") == "+ +");
  CHECK(fates(field, "[15.06.2026, 10:02] Anna: loader 1506.1\n[15.06.2026, 10:03] Ola: loader 1506.2\n") == "+ +");
  CHECK(fates(field, "[15.06.2026, 10:02] Anna: loader 1506.9\n[15.06.2026, 10:03] Ola: loader 1506\n") == "+ +");
  CHECK(fates(field, "[15.06.2026, 10:02] Anna: loader 1506.1\n[15.06.2026, 10:03] Ola: loader 1507.1\n") == "+ +");
  CHECK(fates(field, "[15.06.2026, 10:02] Anna: loader 1506.1\n[15.06.2026, 10:03] Ola: loader 1507.2\n") ==
        "values-apart values-apart");
  // Only hours are bound to the clock.
  CHECK(fates(field, "[15.06.2026, 10:02] Anna: combine road 120 km\n[15.06.2026, 10:03] Ola: combine road 190 km\n") ==
        "+ +");
}

TEST_CASE("without times a day's hours may lie between two values, and more may not") {
  Field field;
  CHECK(fates(field, "loader 1506.1\nloader 1515.1\n") == "+ +");
  CHECK(fates(field, "15.06.2026\nloader 1506.1\nloader 1515.1\n") == "+ +");
  CHECK(fates(field, "loader 1506.1\nloader 1560.1\n") == "values-apart values-apart");
  // Said to be of another time than it was sent: of the day alone.
  CHECK(fates(field, "[15.06.2026, 10:02] Anna: loader 1506.1 today\n[15.06.2026, 10:03] Ola: loader 1515.1\n") ==
        "+ +");
  CHECK(fates(field, "[15.06.2026, 10:02] Anna: loader 1506.1 yesterday\n[15.06.2026, 10:03] Ola: loader 1515.1\n") ==
        "+ +");
}

TEST_CASE("of two values without times that fall neither is certain") {
  Field field;
  CHECK(fates(field, "loader 1510.1\nloader 1506.5\n") == "values-apart values-apart");
  CHECK(field.says("no meter runs backwards"));
  CHECK(fates(field, "combine road 190 km\ncombine road 120 km\n") == "values-apart values-apart");
  CHECK(fates(field, "loader 1510.1 yesterday\nloader 1506.5 yesterday\n") == "values-apart values-apart");
  // Without its tenths it is no other value.
  CHECK(fates(field, "loader 1510.9\nloader 1510\n") == "+ +");
  // What is lower than the book's own is told beside that, not beside the other line.
  CHECK(fates(field, "loader 1510\nloader 1499\n") == "+ reading-falls");
  CHECK(field.says("which is lower than 1500"));
  CHECK_FALSE(field.says("lower than 1510"));
}

TEST_CASE("what else is known tells which of two values is wrong") {
  Field field;
  // A third that goes with one of them.
  const std::string three =
      "[15.06.2026, 10:02] Anna: loader 1506.1\n[15.06.2026, 10:03] Ola: loader 1560.1\n"
      "[15.06.2026, 11:00] Kari: loader 1506.8\n";
  CHECK(fates(field, three) == "+ values-apart +");
  // Somebody who is sure.
  CHECK(fates(field, "[15.06.2026, 10:02] Anna: loader 1506.1 --sure\n[15.06.2026, 10:03] Ola: loader 1560.1\n") ==
        "+ values-apart");
  // The book: one of them falls behind it, or is more than it allows.
  CHECK(fates(field, "[15.06.2026, 10:02] Anna: loader 1490.1\n[15.06.2026, 10:03] Ola: loader 1506.1\n") ==
        "reading-falls +");
  CHECK(fates(field, "[15.06.2026, 10:02] Anna: loader 1506.1\n[15.06.2026, 10:03] Ola: loader 6506.1\n") ==
        "+ reading-jumps");
  // Entered by the command, the right one is known; the same text again has the other asked back alone.
  const std::string swapped = "[15.06.2026, 10:02] Anna: loader 1506.1\n[15.06.2026, 10:03] Ola: loader 1510.6\n";
  CHECK(fates(field, swapped) == "values-apart values-apart");
  must(field, std::string("reading loader 1506.1 --on 2026-06-15") + as_of);
  CHECK(fates(field, swapped) == "= values-apart");
}

TEST_CASE("a value that nobody is certain of holds what its sender says is done") {
  Field field;
  const std::string beside = "[15.06.2026, 10:02] Anna: loader 1506.1\n[15.06.2026, 10:03] Ola: loader 1560.1\n";
  CHECK(fates(field, beside + "[15.06.2026, 10:04] Ola: done loader filter\n") ==
        "values-apart values-apart untaken-beside");
}
