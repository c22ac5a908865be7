// Messages from the field: what of a line is certain, and what it would need to hear.
#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "unit/cli/field.h"

using cli_test::as_of;
using cli_test::book;
using cli_test::Field;
using cli_test::must;
using nlohmann::json;

TEST_CASE("a reading") {
  Field field;
  const std::string plain = "reading loader 2026-06-15 1511.4 engine";
  for (const char* text : {"loader 1511.4", "Loader 1511,4", "LOADER 1511.4 h", "loader 1511.4h", "loader 1511.4 hours",
                           "Loader tractor 1511.4", "reading loader 1511.4", "Loader: 1511.4", "loader\u00a01511.4",
                           "loader 1511.4.", "loader  1511.4 \U0001F44D\U0001F3FD", "\u200eloader 1511.4\u200f",
                           "loader engine 1511.4", "loader 1511.4 today", "loader at 1511.4", "loader 1511.4!",
                           "\u201cLoader tractor\u201d 1511.4", "\xEF\xBB\xBFloader 1511.4\r"}) {
    CHECK_MESSAGE(field.taken(text) == plain, text);
  }
  CHECK(field.taken("loader 1511.4 yesterday") == "reading loader 2026-06-14 1511.4 engine");
  CHECK(field.taken("loader 1511.4 on 03.06.2026") == "reading loader 2026-06-03 1511.4 engine");
  CHECK(field.taken("loader -3d 1511.4") == "reading loader 2026-06-12 1511.4 engine");
  CHECK(field.taken("loader 2012") == "reading loader 2026-06-15 2012 engine");  // of a reading it can be nothing else
  CHECK(field.taken("combine separator 80") == "reading combine 2026-06-15 80 separator");
  CHECK(field.taken("combine 80 meter separator") == "reading combine 2026-06-15 80 separator");
  CHECK(field.taken("loader 1511.4", " --on 2026-06-10") == "reading loader 2026-06-10 1511.4 engine");
  CHECK(field.taken("loader 1511.4 --sure") == "reading loader 2026-06-15 1511.4 engine true");
  CHECK(field.taken("loader 1511.4 \u2014sure") == "reading loader 2026-06-15 1511.4 engine true");
}

TEST_CASE("a reading that is not certain is asked back") {
  Field field;
  CHECK(field.refused("lodaer 1511.4") == "unknown-machine");
  CHECK(field.says("did you mean `loader`?"));
  CHECK(field.refused("gate 100") == "several-names");
  CHECK(field.says("north or south"));
  CHECK(field.refused("loader 1 511.4") == "said-twice");
  CHECK(field.refused("loader 1,511") == "not-understood");
  CHECK(field.refused("loader 1511.4?") == "in-doubt");
  CHECK(field.refused("loader 1511.4 \u274c") == "not-understood");  // crossed out, perhaps
  CHECK(field.refused("loader 1511.4 or 1511.6") == "not-understood");
  CHECK(field.refused("loader about 1511") == "not-understood");
  CHECK(field.refused("loader -1511") == "not-understood");
  CHECK(field.refused("loader 1511.4 km") == "other-unit");
  CHECK(field.refused("combine 100 km") == "other-unit");  // its first meter counts hours
  CHECK(field.says("meter road"));
  CHECK(field.refused("loader 1511.4 03/04/2026") == "bad-day");
  CHECK(field.refused("loader 1511.4 2026-05") == "bad-day");
  CHECK(field.refused("loader 1511.4 on friday") == "bad-day");
  CHECK(field.refused("loader 1511.4 16.06.2026") == "future");
  CHECK(field.refused("loader") == "not-understood");
  CHECK(field.refused("loader leaking oil") == "not-understood");
  CHECK(field.says("saw loader leaking oil"));
  CHECK(field.refused("1511.4") == "not-understood");
  CHECK(field.refused("pump 3") == "not-understood");  // a machine of that name, and no value
  CHECK(field.taken("pump 3 3") == "reading pump-3 2026-06-15 3 engine");
  CHECK(field.refused("loader 15\x1b[2K11") == "unreadable");
  CHECK(field.refused("loader 1511.4 \xff") == "unreadable");
  CHECK(field.refused(std::string("loader 1511.4") + std::string(3000, ' ') + ".") == "unreadable");
  CHECK(field.refused("loader 1499") == "reading-falls");
  CHECK(field.refused("loader 15114") == "past-roll-over");
  CHECK(field.refused("pump 151140") == "reading-jumps");
}

TEST_CASE("a service") {
  Field field;
  const std::string oil = "service loader 2026-06-15 engine-oil";
  for (const char* text :
       {"done loader engine-oil", "Done Loader engine oil", "Done: loader engine oil", "DONE loader Engine-Oil."}) {
    CHECK_MESSAGE(field.taken(text) == oil, text);
  }
  CHECK(field.taken("done loader engine-oil 1511.4") == "service loader 2026-06-15 1511.4 engine engine-oil");
  CHECK(field.taken("done loader engine oil, air-primary and tyre @ front left 1511,4 yesterday by A.F.") ==
        "service loader 2026-06-14 1511.4 engine engine-oil A.F.; "
        "service loader 2026-06-14 1511.4 engine air-primary A.F.; "
        "service loader 2026-06-14 1511.4 engine tyre front-left A.F.");
  CHECK(field.taken("done loader engine-oil 2026-05") == "service loader 2026-05 engine-oil");
  CHECK(field.taken("done loader engine-oil on 2025") == "service loader 2025 engine-oil");
  CHECK(field.taken("done loader engine-oil 2012 h") == "service loader 2026-06-15 2012 engine engine-oil");
  CHECK(field.taken("done loader test by B.J.") == "service loader 2026-06-15 test B.J.");
  CHECK(field.taken("done loader test", " --by Anna") == "service loader 2026-06-15 test Anna");
  CHECK(field.taken("done loader engine-oil, engine-oil/check-leaks") ==
        oil + "; service loader 2026-06-15 engine-oil/check-leaks");
}

TEST_CASE("checked is asked back: renewed, or only looked at") {
  Field field;
  for (const char* text :
       {"done loader engine-oil checked", "done loader engine-oil --checked", "done loader engine-oil Checked by M.T.",
        "done loader brakes checked.", "done loader engine-oil, brakes checked"}) {
    CHECK_MESSAGE(field.refused(text) == "checked-or-done", text);
  }
  CHECK(field.refused("done loader engine-oil checked") == "checked-or-done");
  CHECK(
      field.says("without that word: done loader engine-oil; and its checks with it: done loader engine-oil, "
                 "engine-oil/check-leaks; where it was only looked at"));
  CHECK(field.refused("done loader engine-oil ok") != "");
  CHECK(field.refused("done loader engine-oil looked at") != "");
}

TEST_CASE("a service that is not certain is asked back whole") {
  Field field;
  CHECK(field.refused("done loader oil") == "unknown-task");
  CHECK(field.says("did you mean `engine-oil`"));
  CHECK(field.refused("done loader engine-oil, knife") == "unknown-task");  // nothing of it is taken
  CHECK(field.refused("done loader engine oil filter") == "several-names");
  CHECK(field.taken("done loader engine oil, filter") ==
        "service loader 2026-06-15 engine-oil; service loader 2026-06-15 filter");
  CHECK(field.refused("done pump gland 500") == "several-names");
  CHECK(field.taken("done pump gland at 500") == "service pump 2026-06-15 500 engine gland");
  CHECK(field.refused("done loader engine-oil 2012") == "value-or-day");
  CHECK(field.refused("done loader engine-oil 15.06") == "value-or-day");
  CHECK(field.refused("done loader tyre@rear") == "unknown-position");
  CHECK(field.refused("done loader") == "no-task");
  CHECK(field.refused("done loader 1511.4") == "no-task");
  CHECK(field.refused("done") == "no-machine");
  CHECK(field.refused("done loader test") == "needs-by");
  CHECK(field.refused("done loader engine-oil test") == "needs-by");                 // the oil neither
  CHECK(field.refused("[15.06.2026, 08:00] Anna: done loader test") == "needs-by");  // who sends is not who did it
  CHECK(field.refused("not yet: done loader engine-oil") == "not-understood");
  CHECK(field.refused("done loader engine-oil 1511.4 \u274c") == "not-understood");
  CHECK(field.refused("done loader engine-oil found broken") == "bad-found");
  CHECK(field.refused("put-off loader engine-oil") == "not-from-messages");
  CHECK(field.refused("loader done engine-oil") == "not-understood");
  CHECK(field.says("put it before: done loader engine-oil"));
  CHECK(field.refused("loader engine-oil done") == "not-understood");
  CHECK(field.says("put it before: done loader engine-oil"));
  CHECK(field.refused("dnoe loader engine-oil") == "not-understood");
}

TEST_CASE("what was seen is kept in its own words") {
  Field field;
  CHECK(field.taken("saw loader leak") == "sign loader 2026-06-15 leak");
  CHECK(field.taken("Saw Loader Leak.") == "sign loader 2026-06-15 leak");
  CHECK(field.taken("saw loader long pedal") == "sign loader 2026-06-15 long-pedal");
  CHECK(field.taken("saw loader strange noise yesterday") == "sign loader 2026-06-14 strange noise");
  CHECK(field.taken("saw loader strange noise since yesterday") ==
        "sign loader 2026-06-15 strange noise since yesterday");
  CHECK(field.taken("saw loader leak on 12.06.2026 --note under the cab") ==
        "sign loader 2026-06-12 leak under the cab");
  CHECK(field.taken("saw loader \u201coil leak\u201d") == "sign loader 2026-06-15 oil leak");
  CHECK(field.answer["lines"][0]["near"]["name"] == "leak");
  CHECK(field.answer["lines"][0]["near"]["command"] == "whichever saw loader leak");
  CHECK(field.taken("saw loader restriction 6.2 kPa") == "sign loader 2026-06-15 restriction 6.2 kPa");
  CHECK(field.answer["lines"][0]["near"]["command"] == "whichever saw loader restriction=6.2");
  CHECK(field.taken("saw loader leak \u274c") == "sign loader 2026-06-15 leak \u274c");  // no leak, perhaps
  CHECK(field.answer["lines"][0]["near"]["name"] == "leak");
  CHECK(field.taken("saw loader restriction=6,2 kPa") == "measurement loader 2026-06-15 restriction 6.2 kPa");
  CHECK(field.taken("saw loader Restriction = 6.2") == "measurement loader 2026-06-15 restriction 6.2 kPa");
  CHECK(field.refused("saw loader restriction") == "needs-value");
  CHECK(field.refused("saw loader restriction=6.2 inH2O") == "other-unit");
  CHECK(field.refused("saw loader restriction=6.2 leak as well") == "not-understood");
  CHECK(field.refused("saw loader") == "empty-sign");
  // A machine that is called like a command: what can be read in one way is.
  CHECK(field.taken("saw 120.5") == "reading saw 2026-06-15 120.5 engine");
  CHECK(field.taken("saw saw blade loose") == "sign saw 2026-06-15 blade loose");
  CHECK(field.taken("out of use pump: hot bearing") == "out-of-use pump 2026-06-15 hot bearing");
}

TEST_CASE("a look says what it was, and of safety who looked") {
  Field field;
  must(field, std::string("saw loader leak --on 2026-06-14") + as_of);
  must(field, std::string("saw loader long-pedal --on 2026-06-14") + as_of);
  CHECK(field.taken("looked loader leak found good") == "looked-at loader 2026-06-15 leak good found good");
  CHECK(field.taken("looked loader long pedal by M.T. found worn: pads thin") ==
        "looked-at loader 2026-06-15 long-pedal worn M.T. pads thin");
  CHECK(field.refused("looked loader leak") == "needs-found");
  CHECK(field.refused("looked loader long pedal found good") == "needs-by");
  CHECK(field.says("looked loader long-pedal by WHO found good"));
  CHECK_FALSE(field.says("--by"));
  CHECK(field.refused("looked loader noise found good") == "unknown-sign");
  CHECK(field.refused("looked loader oil leak found good") == "unknown-sign");
  CHECK(field.says("did you mean `leak`?"));
  // Of words that may be part of the sign, the sign that was seen decides.
  must(field, std::string("saw loader drip by door --on 2026-06-14") + as_of);
  CHECK(field.taken("looked loader drip by door found good") ==
        "looked-at loader 2026-06-15 drip by door good found good");
  must(field, std::string("done loader brakes --found failed --on 2026-06-14") + as_of);
  CHECK(field.taken("looked loader brakes found failed by M.T. found good") ==
        "looked-at loader 2026-06-15 brakes found failed good M.T. found good");
}

TEST_CASE("a look at what was not open says so, and where that is open") {
  Field field;
  must(field, std::string("saw pump-3 drip --on 2026-06-13") + as_of);
  must(field, std::string("saw pump drip --on 2026-06-12") + as_of);
  must(field, std::string("looked pump drip --note dry --on 2026-06-13") + as_of);
  field.lines("looked pump drip found good 2026-06-15\n", 0, " --dry-run");
  CHECK(field.answer["answers_nothing"].size() == 1);
  CHECK(field.answer["answers_nothing"][0]["machine"] == "pump");
  CHECK(field.answer["answers_nothing"][0]["open_at"] == json::array({"pump-3"}));
  field.input = "looked pump drip found good 2026-06-15\nlooked pump-3 drip found good\n";
  CHECK(field.run(std::string("import --messages - --dry-run") + as_of) == 0);
  CHECK(field.says("It answers nothing: no `drip` of pump was open.\n  It is open of pump-3.\n"));
  CHECK_FALSE(field.says("no `drip` of pump-3"));
  CHECK(field.run(std::string("looked pump drip --note dry --dry-run") + as_of) == 0);
  CHECK(field.says("It answers nothing: no `drip` of pump was open.\nIt is open of pump-3.\n"));
  field.lines("saw pump hum\nlooked pump hum found good\n", 0, " --dry-run");
  CHECK(field.answer["answers_nothing"].empty());
}

TEST_CASE("the usual tails of a sign are no part of it") {
  Field field;
  const std::string pedal = "sign loader 2026-06-15 long-pedal";
  for (const char* text : {"long-pedal!!", "long-pedal !!", "long-pedal \U0001F525", "long pedal!", "long-pedal today",
                           "long-pedal \u26a0\ufe0f", "long-pedal \U0001F44D"}) {
    CHECK_MESSAGE(field.taken(std::string("saw loader ") + text) == pedal, text);
  }
  CHECK(field.taken("saw loader long-pedal by M.T.") == pedal + " by M.T.");
  CHECK(field.taken("saw loader long-pedal 1511.4") == pedal + " 1511.4");
  CHECK(field.taken("saw loader long-pedal 1511.4 h by M.T.") == pedal + " 1511.4 h; by M.T.");
  for (const char* text : {"long-pedal yesterday by M.T.", "long-pedal by M.T. yesterday"}) {
    CHECK_MESSAGE(field.taken(std::string("saw loader ") + text) == "sign loader 2026-06-14 long-pedal by M.T.", text);
  }
  // What is in its own words keeps its day too.
  CHECK(field.taken("saw loader strange noise yesterday by M.T.") == "sign loader 2026-06-14 strange noise by M.T.");
  CHECK(field.taken("saw loader drip by the door") == "sign loader 2026-06-15 drip by the door");
  CHECK(field.taken("out of use loader brakes pull yesterday by M.T.") ==
        "out-of-use loader 2026-06-14 brakes pull; by M.T.");
  // Several signs are several.
  for (const char* text : {"leak, long-pedal", "leak and long pedal", "leak + long-pedal!!"}) {
    CHECK_MESSAGE(field.taken(std::string("saw loader ") + text) == "sign loader 2026-06-15 leak; " + pedal, text);
  }
  // Where no clause is one, all of it stays as it is, and the answer names them.
  CHECK(field.taken("saw loader a leak and long-pedal") == "sign loader 2026-06-15 a leak and long-pedal");
  CHECK(field.answer["lines"][0]["near"]["command"] == "whichever saw loader long-pedal; whichever saw loader leak");
}

TEST_CASE("a value in words is told the name that is near, and its position") {
  Field field;
  const auto near = [&](const std::string& text) {
    field.taken("saw loader " + text);
    const json& said = field.answer["lines"][0]["near"];
    return said.is_null() ? std::string("none") : said["command"].get<std::string>();
  };
  CHECK(near("restriction: 6.5") == "whichever saw loader restriction=6.5");
  CHECK(near("restriction high") == "whichever saw loader restriction=VALUE");
  CHECK(near("restriction 50 mbar") == "whichever saw loader restriction=VALUE");
  CHECK(near("tread front left 14 mm") == "whichever saw loader tread=14 --position front-left");
  CHECK(near("tread 14 mm") == "whichever saw loader tread=14 --position POSITION");
  CHECK(near("front left tyre tread=14") == "whichever saw loader tread=14 --position front-left");
  CHECK(near("tred=14 front-left") == "whichever saw loader tread=14 --position front-left");
}

TEST_CASE("when a line was sent is its day") {
  Field field;
  const json lines = field.lines(
      "[14/06/2026, 8:05 pm] Anna: loader 1510\n"
      "pump 20\n"                     // goes on
      "saw loader noise yesterday\n"  // of the day before it was sent
      "13.06.2026\n"                  // a day alone
      "pump-3 20\n"
      "Ola Vik, [12.06.2026 07:00]\n"
      "north 20\n"
      "[07:01] Anna: south 20\n"  // a time alone is of the day above it
      "13.04.2026 Anna\n"         // no stamp that anybody understands
      "saw pump smoke\n",
      65);
  const auto day = [&](std::size_t line) { return lines[line]["on"]; };
  CHECK(day(0) == "2026-06-14");
  CHECK(lines[0]["sender"] == "Anna");
  CHECK(day(1) == "2026-06-14");
  CHECK(day(2) == "2026-06-13");
  CHECK(lines[3]["fate"] == "heading");
  CHECK(day(4) == "2026-06-13");
  CHECK(lines[5]["fate"] == "heading");
  CHECK(day(6) == "2026-06-12");
  CHECK(lines[6]["sender"] == "Ola Vik");
  CHECK(day(7) == "2026-06-12");
  CHECK(lines[8]["fate"] == "refused");
  CHECK(lines[9]["fate"] == "refused");
  // A day that is told for all is that of lines that name none: of two days that a stamp may be it says which, and a
  // stamp that names a day wins. From which day `yesterday` counts may not be guessed.
  CHECK(field.refused("03/04/2026, 07:12 - Anna: saw saw smoke", " --on 2026-06-10") == "bad-day");
  CHECK(field.taken("03/04/2026, 07:12 - Anna: saw saw smoke", " --on 2026-04-03") == "sign saw 2026-04-03 smoke");
  CHECK(field.taken("[07:12] Anna: saw saw smoke", " --on 2026-06-10") == "sign saw 2026-06-10 smoke");
  CHECK(field.taken("[05.06.2026, 19:40] Anna: saw saw smoke", " --on 2026-06-10") == "sign saw 2026-06-05 smoke");
  CHECK(field.lines("05.06.2026\nsaw saw smoke\n", 0, " --dry-run --on 2026-06-10")[1]["on"] == "2026-06-05");
  CHECK(field.lines("Monday\nsaw saw smoke\n", 65, " --dry-run --on 2026-06-10")[1]["fate"] == "refused");
  CHECK(field.refused("loader 1511 yesterday", " --on 2026-06-10") == "bad-day");
  // A name without a time is none.
  CHECK(field.refused("Anna: loader 1510") == "unknown-machine");
}

TEST_CASE("lines about one machine are judged together, in their order") {
  Field field;
  const json lines = field.lines("loader 1511.4\nloader 1511\nloader 1509\nloader 1512\n", 65);
  CHECK(lines[0]["fate"] == "taken");
  CHECK(lines[1]["fate"] == "taken");  // read to the whole hour
  CHECK(lines[2]["wrong"][0]["code"] == "values-apart");
  CHECK(field.says("what else is said of it speaks for the other"));
  CHECK(lines[3]["fate"] == "taken");
  CHECK(field.answer["facts"].size() == 3);
  CHECK(field.answer["refused"] == 1);
  // Each is told beside what stood before it, the lines above it too.
  Field other;
  other.input = "loader 1511.4\nloader 1511\nloader 1512\n";
  CHECK(other.run(std::string("import --messages -") + as_of) == 0);
  CHECK(other.says("loader engine: 1500.0 h -> 1511.4 h"));
  CHECK(other.says("1511 h was read to the whole unit: the 1511.4 h before it holds, and no use is counted"));
  CHECK(other.says("loader engine: 1511.4 h -> 1512.0 h, 0.6 h on the same day"));
}

TEST_CASE("a paste is one command") {
  Field field;
  const std::string before = book(field);
  field.lines(
      "[14.06.2026, 08:00] A: loader 1511.4\ncombien 3\nsaw loader leak\n[14.06.2026, 09:00] B: done loader "
      "engine-oil\n",
      65);
  const std::string undo = field.answer["undo"];
  CHECK(field.answer["facts"][0]["batch"] == field.answer["facts"][2]["batch"]);
  must(field, undo.substr(std::string("whichever ").size()));
  must(field, std::string("due --format json") + as_of);
  CHECK(json::parse(field.out)["seen"].empty());
}

TEST_CASE("the same paste again adds nothing, and says so") {
  Field field;
  const std::string paste =
      "loader 1511.4\nsaw loader leak\nlooked loader leak found good\ndone loader engine-oil\nout-of-use pump hot\n";
  field.lines(paste, 0);
  CHECK(field.answer["facts"].size() == 5);
  const std::string before = book(field);
  for (const json& line : field.lines(paste, 0)) CHECK(line["fate"] == "already-there");
  CHECK(field.answer["already_there"] == 5);
  CHECK(book(field) == before);
  // A line alone that says what another one says.
  const json twice = field.lines("pump 10\nPump 10\nnorth 5\n", 0);
  CHECK(twice[1]["fate"] == "said-before");
  CHECK(twice[1]["as_line"] == 1);
  CHECK(field.answer["facts"].size() == 2);
}

TEST_CASE("a sign that was answered since is taken as seen anew") {
  Field field;
  field.lines("saw loader knocking\nout-of-use pump hot\n", 0);
  CHECK(field.lines("saw loader knocking\n", 0)[0]["fate"] == "already-there");
  must(field, std::string("looked loader knocking --note fan") + as_of);
  must(field, std::string("back pump") + as_of);
  const json lines = field.lines("saw loader knocking\nout-of-use pump hot\n", 0);
  for (const json& line : lines) {
    CHECK(line["fate"] == "taken");
    CHECK(line["anew"] == true);
  }
  must(field, std::string("due --overdue --format json") + as_of);
  CHECK(json::parse(field.out)["not_in_use"].size() == 1);
  CHECK(json::parse(field.out)["seen"].size() == 1);
}

TEST_CASE("what is to be minded stands with its line") {
  Field field;
  const auto at = [&](std::string_view text) { return field.out.find(text); };
  field.input = "done loader engine-oil 1511.4\npump 20\n";
  CHECK(field.run(std::string("import --messages -") + as_of) == 0);
  CHECK(at("Check afterwards") > at("1: done loader"));
  CHECK(at("Check afterwards") < at("2: pump"));
  CHECK(at("Write on it: 2026-06-15") < at("2: pump"));
  CHECK(at("tools out, guards on") < at("2: pump"));
  CHECK(field.says("Take it all back: whichever undo "));
  field.input = "saw loader oil leak\npump 21\n";
  CHECK(field.run(std::string("import --messages -") + as_of) == 0);
  CHECK(at("If `leak` was meant") > at("1: saw loader"));
  CHECK(at("If `leak` was meant") < at("2: pump"));
}

// Whatever is pasted: no crash, an answer, and all that was taken is in the book as it was said to be.
TEST_CASE("random text") {
  Field field;
  const std::vector<std::string> pieces{"loader",      "pump",
                                        "Old pump",    "done",
                                        "saw",         "looked",
                                        "reading",     "out",
                                        "of",          "use",
                                        "engine-oil",  "engine oil",
                                        "filter",      "leak",
                                        "1511.4",      "1511,4",
                                        "1520",        "2012",
                                        "h",           "km",
                                        "at",          "on",
                                        "by",          "note",
                                        "found",       "good",
                                        "yesterday",   "today",
                                        "15.06.2026",  "03/04/2026",
                                        "2026-05",     "-3d",
                                        ":",           ",",
                                        ".",           "!",
                                        "?",           "@",
                                        "=",           "--sure",
                                        "--note",      "\"",
                                        "\u201c",      "[",
                                        "]",           "[14/06/2026, 08:15]",
                                        "Anna:",       " - ",
                                        "\u00a0",      "\u200e",
                                        "\u274c",      "\U0001F44D",
                                        "\n",          "\r\n",
                                        "\r",          "\t",
                                        "\x1b",        "\xff",
                                        "\xc3",        "restriction=6.2",
                                        "restriction", "checked",
                                        "tyre",        "front-left",
                                        "and",         "back",
                                        "undo"};
  const bool well = rc::check("nothing is stored that was not said", [&] {
    std::string text;
    for (const auto piece : *rc::gen::container<std::vector<unsigned>>(rc::gen::arbitrary<unsigned>())) {
      if (piece % 11 == 0) {
        text += static_cast<char>(piece % 251);
      } else {
        text += pieces[piece % pieces.size()] + (piece % 3 == 0 ? "" : " ");
      }
    }
    field.input = text;
    const int status = field.run(std::string("import --messages - --format json") + as_of);
    RC_ASSERT(status == 0 || status == 65);
    const json answer = json::parse(field.out);
    std::size_t facts = 0;
    bool refused = false;
    for (const json& line : answer["lines"]) {
      facts += line["facts"].size();
      refused = refused || line["fate"] == "refused" || !line["asks"].empty();
      RC_ASSERT((line["fate"] == "refused") == !line["wrong"].empty());
      RC_ASSERT((line["fate"] == "taken") == !line["facts"].empty());
    }
    RC_ASSERT(facts == answer["facts"].size());
    RC_ASSERT(refused == (status == 65));
    if (facts == 0) return;
    RC_ASSERT(field.run("export --format jsonl") == 0);
    std::vector<json> stored;
    for (std::size_t from = 0; from < field.out.size();) {
      const std::size_t end = field.out.find('\n', from);
      stored.push_back(json::parse(field.out.substr(from, end - from)));
      from = end + 1;
    }
    for (const json& fact : answer["facts"]) RC_ASSERT(std::find(stored.begin(), stored.end(), fact) != stored.end());
    // And what is pasted again adds nothing.
    field.input = text;
    field.run(std::string("import --messages - --format json") + as_of);
    RC_ASSERT(json::parse(field.out)["facts"].empty());
    must(field, "undo " + answer["facts"][0]["batch"].get<std::string>());
  });
  CHECK(well);
}

TEST_CASE("a name behind by is somebody whom the book knows, or initials with points") {
  Field field;
  for (const char* by :
       {"friday", "M.T. not", "nobody", "who?", "tomorrow", "2026-06-20", "1 July", "M.T. not yet", "next week",
        "end of June", "yesterday", "7", "Anna Moen of Oslo", "soon", "M.T. \u274c", "hand", "Jun", "M.T. will do",
        // and what looks like a name
        "summer", "Xmas", "close", "boat", "eod", "lunch", "Anna", "Anna Moen", "M.T. hopefully", "M.T. if free",
        "M.T. failed", "M.T. cancelled", "M.T. left side", "M.T. except filter", "M.T", "MT", "m.t.", "M.", "unknown",
        "P.M.", "A.M.", "E.O.D.", "T.B.C.", "A.S.A.P."}) {
    CHECK_MESSAGE(field.refused(std::string("done loader engine-oil by ") + by) != "", by);
    CHECK_MESSAGE(field.refused(std::string("looked loader leak by ") + by + " found good") != "", by);
    CHECK_MESSAGE(field.refused(std::string("loader 1511.4 by ") + by) != "", by);
  }
  CHECK(field.refused("done loader engine-oil by summer") == "no-name");
  CHECK(field.refused("looked loader leak by friday found good") == "no-name");
  const std::string oil = "service loader 2026-06-15 engine-oil";
  for (const char* by : {"M.T.", "J.P.M.", "\u00c5.S."}) {
    CHECK_MESSAGE(field.taken(std::string("done loader engine-oil by ") + by) == oil + ' ' + by, by);
  }
  CHECK(field.taken("done loader engine-oil by M.T. 1511.4") ==
        "service loader 2026-06-15 1511.4 engine engine-oil M.T.");
  CHECK(field.taken("done loader engine-oil by M.T. yesterday") == "service loader 2026-06-14 engine-oil M.T.");
  CHECK(field.taken("done loader brakes by M.T., found worn") == "service loader 2026-06-15 brakes worn M.T.");
  CHECK(field.taken("loader 1511.4 by M.T.") == "reading loader 2026-06-15 1511.4 engine");
  // Whoever did something that stands in the book is known, of whatever machine, as the book has the name.
  REQUIRE(field.run_words(
              {"done", "combine", "oil", "--by", "Anna Moen", "--on", "2026-05-02", "--as-of", "2026-06-15"}) == 0);
  CHECK(field.taken("done loader engine-oil by anna moen") == oil + " Anna Moen");
  CHECK(field.refused("done loader engine-oil by Anna") == "no-name");
  CHECK(field.refused("done loader engine-oil by Anna Moen hopefully") == "no-name");
  must(field, std::string("done combine belt --by summer --on 2026-05-02") + as_of);
  must(field, std::string("undo") + as_of);
  CHECK(field.refused("done loader engine-oil by summer") == "no-name");  // struck, it is nobody
  CHECK(field.taken("done loader engine-oil by Kari", " --by Kari") == oil + " Kari");
}

TEST_CASE("words behind a service are read by nobody, so it is asked back") {
  Field field;
  for (const char* note : {"half done rest tomorrow", "not done yet", "leaks still", "ok?", "later", "didn't fit",
                           "left side, rest on friday", "a new seal", "pads thin"}) {
    CHECK_MESSAGE(field.refused(std::string("done loader engine-oil note ") + note) == "done-with-words", note);
    CHECK_MESSAGE(field.refused(std::string("done loader brakes found worn by M.T. note ") + note) == "done-with-words",
                  note);
  }
  CHECK(field.refused("done loader engine-oil by M.T. note a new seal") == "done-with-words");
  CHECK(field.says("send it without that"));
  CHECK(field.says("whichever done loader engine-oil --on 2026-06-15 --by M.T. --note 'a new seal'"));
  CHECK(field.taken("done loader brakes found worn by M.T.") == "service loader 2026-06-15 brakes worn M.T.");
}

TEST_CASE("a look says how it was found, or is asked back; found good stands alone") {
  Field field;
  must(field, std::string("saw loader leak --on 2026-06-14") + as_of);
  CHECK(field.refused("looked loader leak: hose worn through, do not use") == "needs-found");
  CHECK(
      field.says("looked loader leak found good, and nothing behind that; looked loader leak found worn: WHAT IT WAS"));
  const std::string looked = "looked-at loader 2026-06-15 leak ";
  CHECK(field.taken("looked loader leak found failed: hose worn through") == looked + "failed hose worn through");
  CHECK(field.taken("looked loader leak: found worn, a loose clamp") == looked + "worn a loose clamp");
  CHECK(field.taken("looked loader leak: a loose clamp. Found worn") == looked + "worn a loose clamp. Found worn");
  CHECK(field.taken("looked loader leak found worn hose split") == looked + "worn hose split");
  CHECK(field.taken("looked loader leak found worn") == looked + "worn found worn");
  for (const char* text : {"leak: found good", "leak found good", "leak found good.", "leak found good \U0001F44D",
                           "leak Found Good!", "leak: found good."}) {
    CHECK_MESSAGE(field.taken(std::string("looked loader ") + text) == looked + "good found good", text);
  }
  CHECK(field.taken("looked loader leak by M.T. found good") == looked + "good M.T. found good");
  CHECK(field.taken("looked loader leak found good by M.T.") == looked + "good M.T. found good");
  CHECK(field.taken("looked loader leak found good on 15.06.2026") == looked + "good found good");
  for (const char* words :
       {"not fixed", "needs new hose", "hose is split", "couldn't get at it", "too dark to see", "taped it up",
        "dripping less", "wet again", "will change friday", "hose on order", "machine was away",
        "the yard one was meant", "I think", "\U0001F44E", "hose worn, do not use", "loose clamp, tightened", "dry"}) {
    for (const char* between : {" found good: ", " found good ", ": found good, ", " found good, ", " found good - "}) {
      CHECK_MESSAGE(field.refused(std::string("looked loader leak") + between + words) == "good-with-words", words);
    }
  }
  CHECK(field.refused("looked loader leak by M.T. found good clamp tightened") == "good-with-words");
  CHECK(field.says("send it without that: looked loader leak by M.T. found good; else say found worn or found failed"));
  CHECK(field.says("whichever looked loader leak --on 2026-06-15 --by M.T. --found good --note 'clamp tightened'"));
  CHECK(field.refused("looked loader leak: not found good") == "needs-found");
  CHECK(field.refused("looked loader leak: found good? no") == "needs-found");
  CHECK(field.refused("looked loader leak found good: found worn") == "said-twice");
}

TEST_CASE("a look that finds worn stays on the list, whether or not a sign was open") {
  Field field;
  field.lines("looked loader leak by M.T. found good\n", 0);
  field.lines("looked loader leak by A.F. found worn: hose split\n", 0);
  must(field, std::string("due --format json") + as_of);
  const json list = json::parse(field.out);
  bool is_due = false;
  for (const json& point : list["points"]) is_due = is_due || (point["task"] == "hoses" && point["standing"] == "due");
  CHECK(is_due);
  // The same day's good look, of which nobody knows whether it came before that.
  CHECK(field.refused("looked loader leak by J.P. found good") == "which-came-first");
  field.input = "looked loader leak found worn\n";
  CHECK(field.run(std::string("import --messages -") + as_of) == 0);
  CHECK(field.run(std::string("looked loader leak --note dry") + as_of) == 0);
  CHECK_FALSE(field.says("answers nothing"));
}

TEST_CASE("a position is named, or all of them") {
  Field field;
  CHECK(field.refused("done loader tyre") == "needs-position");
  CHECK(field.says("tyre@front-left, tyre@front-right, or tyre@all"));
  CHECK(field.refused("done loader engine-oil, tyre") == "needs-position");  // the oil neither
  CHECK(field.refused("done loader tyre left front") == "needs-position");
  CHECK(field.says("has positions, and `left front` is none of them"));
  const std::string left = "service loader 2026-06-15 tyre front-left";
  for (const char* text : {"tyre@front-left", "tyre front left", "tyre @ front left", "tyre at front left"}) {
    CHECK_MESSAGE(field.taken(std::string("done loader ") + text) == left, text);
  }
  CHECK(field.taken("done loader tyre front left and front right") ==
        left + "; service loader 2026-06-15 tyre front-right");
  for (const char* text : {"tyre all", "tyre@all", "tyre both"}) {
    CHECK_MESSAGE(field.taken(std::string("done loader ") + text) == "service loader 2026-06-15 tyre", text);
  }
  CHECK(field.refused("saw loader tread=31") == "needs-position");
  CHECK(field.says("tread@front-left, tread@front-right, or tread@all"));
  const std::string tread = "measurement loader 2026-06-15 front-left tread 31 mm";
  for (const char* text :
       {"tread@front-left=31", "tread front left = 31 mm", "tread=31 at front-left", "tread=31 mm position front left",
        "tread=31 front-left", "tread=31mm@front-left", "tread=31 --position front-left"}) {
    CHECK_MESSAGE(field.taken(std::string("saw loader ") + text) == tread, text);
  }
  CHECK(field.taken("saw loader tread@all=31") == "measurement loader 2026-06-15 tread 31 mm");
  CHECK(field.refused("saw loader tread@middle=31") == "unknown-position");
  CHECK(field.refused("saw loader tread=31 at middle") == "not-understood");
  CHECK(field.refused("saw loader tread@front-left=-31") == "below-nothing");
}

TEST_CASE("lines are taken in the order in which they were sent") {
  Field field;
  const json lines = field.lines(
      "[15.06.2026, 18:00] Anna: done loader hoses\n"
      "[15.06.2026, 7:10 am] Ola: saw loader leak\n"
      "[15.06.2026, 7:00 am] Ola: loader 1510\n"
      "[15.06.2026, 12:00] Ola: loader 1514\n",
      0);
  CHECK(lines[0]["line"] == 1);
  CHECK(lines[0]["clears"][0]["sign"] == "leak");
  must(field, std::string("due loader --format json") + as_of);
  bool is_due = false;
  const json list = json::parse(field.out);
  for (const json& point : list["points"]) {
    is_due = is_due || (point["task"] == "hoses" && point["standing"] == "due");
  }
  CHECK_FALSE(is_due);
}

TEST_CASE("what may have come before a sign of the day does not answer it") {
  Field field;
  must(field, std::string("saw loader leak") + as_of);
  CHECK(field.refused("done loader hoses") == "which-came-first");
  CHECK(field.says("whichever done loader hoses --on 2026-06-15"));
  CHECK(field.refused("looked loader leak found good") == "which-came-first");
  CHECK(field.refused("[15.06.2026, 08:00] A: looked loader leak found good\n") == "which-came-first");
  // The text tells of the sign itself, before: that is known.
  const json known = field.lines("saw loader leak\nlooked loader leak found good\n", 0, " --dry-run");
  CHECK(known[0]["fate"] == "already-there");
  CHECK(known[1]["clears"][0]["sign"] == "leak");
  Field other;
  const json answered = other.lines(
      "[15.06.2026, 10:00] A: done loader hoses\n[15.06.2026, 09:00] A: saw loader leak\n", 0, " --dry-run");
  CHECK(answered[0]["clears"][0]["on"] == "2026-06-15");
  other.input = "[14.06.2026, 10:00] A: saw loader leak\n[15.06.2026, 09:00] A: done loader hoses\n";
  CHECK(other.run(std::string("import --messages -") + as_of) == 0);
  CHECK(other.says("This answers: leak, seen 2026-06-14"));
}

TEST_CASE("what a line answers is said once") {
  Field field;
  must(field, std::string("saw loader grinding noise --on 2026-06-13") + as_of);
  field.input = "looked loader grinding noise by M.T. found good";
  CHECK(field.run(std::string("import --messages -") + as_of) == 0);
  CHECK(field.says("This answers: grinding noise, seen 2026-06-13"));
  CHECK_FALSE(field.says("No more to be looked at"));
  // What no line names as answered is said all the same: a measured value that was kept.
  must(field, std::string("saw pump vibration=7 --on 2026-06-13") + as_of);
  field.input = "looked pump vibration 7 by M.T. found good";
  CHECK(field.run(std::string("import --messages -") + as_of) == 0);
  CHECK(field.says("No more to be looked at: pump: vibration 7"));
}

TEST_CASE("an amount of something is not led to as a sign") {
  Field field;
  for (const char* text : {"loader 45 litres", "loader 45 Liters.", "loader 45 litres of diesel", "loader 12 bar"}) {
    const json line = field.lines(text, 65, " --dry-run").at(0);
    CHECK(line["wrong"][0]["code"] == "other-unit");
    const std::string hint = line["wrong"][0]["hint"];
    CHECK_MESSAGE(hint.find("saw ") == std::string::npos, hint);
    CHECK_MESSAGE(hint.find("say the value as it shows it") != std::string::npos, hint);
  }
  const std::string smoke = field.lines("loader 1511 smoke", 65, " --dry-run").at(0)["wrong"][0]["hint"];
  CHECK_MESSAGE(smoke.find("saw loader smoke") != std::string::npos, smoke);
}

TEST_CASE("a text in UTF-16 is read, and that is said") {
  for (const bool little : {true, false}) {
    Field field;
    const json lines = field.lines(cli_test::utf16("loader 1511.4\r\nsaw loader leak\r\n", little), 0);
    REQUIRE(lines.size() == 2);
    CHECK(lines[0]["text"] == "loader 1511.4");
    CHECK(lines[1]["fate"] == "taken");
    CHECK(field.answer["understood"] == json{"read as UTF-16"});
    field.input = cli_test::utf16("saw loader smoke", little);
    CHECK(field.run(std::string("import --messages -") + as_of) == 0);
    CHECK(field.out.starts_with("read as UTF-16\n"));
    CHECK(field.says("loader: sign smoke"));
    // Cut off within a letter.
    const std::string before = book(field);
    field.input = cli_test::utf16("saw loader rattle", little) + "x";
    CHECK(field.run(std::string("import --messages -") + as_of) == 65);
    CHECK(field.complains("the text is UTF-16 that is cut off or broken"));
    CHECK(book(field) == before);
  }
  Field field;
  field.lines("loader 1511.4", 0);
  CHECK(field.answer["understood"].empty());
}

TEST_CASE("below a stamp that nobody understands no day is known") {
  Field field;
  for (const char* stamp :
       {"14 Jux 2026, 19:40 - A.F.: hi", "[1\xff/06/2026, 18:05] A.F.: hi", "14/06/2026, 18:05 - A\xff: hi", "15.06",
        "[14th, 07:10] A.F.: hi", "Monday", "A.F., [14.06.20 26 07:10]", "--- June 14 ---", "----", "* * *",
        "Messages of 14 June", "Kari:", "sent at 7:40", "the week of 2026", "2026-06-14T19:43:11Z A.F.: hi",
        "and since yesterday"}) {
    const std::string text = std::string("[13.06.2026, 07:00] Anna: pump 20\n") + stamp + "\nloader 1511.4\n";
    const json lines = field.lines(text, 65, " --dry-run");
    CHECK(lines[0]["on"] == "2026-06-13");
    CHECK(lines[1]["fate"] == "refused");
    CHECK_MESSAGE(lines[2]["wrong"][0]["code"] == "bad-day", stamp);
  }
  const json lines = field.lines("13.06.2026\n[07:50] A.F.: pump 20\n", 0, " --dry-run");
  CHECK(lines[0]["fate"] == "heading");
  CHECK(lines[1]["on"] == "2026-06-13");
  CHECK(field.refused("[07:50] A.F.: pump 20") == "bad-day");
  CHECK(field.lines("thanks!\nloader 1511\n", 65, " --dry-run")[1]["fate"] == "taken");  // no stamp at all
  // A machine that is mistyped is no divider.
  CHECK(field.lines("[13.06.2026, 07:00] A: pump 20\nlodaer 1511.4 14.06.2026\npump-3 20\n", 65,
                    " --dry-run")[2]["on"] == "2026-06-13");
}

TEST_CASE("a day between dividers is the day of the lines below") {
  Field field;
  for (const char* stamp : {"--- 14 June 2026 ---", "=== 14.06.2026 ===", "\u2014 14 June 2026 \u2014",
                            "2026-06-14T19:43:11 M.T.:", "M.T., [14.06.2026 19:45]: thanks", "** 2026-06-14 **"}) {
    const std::string text = std::string("[10.06.2026, 07:00] M.T.: pump 20\n") + stamp + "\nloader 1511.4\n";
    field.input = text;
    field.run(std::string("import --messages - --format json --dry-run") + as_of);
    CHECK_MESSAGE(json::parse(field.out)["lines"][2]["on"] == "2026-06-14", stamp);
  }
  CHECK(field.taken("2026-06-14T19:43:11 M.T.: loader 1511.4") == "reading loader 2026-06-14 1511.4 engine");
  CHECK(field.taken("M.T., [14.06.2026 19:45]: loader 1511.4") == "reading loader 2026-06-14 1511.4 engine");
}

TEST_CASE("an old message pasted again is not news") {
  Field field;
  field.lines("[10.06.2026, 08:00] A: saw loader leak\nsaw loader knocking\n", 0);
  must(field, std::string("looked loader knocking --note fan --on 2026-06-12") + as_of);
  must(field, std::string("done loader hoses --on 2026-06-12") + as_of);
  for (const json& line : field.lines("[10.06.2026, 08:00] A: saw loader leak\nsaw loader knocking\n", 0)) {
    CHECK(line["fate"] == "already-there");
  }
  // Without a day of its own, the same again is the same message.
  field.lines("[11.06.2026, 08:00] A: loader 1511.4\ndone loader engine-oil\n", 0);
  CHECK(field.refused("loader 1511.4") == "told-lately");
  CHECK(field.says("loader 1511.4 2026-06-15"));
  CHECK(field.refused("done loader engine-oil") == "told-lately");
  CHECK(field.taken("loader 1511.4 2026-06-15") == "reading loader 2026-06-15 1511.4 engine");
}

TEST_CASE("a look and a sign that the book has of a day before ask for their day too") {
  Field field;
  const auto paste = [&](const std::string& text, const std::string& day) {
    field.input = text;
    field.run("import --messages - --format json --as-of " + day);
    return json::parse(field.out)["lines"][0];
  };
  paste("looked loader long-pedal by M.T. found good\n", "2026-06-10");
  paste("saw loader long-pedal\n", "2026-06-11");
  // The old line, pasted again: it would answer what was seen since.
  const json old = paste("looked loader long-pedal by M.T. found good\n", "2026-06-12");
  REQUIRE(old["fate"] == "refused");
  CHECK(old["wrong"][0]["code"] == "told-lately");
  CHECK(paste("looked loader long-pedal by M.T. found good 2026-06-12\n", "2026-06-12")["fate"] == "taken");
  CHECK(paste("saw loader long-pedal\n", "2026-06-13")["wrong"][0]["code"] == "told-lately");
  CHECK(paste("saw loader long-pedal 2026-06-13\n", "2026-06-13")["fate"] == "taken");
  CHECK(paste("saw loader long-pedal\n", "2026-06-25")["fate"] == "taken");  // more than a week later
  // So does a value below its limit, and what the office entered.
  must(field, "saw loader restriction=4 --on 2026-06-12 --as-of 2026-06-13");
  CHECK(paste("saw loader restriction=4\n", "2026-06-14")["wrong"][0]["code"] == "told-lately");
  paste("looked loader long-pedal found worn by M.T.: pads\n", "2026-06-26");
  const json worn = paste("looked loader long-pedal found worn by M.T.: pads\n", "2026-06-27");
  CHECK(worn["wrong"][0]["hint"] == "where it is not, say its day before the colon, as 2026-06-27");
  CHECK(paste("looked loader long-pedal found worn 2026-06-27 by M.T.: pads\n", "2026-06-27")["fate"] == "taken");
}

TEST_CASE("what may be dropped by mistake is not said to be too much") {
  Field field;
  CHECK(field.refused("loader 2099 sorry 2081") == "not-understood");
  CHECK(field.says("say the right value alone"));
  CHECK(field.refused("loader it says 2081 I believe") == "not-understood");
  CHECK(field.says("where its meter shows 2081, say loader 2081 alone"));
  for (const char* text :
       {"loader is at 1511.4", "loader now 1511.4", "loader hours 1511.4", "loader engine: 1511.4",
        "loader is now at 1511.4 h", "loader 1511.4 <This message was edited>", "loader 1511.4 by M.T."}) {
    CHECK_MESSAGE(field.taken(text) == "reading loader 2026-06-15 1511.4 engine", text);
  }
  CHECK(field.taken("combine separator: 80") == "reading combine 2026-06-15 80 separator");
  CHECK(field.refused("loader 2099 2081") == "said-twice");
  CHECK(field.says("say the right value alone"));
  for (const char* text : {"loader 3349 miles", "loader 45 litres", "loader 3349 miles yesterday"}) {
    CHECK_MESSAGE(field.refused(text) == "other-unit", text);
    CHECK(field.says("its meter counts h"));
  }
  CHECK(field.refused("north 3 hours today") == "value-or-duration");
  CHECK(field.taken("north at 3 hours today") == "reading north 2026-06-15 3 engine");
  CHECK(field.refused("loader 1511.4 leaking oil") == "not-understood");
  CHECK(field.says("saw loader leaking oil; where it must not run, out-of-use loader"));
  CHECK(field.refused("loader brakes gone!!!") == "not-understood");
  CHECK(field.says("where it must not run, out-of-use loader"));
  CHECK(field.refused("out of use loader tomorrow") == "bad-day");
  CHECK(field.refused("out-of-use loader from next week") == "bad-day");
  CHECK(field.taken("out of use loader brakes pull") == "out-of-use loader 2026-06-15 brakes pull");
  const std::string longer(500, 'x');
  field.input = "loader " + longer + "\n";
  CHECK(field.run(std::string("import --messages -") + as_of) == 65);
  CHECK(field.out.find(std::string(194, 'x')) == std::string::npos);
  field.input.clear();
  for (int i = 0; i < 2001; ++i) field.input += "thanks\n";
  CHECK(field.run(std::string("import --messages -") + as_of) == 65);
  CHECK(field.err.find("it has 2001 lines, and more than 2000 are not read at once") != std::string::npos);
}

TEST_CASE("how to say that a value is right is in the words of messages") {
  Field field;
  field.input = "loader 2400\n";
  CHECK(field.run(std::string("import --messages - --dry-run") + as_of) == 0);
  CHECK(field.says("If it is right, say `sure` at the end of the line"));
  CHECK_FALSE(field.says("--sure"));
  field.input = "done loader air-primary\n";
  CHECK(field.run(std::string("import --messages - --dry-run") + as_of) == 0);
  CHECK_FALSE(field.says("--at"));
}

TEST_CASE("stamps of many kinds, settled by all of a paste") {
  Field field;
  const auto days = [&](const std::string& text) {
    std::string said;
    for (const json& line : field.lines(text, 0, " --dry-run")) said += " " + line["on"].get<std::string>();
    return said;
  };
  CHECK(days("[12/06/2026, 07:40] A: pump 20\n[14/06/2026, 07:40] A: pump 21\n") == " 2026-06-12 2026-06-14");
  CHECK(days("[6/14/26, 7:40:12 PM] A: pump 21\n[6/12/26, 7:40 PM] A: pump 20\n") == " 2026-06-14 2026-06-12");
  CHECK(days("15.06.26, 07:40 - A: pump 20\n2026-06-13 07:40 A.F.: pump 19\n15 Jun 2026, 07:50 - A.F.: pump 20.1\n"
             "June 15, 2026 8:00 am A.F.: pump 20.3\n15/6/26 08:44 A.F.: pump 21\n") ==
        " 2026-06-15 2026-06-13 2026-06-15 2026-06-15 2026-06-15");
  // Neither does any other stamp say, nor do two that contradict each other.
  for (const char* other :
       {"[11/06/2026, 07:00] A: pump 19\n", "[6/14/26, 07:00] A: pump 19\n[14/6/26, 07:00] B: pump 19\n"}) {
    const json lines = field.lines(std::string("[12/06/2026, 07:40] A: pump 20\n") + other, 65, " --dry-run");
    CHECK(lines[0]["wrong"][0]["code"] == "bad-day");
    CHECK(field.says("the stamp `12/06/2026, 07:40` could be of 2026-06-12 or 2026-12-06"));
  }
}

TEST_CASE("a word that counts from when it is read names no day for what the record has already") {
  const auto paste = [](Field& field, const std::string& text, const std::string& day, const std::string& more = "") {
    field.input = text;
    field.run("import --messages - --format json" + more + " --as-of " + day);
    return json::parse(field.out)["lines"];
  };
  const auto code = [](const json& line) {
    return line["wrong"].empty() ? line["fate"].get<std::string>() : line["wrong"][0]["code"].get<std::string>();
  };
  for (const char* word : {" today", " yesterday", " -0d", " Today."}) {
    Field field;
    const std::string look = std::string("looked loader leak by M.T. found good") + word;
    CHECK(code(paste(field, look, "2026-06-12")[0]) == "taken");
    must(field, "saw loader leak --as-of 2026-06-13");
    const json line = paste(field, look, "2026-06-15")[0];
    CHECK_MESSAGE(code(line) == "told-lately", word);
    CHECK(line["clears"].empty());
    const std::string hint = line["wrong"][0]["hint"];
    const std::string day = std::string(word) == " yesterday" ? "2026-06-14" : "2026-06-15";
    const std::string cure = "looked loader leak by M.T. found good " + day;
    CHECK(hint == "where it is not, say its day as a date: " + cure);
    CHECK(code(paste(field, cure, "2026-06-15")[0]) == "taken");
  }
  // Nor does a stamp of that kind, nor a time below it.
  for (const char* head : {"Today\n", "Yesterday\n", "Today, 07:40 - A: ", "Today\n[07:40] A: "}) {
    Field field;
    const std::string text = head + std::string("done loader engine-oil by M.T.\n");
    CHECK(code(paste(field, text, "2026-06-12").back()) == "taken");
    CHECK_MESSAGE(code(paste(field, text, "2026-06-14").back()) == "told-lately", head);
  }
  // A date does, and a word beside a stamp that is one.
  Field field;
  paste(field, "[11.06.2026, 07:00] A: done loader engine-oil yesterday\n", "2026-06-15");
  CHECK(code(paste(field, "[12.06.2026, 07:00] A: done loader engine-oil today\n", "2026-06-15")[0]) == "taken");
  CHECK(code(paste(field, "done loader engine-oil 2026-06-13\n", "2026-06-15")[0]) == "taken");
}

TEST_CASE("who did what clears something, and what else was said of it, makes it no other message") {
  Field field;
  must(field, "looked loader leak --note dry --by A.F. --on 2026-06-11 --as-of 2026-06-15");
  must(field, "saw loader leak --on 2026-06-12 --as-of 2026-06-15");
  CHECK(field.refused("looked loader leak by M.T. found good") == "told-lately");
  CHECK(field.refused("looked loader leak found good", " --by M.T.") == "told-lately");
  must(field, "done loader engine-oil --at 1510 --by A.F. --note all --on 2026-06-11 --as-of 2026-06-15");
  CHECK(field.refused("done loader engine-oil by M.T.") == "told-lately");
  CHECK(field.taken("done loader engine-oil 1512") == "service loader 2026-06-15 1512 engine engine-oil");
  CHECK(field.taken("looked loader leak by M.T. found good 2026-06-15") ==
        "looked-at loader 2026-06-15 leak good M.T. found good");
  // What raises something is another message in other words.
  must(field, "saw loader long-pedal --note badly --on 2026-06-12 --as-of 2026-06-15");
  CHECK(field.taken("saw loader long-pedal") == "sign loader 2026-06-15 long-pedal");
}

TEST_CASE("how it was found, behind done, may mean that somebody only looked") {
  Field field;
  for (const char* text :
       {"hoses found failed by M.T.", "hoses found worn", "engine-oil found good", "brakes found good by M.T.",
        "engine-oil, brakes found worn", "engine-oil --found worn", "engine-oil/check-leaks found good"}) {
    CHECK_MESSAGE(field.refused(std::string("done loader ") + text) == "found-or-done", text);
  }
  CHECK(field.refused("done loader hoses found failed by M.T.") == "found-or-done");
  CHECK(field.says("saw loader SIGN, and where it must not run, out-of-use loader"));
  CHECK(field.says("whichever done loader hoses --on 2026-06-15 --by M.T. --found failed"));
  // A check that never waits stays on the list with it.
  CHECK(field.taken("done loader brakes found failed") == "service loader 2026-06-15 brakes failed");
}

TEST_CASE("a cure has the day of what it mends") {
  Field field;
  const json line = field.lines("[10.06.2026, 07:00] A: saw loader the long-pedal\n", 0, " --dry-run")[0];
  CHECK(line["near"]["command"] == "whichever saw loader long-pedal --on 2026-06-10");
  const json both =
      field.lines("[10.06.2026, 07:00] A: saw loader a leak, the long-pedal and a hum\n", 0, " --dry-run")[0];
  CHECK(both["near"]["command"] ==
        "whichever saw loader long-pedal --on 2026-06-10; whichever saw loader leak --on 2026-06-10");
  field.lines("[10.06.2026, 07:00] A: saw loader restriction 6.2\n", 0, " --dry-run");
  CHECK(field.says("whichever saw loader restriction=6.2 --on 2026-06-10"));
  field.input = "[10.06.2026, 07:00] A: loader leaks oil\nloader leaks oil 2026-06-09\nthanks\n";
  CHECK(field.run(std::string("import --messages - --dry-run") + as_of) == 65);
  const std::string said = "It is of 2026-06-10: say that day when it is sent anew.";
  CHECK(field.says(said));
  CHECK(field.out.find(said) == field.out.rfind(said));  // not of a line that has a day, nor of one about no machine
  field.lines("[10.06.2026, 07:00] A: looked loader long-pedal found good\n", 65, " --dry-run");
  CHECK(field.says("looked loader long-pedal by WHO found good 2026-06-10"));
  // The typed command likewise.
  must(field, std::string("saw loader the long-pedal --on 2026-06-10") + as_of);
  CHECK(field.says("whichever saw loader long-pedal --on 2026-06-10"));
}

TEST_CASE("a sign in its own words that may be one of a safety task is looked at as one") {
  Field field;
  must(field, std::string("saw loader the long-pedal --on 2026-06-10") + as_of);
  CHECK(field.says("whichever looked loader \"the long-pedal\" --by WHO --found HOW --note"));
  CHECK(field.refused("looked loader the long-pedal found good") == "needs-by");
  CHECK(field.taken("looked loader the long-pedal by M.T. found good") ==
        "looked-at loader 2026-06-15 the long-pedal good M.T. found good");
  CHECK(field.run_words({"looked", "loader", "the long-pedal", "--note", "ok", "--as-of", "2026-06-15"}) == 64);
  CHECK(field.complains("how it was found is not said"));
  CHECK(field.run_words(
            {"looked", "loader", "the long-pedal", "--note", "ok", "--found", "good", "--as-of", "2026-06-15"}) == 65);
  CHECK(field.complains("nobody is named who looked"));
  must(field, std::string("saw loader oil leak --on 2026-06-10") + as_of);  // of a task that may wait
  CHECK(field.taken("looked loader oil leak found good") == "looked-at loader 2026-06-15 oil leak good found good");
}

TEST_CASE("a look of a day before the sign says that it answers nothing") {
  Field field;
  must(field, std::string("saw loader leak --on 2026-06-11") + as_of);
  must(field, std::string("saw pump drip --on 2026-06-11") + as_of);
  for (const char* look :
       {"looked loader leak by M.T. found good 2026-06-05", "looked pump drip found good 2026-06-05"}) {
    field.lines(look, 0, " --dry-run");
    REQUIRE(field.answer["answers_nothing"].size() == 1);
    CHECK(field.answer["answers_nothing"][0]["seen_later"] == "2026-06-11");
  }
  field.input = "looked loader leak by M.T. found good 2026-06-05\n";
  CHECK(field.run(std::string("import --messages - --dry-run") + as_of) == 0);
  CHECK(field.says("It answers nothing: leak, seen 2026-06-11, is later than that day.\n"));
  CHECK_FALSE(field.says("This answers"));
  CHECK(field.run(std::string("looked pump drip --note dry --on 2026-06-05 --dry-run") + as_of) == 0);
  CHECK(field.says("It answers nothing: drip, seen 2026-06-11, is later than that day.\n"));
  for (const char* look :
       {"looked loader leak by M.T. found good 2026-06-12", "looked loader leak by M.T. found good"}) {
    field.lines(look, 0, " --dry-run");
    CHECK(field.answer["answers_nothing"].empty());
  }
}

TEST_CASE("words around a listed sign that take nothing back are its note") {
  Field field;
  const std::string pedal = "sign loader 2026-06-15 long-pedal";
  for (const char* text : {"long-pedal...", "long-pedal …", "long-pedal 😱", "long-pedal😱", "🚨 long pedal",
                           "🚨long-pedal", "long-pedal . . ."}) {
    CHECK_MESSAGE(field.taken(std::string("saw loader ") + text) == pedal, text);
  }
  for (const char* words : {"again", "badly", "ASAP", "this morning", "last night", "(M.T.)", "on Friday",
                            "again this morning", "badly (M.T.)"}) {
    CHECK_MESSAGE(field.taken(std::string("saw loader long pedal ") + words) == pedal + ' ' + words, words);
  }
  CHECK(field.taken("saw loader still long-pedal") == pedal + " still");
  for (const char* text : {"leak/long-pedal", "leak / long-pedal", "leak/long pedal!!"}) {
    CHECK_MESSAGE(field.taken(std::string("saw loader ") + text) == "sign loader 2026-06-15 leak; " + pedal, text);
  }
  // What may say that there is none, or something else, stays as it is.
  for (const char* text : {"no long-pedal", "long-pedal gone", "long-pedal ❌", "long-pedal 👎", "long-pedal not again",
                           "long-pedal (fixed)", "long-pedal in cold"}) {
    CHECK_MESSAGE(field.taken(std::string("saw loader ") + text) == std::string("sign loader 2026-06-15 ") + text,
                  text);
    CHECK(field.answer["lines"][0]["near"]["name"] == "long-pedal");
  }
}

TEST_CASE("a mistyped task is near to one, whoever did it") {
  Field field;
  for (const char* text : {"done loader engne-oil by M.T.", "done loader engine_oil by M.T.",
                           "done loader brake by M.T.", "done loader filtr found worn"}) {
    CHECK_MESSAGE(field.refused(text) == "unknown-task", text);
    CHECK_MESSAGE(field.says("did you mean"), text);
  }
}

TEST_CASE("a line in no words of a command is near to none") {
  Field field;
  for (const char* text : {"reding gemacht", "loked not done", "not 1712 but 1765", "lodaer not done"}) {
    CHECK_MESSAGE(field.refused(text) == "not-understood", text);
    CHECK_MESSAGE(!field.says("did you mean"), text);
  }
  CHECK(field.refused("redaing loader 1511.4") == "not-understood");
  CHECK(field.says("did you mean `reading`?"));
}
