// The commands that write, in process: what they say, what they store, and how it is taken back.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "unit/cli/asking.h"

using cli_test::book;
using cli_test::Place;

namespace {

std::string due_list(Place& place) {
  REQUIRE(place.run("due --all --format json") == 0);
  return place.out;
}

}  // namespace

TEST_CASE("a reading tells the step, the due list and the way back") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 1250 --on 2026-06-06") == 0);
  REQUIRE(place.run("reading loader 1275.4") == 0);
  CHECK(place.says("Saved:"));
  CHECK(place.says("loader engine: 1250.0 h -> 1275.4 h, 25.4 h in 9 days"));
  CHECK(place.says("Take it back: whichever undo"));
  REQUIRE(place.run("reading loader 1275.4") == 0);
  CHECK(place.says("Saved"));  // whoever types it means it
}

TEST_CASE("a dry run says the same and stores nothing") {
  Place place;
  place.furnish();
  const std::string before = book(place);
  REQUIRE(place.run("reading loader 1275.4 --dry-run") == 0);
  CHECK(place.says("Nothing was stored"));
  CHECK(place.says("1275.4 h"));
  CHECK_FALSE(place.says("Saved"));
  CHECK_FALSE(place.says("undo"));
  CHECK(book(place) == before);
}

TEST_CASE("a reading that cannot be true is refused and changes nothing") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 1250 --on 2026-06-06") == 0);
  const std::string before = book(place);
  CHECK(place.run("reading loader 900") == 65);
  CHECK(place.complains("lower than"));
  CHECK(place.run("reading loader 9000") == 65);
  CHECK(place.run("reading loader 1300 --on 2026-06-16") == 65);  // tomorrow
  CHECK(book(place) == before);
}

TEST_CASE("a roll-over is understood and said") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 9990 --on 2026-06-06") == 0);
  REQUIRE(place.run("reading loader 12 --on 2026-06-15") == 0);
  CHECK(place.says("roll-over"));
  CHECK(place.says("22.0 h in 9 days"));
}

TEST_CASE("names mistyped on the command line are usage errors with the nearest name") {
  Place place;
  place.furnish();
  CHECK(place.run("reading loadr 5") == 64);
  CHECK(place.complains("did you mean `loader`"));
  CHECK(place.run("done loader engine-oli") == 64);
  CHECK(place.complains("did you mean `engine-oil`"));
  CHECK(place.run("done loader tyre@front-rigth") == 64);
  CHECK(place.complains("did you mean `front-right`"));
  CHECK(place.run("reading loader 5 --meter engin") == 64);
  CHECK(place.complains("did you mean `engine`"));
  CHECK(place.run("due --site yrd") == 64);
  CHECK(place.complains("did you mean `yard`"));
  CHECK(place.run("done loader engine-oil --found wron") == 64);
  CHECK(place.complains("worn"));
}

TEST_CASE("done says what to write on the new element and what changed") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 1511.4 --on 2026-06-14") == 0);
  REQUIRE(place.run("done loader engine-oil --at 1511.4 --by Una --found worn") == 0);
  CHECK(place.says("Write on it: 2026-06-15 · 1511.4 h"));
  CHECK(place.says("engine-oil: overdue -> later, next due at 1761.4 h or 2027-06-15"));
  CHECK(place.says("by Una"));
  CHECK(place.says("engine-oil/check-leaks: not listed -> "));
}

TEST_CASE("done says what to check afterwards, in the schedule's words, and what to mind") {
  Place place;
  place.furnish();
  std::string schedule = place.read("schedules/tractor.yaml");
  schedule.insert(schedule.find("    follow-up:"), "    cautions: [fluid-under-pressure, \"Mind the geese\"]\n");
  place.write("schedules/tractor.yaml", schedule);
  REQUIRE(place.run("done loader engine-oil --at 1511.4") == 0);
  CHECK(place.says("Check afterwards:\n  engine-oil/check-leaks: Run, stop, look for leaks; 1.0 h left of 1 h\n"));
  CHECK(place.says("  fluid-under-pressure: Fluid under pressure goes through skin"));
  CHECK(place.says("  Mind the geese\n"));
  CHECK(place.says("  Afterwards: tools out, guards on"));
  REQUIRE(place.run("done loader engine-oil --at 1511.4 --checked --format json") == 0);
  CHECK(place.says("\"checks_owed\": []"));
  REQUIRE(place.run("reading loader 1512.4") == 0);
  CHECK_FALSE(place.says("Check afterwards"));
}

TEST_CASE("done with checked owes no check") {
  Place place;
  place.furnish();
  REQUIRE(place.run("done loader engine-oil --at 1511.4 --checked") == 0);
  CHECK(place.says("engine-oil/check-leaks"));
  REQUIRE(place.run("why loader engine-oil/check-leaks --format json") == 64);
  REQUIRE(place.run("due --machine loader") == 0);
  CHECK_FALSE(place.says("check-leaks"));
}

TEST_CASE("done takes a year or a month and no future") {
  Place place;
  place.furnish();
  REQUIRE(place.run("done loader engine-oil tyre --on 2025-05") == 0);
  CHECK(place.says("Write on it: 2025-05"));
  REQUIRE(place.run("done loader hoses --on 2025") == 0);
  REQUIRE(place.run("due --all") == 0);
  CHECK(place.says("month only"));
  CHECK(place.says("year only"));
  CHECK(place.run("done loader hoses --on 2027") == 65);
  CHECK(place.run("reading loader 5 --on 2025") == 64);
  CHECK(place.run("done loader hoses --meter engine") == 64);
}

TEST_CASE("signs and measurements are written down and judged") {
  Place place;
  place.furnish();
  REQUIRE(place.run("done loader hoses tyre --on 2026-06-01") == 0);
  REQUIRE(place.run("saw loader leak") == 0);
  CHECK(place.says("hoses: later -> due, leak seen 2026-06-15"));
  REQUIRE(place.run("saw loader tread=12.5 --position front-left") == 0);
  CHECK(place.says("tread@front-left 12.5 mm"));
  CHECK(place.says("tyre@front-left: later -> overdue"));
  const std::string before = book(place);
  CHECK(place.run("saw loader tread=12") == 64);  // of which tyre
  CHECK(place.complains("`tread` of loader is measured at positions, and none is named; nothing was stored"));
  CHECK(place.complains("--position front-left, --position front-right; or --position all"));
  CHECK(book(place) == before);
  REQUIRE(place.run("saw loader tread=12 --position all --dry-run") == 0);
  CHECK(place.says("measurement tread 12 mm"));
  CHECK(place.run("saw loader tread=1,255") == 64);
  CHECK(place.run("saw loader tread=") == 64);
  CHECK(place.run("saw loader tread=5 --unit inch --position all") == 65);
  CHECK(place.run("saw loader leak --unit mm") == 64);
}

TEST_CASE("a measurement may be typed with blanks, and nothing is not something that was seen") {
  Place place;
  place.furnish();
  for (const char* const typed : {"saw loader tread = 12", "saw loader tread= 12", "saw loader tread =12"}) {
    REQUIRE(place.run(std::string(typed) + " --position all") == 0);
    CHECK(place.says("measurement tread 12 mm"));
  }
  REQUIRE(place.run("saw loader leak tread = 12 --position both") == 0);
  CHECK(place.says("sign leak,"));
  REQUIRE(place.run_words({"saw", "loader", " tread = 12 ", "--position", "all"}) == 0);
  CHECK(place.says("measurement tread 12 mm"));
  const std::string before = book(place);
  for (const char* const empty : {"", "  ", "=12", " = 12", "tread="}) {
    CAPTURE(empty);
    CHECK(place.run_words({"saw", "loader", empty}) == 64);
  }
  CHECK(place.run_words({"looked", "loader", "", "--note", "x"}) == 64);
  CHECK(book(place) == before);
}

TEST_CASE("a check that found the machine failed says that it stays on the list, and how to keep others off it") {
  Place place;
  place.furnish();
  place.write(
      "schedules/pump.yaml",
      "schedule: pump\nmeters: {engine: {unit: h}}\ntasks:\n  guards: {do: Guards, every: {months: 36}, safety: "
      "true}\n");
  REQUIRE(place.run_words({"done", "pump", "guards", "--found", "failed", "--note", "torn off"}) == 0);
  CHECK(place.says("To be looked at: pump: guards found failed, seen 2026-06-15: torn off"));
  CHECK(
      place.says("it counts as done, and stands under \"Seen, not looked at yet\" until it is done again and found "
                 "neither worn nor failed, or somebody has looked"));
  CHECK(place.says("whichever looked pump \"guards found failed\" --by WHO --found HOW --note"));
  CHECK(place.says("If it is not put right: whichever out-of-use pump --note \"guards found failed\""));
  CHECK_FALSE(place.says("Write on it"));  // nothing new went in
  for (const char* const list : {"due", "due --overdue", "why pump"}) {
    REQUIRE(place.run(list) == 0);
    CHECK(place.says("guards found failed, seen 2026-06-15: torn off"));
    REQUIRE(place.run(std::string(list) + " --format json") == 0);
    const auto seen = nlohmann::json::parse(place.out)["seen"];
    REQUIRE(seen.size() == 1);
    CHECK(seen[0]["sign"] == "guards found failed");
  }
  CHECK(place.run("due --exit-code") == 1);
  CHECK(place.run("looked pump guards found failed --note bolted --found good") == 65);  // by whom?
  const std::string before = book(place);
  CHECK(place.run_words({"looked", "pump", "guards found failed", "--note", "still loose", "--by", "M.T."}) == 64);
  CHECK(place.complains("`guards found failed` of pump is a sign of a safety task, and how it was found is not said"));
  CHECK(place.complains("whichever looked pump 'guards found failed' --by M.T. --found good --note 'still loose'"));
  CHECK(place.complains("whichever looked pump 'guards found failed' --by M.T. --found worn --note 'still loose'"));
  CHECK(book(place) == before);
  REQUIRE(place.run("out-of-use pump --note guards") == 0);
  REQUIRE(place.run("done pump guards --found failed") == 0);
  CHECK(place.says("To be looked at"));  // said again
  CHECK_FALSE(place.says("If it is not put right"));
  REQUIRE(place.run("looked pump Guards found failed --note bolted --by M.T. --found good") == 0);
  CHECK(place.says("No more to be looked at: pump: guards found failed"));
  REQUIRE(place.run("done pump guards --found failed --on 2026") == 0);
  REQUIRE(place.run("done pump guards --on 2026-06-14") == 0);
  REQUIRE(place.run("due") == 0);
  CHECK(place.says("guards found failed, seen 2026, year only"));
  REQUIRE(place.run("due --format json") == 0);
  const auto seen = nlohmann::json::parse(place.out)["seen"][0];
  CHECK(seen["on"] == "2026-01-01");
  CHECK(seen["until"] == "2026-12-31");
}

TEST_CASE(
    "a service that includes a check for safety and is found failed stays on the list, and so does a check after it") {
  Place place;
  place.furnish();
  place.write("schedules/pump.yaml",
              "schedule: pump\nmeters: {engine: {unit: h}}\ntasks:\n"
              "  guards: {do: Guards, every: {months: 36}, safety: true}\n"
              "  big: {do: All, every: {months: 60}, covers: [guards], parts: {gland: 1}}\n"
              "  oil: {do: Oil, every: {months: 60}, follow-up: {leaks: {do: Look, within: {days: 9}}}}\n");
  REQUIRE(place.run("done pump big --found failed") == 0);
  CHECK(place.says("whichever looked pump \"big found failed\" --by WHO --found HOW --note"));
  REQUIRE(place.run("done pump oil/leaks --found failed --note drips") == 0);
  CHECK(place.says("whichever looked pump \"oil/leaks found failed\" --note"));
  REQUIRE(place.run("due --overdue") == 0);
  CHECK(place.says("big found failed, seen 2026-06-15"));
  CHECK(place.says("oil/leaks found failed, seen 2026-06-15: drips"));
}

TEST_CASE("what was locked off goes back on after every service, and JSON carries all steps") {
  Place place;
  place.furnish();
  place.write("schedules/pump.yaml",
              "schedule: pump\nmeters: {engine: {unit: h}}\ntasks:\n"
              "  gland: {do: Gland, every: {months: 36}, parts: {packing: 1}, cautions: [automatic-start]}\n"
              "  fence: {do: Fence, every: {months: 36}}\n");
  REQUIRE(place.run("done pump gland") == 0);
  CHECK(place.says("Afterwards: tools out"));
  CHECK(place.says("it always goes back on"));
  CHECK(place.says("Write on it: 2026-06-15"));
  REQUIRE(place.run("done pump fence") == 0);
  CHECK_FALSE(place.says("Afterwards"));
  REQUIRE(place.run("done pump gland --format json") == 0);
  const auto cautions = nlohmann::json::parse(place.out)["cautions"];
  REQUIRE(place.run("due --format json") == 0);
  CHECK(cautions == nlohmann::json::parse(place.out)["cautions"]);
  CHECK(cautions.size() == 9);
}

TEST_CASE("checks are entered behind all services, so that none of them is owed again") {
  Place place;
  place.furnish();
  place.write("schedules/pump.yaml",
              "schedule: pump\nmeters: {engine: {unit: h}}\ntasks:\n"
              "  oil: {do: Oil, every: {months: 12}, follow-up: {leaks: {do: Look, within: {days: 1}}}}\n"
              "  big: {do: Big, every: {months: 36}, covers: [oil]}\n");
  REQUIRE(place.run("done pump big oil --checked") == 0);
  CHECK(place.says("done oil/leaks"));
  CHECK_FALSE(place.says("Check afterwards"));
  REQUIRE(place.run("due pump --all --format json") == 0);
  CHECK_FALSE(place.says("oil/leaks"));
}

TEST_CASE("a value at a position that its task does not have is refused") {
  Place place;
  place.furnish();
  place.write(
      "schedules/pump.yaml",
      "schedule: pump\nmeters: {engine: {unit: h}}\ntasks:\n  filter: {do: Clean it, every: {measured: {restriction: "
      "{above: 25, unit: kPa}}}}\n");
  CHECK(place.run("saw pump restriction=12 --position nowhere") == 64);
  CHECK(place.run("saw pump restriction=12") == 0);
}

TEST_CASE("a sign that no task lists is kept as seen, and the near one is told") {
  Place place;
  place.furnish();
  REQUIRE(place.run("saw loader leek") == 0);
  CHECK(place.says("a task comes due on `leak`, if that was meant"));
  CHECK(place.says("If `leak` was meant: whichever undo; whichever saw loader leak"));
  CHECK(place.says("Take it back: whichever undo"));
  REQUIRE(place.run("saw loader tred=12") == 0);
  CHECK(place.says("there is a limit for `tread`, if that was meant"));
  CHECK(place.says("If `tread` was meant: whichever undo; whichever saw loader tread=12 --position POSITION"));
  CHECK(place.says("whichever looked loader \"tred 12\" --note"));
  REQUIRE(place.run("due --overdue") == 0);
  CHECK(place.says("tred 12, seen 2026-06-15"));
  REQUIRE(place.run("saw loader tred=12 --position front-left --dry-run") == 0);
  // What was only tried is not there: `undo` would strike what was entered before.
  CHECK(place.says("If `tread` was meant: whichever saw loader tread=12 --position front-left"));
  CHECK_FALSE(place.says("whichever undo"));
  REQUIRE(place.run("saw loader leak tred=11") == 0);  // the leak stays
  CHECK(place.says("If `tread` was meant: whichever strike "));
  REQUIRE(place.run("saw loader Tread=12 --position front-left") == 0);
  CHECK(place.says("loader: measurement tread@front-left 12 mm"));
}

TEST_CASE("use counts on through a new meter") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 1400 --on 2026-05-01") == 0);
  CHECK(place.run("meter-change loader --last 1420") == 64);
  REQUIRE(place.run("meter-change loader --last 1420 --first 0 --on 2026-05-10") == 0);
  CHECK(place.says("1420.0 h -> 0.0 h"));
  REQUIRE(place.run("reading loader 30 --on 2026-06-01") == 0);
  CHECK(place.says("30.0 h in 22 days"));
  REQUIRE(place.run("history loader") == 0);
  CHECK(place.says("usage 1450.0"));
}

TEST_CASE("undo takes back whole commands, the last one first") {
  Place place;
  place.furnish();
  const std::string first = due_list(place);
  REQUIRE(place.run("reading loader 1250 --on 2026-06-06") == 0);
  const std::string second = due_list(place);
  REQUIRE(place.run("done loader engine-oil tyre --at 1260 --checked") == 0);
  REQUIRE(place.run("undo --dry-run") == 0);
  CHECK(place.says("Nothing was stored"));
  REQUIRE(place.run("undo") == 0);
  CHECK(place.says("struck: loader: done engine-oil"));
  CHECK(due_list(place) == second);
  REQUIRE(place.run("undo") == 0);
  CHECK(due_list(place) == first);
  CHECK(place.run("undo") == 65);
  CHECK(place.complains("nothing to take back"));
}

TEST_CASE("strike takes a short or a full id and keeps the fact legible") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 1250 --format json") == 0);
  const auto saved = nlohmann::json::parse(place.out);
  const std::string id = saved["facts"][0]["id"];
  const std::string short_id = id.substr(20);
  REQUIRE(place.run("strike zzzzzz-1") == 64);
  REQUIRE(place.run_words({"strike", short_id, "--note", "typed wrong"}) == 0);
  CHECK(place.says("struck: loader: reading engine 1250.0 h"));
  CHECK(place.run_words({"strike", id}) == 65);
  CHECK(place.complains("already struck"));
  REQUIRE(place.run("history loader") == 0);
  CHECK(place.says("STRUCK"));
  CHECK(place.says("typed wrong"));
  REQUIRE(place.run("undo") == 0);  // a strike can be taken back as well
  REQUIRE(place.run("history loader") == 0);
  CHECK_FALSE(place.says("STRUCK"));
}

TEST_CASE("a strike holds even when the clock went back") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 1250 --on 2026-06-01") == 0);
  place.now -= 3LL * 86'400'000;
  REQUIRE(place.run("undo --as-of 2026-06-15") == 0);
  REQUIRE(place.run("history loader --as-of 2026-06-15") == 0);
  CHECK(place.says("STRUCK"));
}

TEST_CASE("written answers as JSON") {
  Place place;
  place.furnish();
  REQUIRE(place.run("done loader engine-oil --at 1511.4 --format json") == 0);
  const auto answer = nlohmann::json::parse(place.out);
  CHECK(answer["command"] == "done");
  CHECK(answer["stored"] == true);
  CHECK(answer["undo"] == "whichever undo");
  CHECK(answer["facts"][0]["kind"] == "service");
  CHECK(answer["facts"][0]["at"].dump() == "1511.4");
  bool oil = false;
  for (const auto& change : answer["changes"]) {
    oil = oil || (change["task"] == "engine-oil" && change["before"]["standing"] == "overdue" &&
                  change["after"]["standing"] == "later");
  }
  CHECK(oil);
  REQUIRE(place.run("reading loader 1515 --dry-run --format json") == 0);
  CHECK(nlohmann::json::parse(place.out)["stored"] == false);
}

TEST_CASE("facts are signed by whoever the environment names") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 10 --on 2026-06-01") == 0);
  place.variables["USER"] = "una";
  REQUIRE(place.run("reading loader 20 --on 2026-06-02") == 0);
  place.variables["WHICHEVER_USER"] = "ola";
  REQUIRE(place.run("reading loader 30 --on 2026-06-03") == 0);
  const std::string text = book(place);
  CHECK(text.find(",unknown,reading,") != std::string::npos);
  CHECK(text.find(",una,reading,") != std::string::npos);
  CHECK(text.find(",ola,reading,") != std::string::npos);
}

TEST_CASE("text that is no UTF-8 is refused, and said in valid JSON") {
  Place place;
  place.furnish();
  CHECK(place.run_words({"done", "loader", "hoses", "--note", "caf\xE9"}) >= 64);
  CHECK(place.run_words({"done", "lo\xFF", "hoses", "--format", "json"}) == 64);
  CHECK(nlohmann::json::accept(place.err));
}

TEST_CASE("what a worker saw never vanishes, and a near name is asked back only where somebody is there") {
  Place place;
  place.furnish();
  REQUIRE(place.run("saw loader strange knocking noise") == 0);
  CHECK(place.says("loader: sign strange knocking noise"));
  CHECK(place.says("whichever looked loader \"strange knocking noise\""));
  REQUIRE(place.run("due --overdue") == 0);
  CHECK(place.says("Seen, not looked at yet"));
  CHECK(place.run("looked loader strange knocking") == 64);  // without a note
  REQUIRE(place.run("looked loader strange knocking noise --note fan --found worn") == 0);
  CHECK(place.says("stays on the list until a look finds it good"));
  REQUIRE(place.run("looked loader strange knocking noise --note mended") == 0);
  CHECK(place.says("No more to be looked at"));
  CHECK(place.run("looked loader hum --note x") == 64);
  CHECK(place.complains("nobody saw `hum`"));
}

TEST_CASE("a measurement in words that came from a pipe is kept, and the answer names the command that counts it") {
  Place place;
  place.furnish();
  REQUIRE(place.run("saw loader tread 12,5 mm") == 0);
  CHECK(place.says("kept as seen, until somebody looks at it; there is a limit for `tread`, if that was meant"));
  CHECK(place.says("If `tread` was meant: whichever undo; whichever saw loader tread=12.5 --position POSITION"));
}

TEST_CASE("a name of several words without quotes is told to need them") {
  Place place;
  place.furnish();
  CHECK(place.run("reading old pump 2400") == 64);
  CHECK(place.complains("a name of several words needs quotes: \"old pump\"; `whichever reading --help`"));
  CHECK(place.run("back my old pump") == 64);
  CHECK(place.complains("needs quotes: \"my old pump\""));
}

TEST_CASE("after a value that was read without its tenths the step begins where the meter stood") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading pump 100.7 --on 2026-06-01") == 0);
  REQUIRE(place.run("reading pump 100 --on 2026-06-02") == 0);
  REQUIRE(place.run("reading pump 110.7 --on 2026-06-04") == 0);
  CHECK(place.says("pump engine: 100.7 h -> 110.7 h, 10.0 h in 2 days"));
  REQUIRE(place.run("meter-change pump --last 110.7 --first 5 --on 2026-06-05") == 0);
  REQUIRE(place.run("reading pump 8 --on 2026-06-06") == 0);
  CHECK(place.says("pump engine: 5.0 h -> 8.0 h, 3.0 h in 1 day"));
}

TEST_CASE("at a terminal a near sign is asked back and nothing is stored, unless it is said to be another") {
  Place place;
  place.furnish();
  place.world.terminal = true;
  const std::string before = book(place);
  for (const char* const typed : {"saw loader leek", "saw loader oil leak"}) {
    CHECK(place.run(typed) == 64);
    CHECK(place.complains("did you mean `leak`: whichever saw loader leak"));
  }
  CHECK(book(place) == before);
  REQUIRE(place.run("saw loader oil leak --new") == 0);
  CHECK(place.says("sign oil leak"));
  CHECK(place.run("saw loader tread 12") == 64);
  CHECK(
      place.complains("did you mean `tread`: whichever saw loader tread=12 --position POSITION; or keep it as it is: "
                      "whichever saw loader \"tread 12\" --new"));
  CHECK(place.run("saw loader tred=12") == 64);
  CHECK(place.complains("did you mean `tread`: whichever saw loader tread=12"));
  CHECK(place.complains("whichever saw loader tred=12 --new"));
  CHECK(place.run("saw loader leak=1") == 64);
  CHECK(place.complains("did you mean `leak`: whichever saw loader leak;"));
  REQUIRE(place.run("saw loader tred=12 --new") == 0);
  CHECK(place.says("To be looked at: loader: tred 12"));
  CHECK_FALSE(place.says("was meant: whichever undo"));
  REQUIRE(place.run("saw loader Leak") == 0);
  CHECK(place.says("loader: sign leak"));
  CHECK(place.run("saw loader tread") == 65);  // measured, and no value
  CHECK(place.complains("NAME=VALUE"));
}

TEST_CASE("a service that ends a measured value at its limit says so, and how to write it down again") {
  Place place;
  place.furnish();
  must(place, "saw loader tread=14 --position front-left");
  must(place, "done loader tyre --dry-run");
  CHECK(place.says("tyre: tread@front-left was 14 mm on 2026-06-15, limit 15 mm. It counts no more"));
  must(place, "done loader tyre --format json");
  CHECK(place.says("\"again\": \"whichever saw loader tread=14 --position front-left\""));
  must(place, "saw loader tread=14 --position front-left");
  must(place, "done loader tyre@front-left --on 2026-06-15");
  CHECK(place.says("If it was only looked at: whichever saw loader tread=14 --position front-left\n"));
  must(place, "saw loader tread=14 --position front-left");
  CHECK(place.says("tyre@front-left: later -> overdue"));
  must(place, "saw loader tread=30 --position front-left");
  must(place, "done loader tyre");
  CHECK_FALSE(place.says("counts no more"));
}

TEST_CASE("a check that finds a machine worn says that it is kept until it is found good") {
  Place place;
  place.furnish();
  place.write("schedules/pump.yaml",
              "schedule: pump\nmeters: {engine: {unit: h}}\ntasks:\n  guard: {do: Look at the guard, every: {months: "
              "40}, safety: true}\n");
  must(place, "done pump guard --found worn --by me");
  CHECK(place.says("To be looked at: pump: guard found worn, seen 2026-06-15; do not run it"));
  CHECK(place.says("until it is done again and found neither worn nor failed"));
  must(place, "due pump");
  CHECK(place.says("guard found worn, seen 2026-06-15"));
  must(place, "back pump");
  CHECK(place.says(
      "See to these before it works:\n  guard found worn, seen 2026-06-15; do not run it before this is mended\n"));
}

TEST_CASE("what a dry run asks to do can be done: nothing that it did not store is struck, and options are named") {
  Place place;
  place.furnish();
  must(place, "done pump gland");
  must(place, "done pump gland --dry-run");
  CHECK(place.says("On one day they count as one. If it was done once, leave this one out.\n"));
  CHECK_FALSE(place.says("strike"));
  must(place, "done pump gland");
  CHECK(place.says("whichever strike "));
  place.write("schedules/pump.yaml",
              "schedule: pump\nmeters: {engine: {unit: h}}\ntasks:\n  exam: {do: Examine it, every: {months: 12}, "
              "by-whom: competent-person}\n");
  CHECK(place.run("done pump exam") == 65);
  CHECK(place.complains("hint: say who did it: --by WHO\n"));
  place.write("facts.csv", "kind,machine,on,task\nservice,pump,2026-06-01,exam\n");
  CHECK(place.run("import facts.csv") == 65);
  CHECK(place.complains("hint: say who did it with `by`\n"));
}

TEST_CASE("a meter that is still asked about is not said to be no longer") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 90 --on 2024-06-01") == 0);
  CHECK_FALSE(place.says("No longer on the find-out list"));
  REQUIRE(place.run("find-out loader") == 0);
  CHECK(place.says("no reading for"));
  REQUIRE(place.run("reading loader 150") == 0);
  CHECK(place.says("No longer on the find-out list: loader: no reading for"));
}
