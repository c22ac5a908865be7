// Machines that are laid up or out of use, in the words and formats of the command.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "unit/cli/asking.h"

using cli_test::json_of;
using cli_test::must;
using cli_test::Place;

namespace {

// A pump whose guards and brakes are for safety, the last ones in the schedule.
void furnish_guarded(Place& place) {
  place.furnish();
  place.write("schedules/pump.yaml",
              "schedule: pump\nmeters: {engine: {unit: h}}\ntasks:\n"
              "  gland: {do: Repack, every: {hours: 500}}\n"
              "  big: {do: All, every: {hours: 900}, covers: [guard]}\n"
              "  guard: {do: Look at the guard, every: {months: 12, signs: [rattle]}, safety: true}\n");
}

std::size_t place_in(const std::string& text, std::string_view words) {
  const std::size_t at = text.find(words);
  CHECK(at != std::string::npos);
  return at;
}

}  // namespace

TEST_CASE("all reasons of a machine out of use are told with their days in every answer") {
  Place place;
  place.furnish();
  must(place, "out-of-use pump --note fork-worn --on 2026-05-21");
  must(place, "out-of-use pump --note seat-belt-torn");
  CHECK(place.says("pump was out of use already since 2026-05-21: fork-worn\n"));
  const std::string both = "out of use since 2026-05-21: fork-worn; 2026-06-15: seat-belt-torn";
  for (const char* ask : {"due", "due --overdue", "why pump gland", "history pump", "due --format csv"}) {
    must(place, ask);
    CAPTURE(ask);
    CHECK(place.says(both));
  }
  const auto state = json_of(place, "why pump gland")["not_in_use"][0];
  CHECK(state["note"] == "fork-worn; seat-belt-torn");
  REQUIRE(state["reasons"].size() == 2);
  CHECK(state["reasons"][0]["on"] == "2026-05-21");
  CHECK(state["reasons"][1]["note"] == "seat-belt-torn");
}

TEST_CASE("a machine out of use and laid up is told with the day and the reason of each, and back ends both aloud") {
  Place place;
  place.furnish();
  must(place, "lay-up pump --on 2026-03-09 --until 2026-11-01 --note drained");
  must(place, "out-of-use pump --note fork-worn");
  must(place, "due");
  CHECK(place.says("out of use since 2026-06-15: fork-worn; laid up since 2026-03-09 until"));
  const auto use = json_of(place, "due")["not_in_use"][0];
  CHECK(use["since"] == "2026-06-15");
  CHECK(use["laid_up"].dump() ==
        R"({"reasons":[{"note":"drained","on":"2026-03-09"}],"since":"2026-03-09","until":"2026-11-01"})");
  must(place, "back pump");
  CHECK(
      place.says("fork-worn; laid up since 2026-03-09 until 2026-11-01: drained. Is that mended? It is not "
                 "laid up any more either; to lay it up again: whichever lay-up pump --until 2026-11-01"));
  must(place, "out-of-use pump");
  CHECK(json_of(place, "due")["not_in_use"][0]["laid_up"].is_null());
  must(place, "back pump");
  CHECK_FALSE(place.says("laid up"));
}

TEST_CASE("back asks whether what it ends is mended, before what is to be seen to") {
  Place place;
  furnish_guarded(place);
  must(place, "out-of-use pump --note fork-worn --on 2026-05-21");
  must(place, "out-of-use pump --note seat-belt-torn");
  CHECK(json_of(place, "back pump --dry-run")["ended"]["reasons"].size() == 2);
  must(place, "back pump");
  CHECK(
      place.says("pump was out of use since 2026-05-21: fork-worn; 2026-06-15: seat-belt-torn. Is all of that "
                 "mended?"));
  CHECK(place_in(place.out, "Is all of") < place_in(place.out, "See to these before it works"));
  must(place, "lay-up pump");
  must(place, "back pump");
  CHECK(place.says("pump was laid up since 2026-06-15."));
  CHECK_FALSE(place.says("mended"));
  CHECK(json_of(place, "back pump")["ended"].is_null());
}

TEST_CASE("a lay-up of what is laid up already says what stood and what is new") {
  Place place;
  place.furnish();
  must(place, "lay-up pump --on 2026-03-09 --until 2026-11-01 --note drained");
  must(place, "lay-up pump");
  CHECK(place.says("pump was laid up already since 2026-03-09 until 2026-11-01; now without an end\n"));
  must(place, "due");
  CHECK(place.says("laid up since 2026-03-09: drained"));
  must(place, "lay-up pump --until 2026-10-01");
  CHECK(place.says("since 2026-03-09 without an end; now until 2026-10-01\n"));
  must(place, "lay-up pump --until 2026-10-01");
  CHECK(place.says("since 2026-03-09 until 2026-10-01; that stays so\n"));
}

TEST_CASE("use of a machine that stands is remarked when it is entered") {
  Place place;
  place.furnish();
  must(place, "reading pump 10 --on 2026-06-01");
  must(place, "out-of-use pump --on 2026-06-01 --note guard_off");
  must(place, "reading pump 74.1");
  CHECK(place.says("pump has run 64.1 h while out of use since 2026-06-01: do not run it; ask who may have run it"));
  const auto run = json_of(place, "reading pump 75")["run_not_in_use"];
  CHECK(run.empty() == false);
  CHECK(run[0]["used"] == 0.9);
  CHECK(run[0]["state"] == "out-of-use");
  must(place, "reading loader 100 --on 2026-06-01");
  must(place, "lay-up loader --on 2026-06-09");
  must(place, "reading loader 112");
  CHECK(
      place.says("loader has run 12.0 h since 2026-06-01, and is laid up since 2026-06-09: where it works again: "
                 "whichever back loader"));
  must(place, "reading loader 112");
  CHECK_FALSE(place.says("has run"));
}

TEST_CASE("whoever puts off a service is told of the safety in it that is not put off") {
  Place place;
  furnish_guarded(place);
  must(place, "reading pump 10 --on 2026-06-01");
  must(place, "put-off pump big --until 2026-08-01 --note hay");
  CHECK(place.says("Not put off by this; do it by itself:\n  guard: overdue; safety; "));
  CHECK(place.says("when done: whichever done pump guard"));
  CHECK(json_of(place, "put-off pump big --until 2026-08-02 --note hay")["not_put_off"][0]["task"] == "guard");
  must(place, "done pump guard");
  must(place, "put-off pump big --until 2026-08-03 --note hay");
  CHECK_FALSE(place.says("Not put off"));
}

TEST_CASE("a change of what is for safety is marked, and where it is overdue now out of use is offered") {
  Place place;
  furnish_guarded(place);
  must(place, "done pump guard --on 2026-06-01");
  CHECK(place.says("  guard: overdue -> later, safety, next due 2027-06-01\n"));
  must(place, "undo");
  CHECK(place.says("  guard: later -> overdue, safety, "));
  CHECK(
      place.says("Something for safety is overdue now on pump. Where it may not run until it is done: whichever "
                 "out-of-use pump"));
  must(place, "done pump guard --on 2026-06-01");
  must(place, "saw pump rattle --on 2026-06-10");
  CHECK(place.says("  guard: later -> overdue, safety, "));
  CHECK_FALSE(place.says("Where it may not run"));  // that is decided
  CHECK(place.says("Do not run pump before this is mended: guard, rattle seen 2026-06-10."));
  must(place, "lay-up pump");
  CHECK(place.says("  guard: from `Overdue` to `Laid up`, safety\n"));
  CHECK(json_of(place, "back pump")["moves"][0]["safety"] == true);
  must(place, "done pump guard --on 2026-06-11");
  CHECK_FALSE(place.says("whichever out-of-use"));
}

TEST_CASE("what is to be found out names safety first, and what must not run before all else") {
  Place place;
  furnish_guarded(place);
  place.write("fleet.yaml", std::string(cli_test::small_fleet) + "  old: {schedule: pump}\n");
  must(place, "out-of-use old --note cracked");
  must(place, "find-out old");
  CHECK(place_in(place.out, "Out of use: do not run") < place_in(place.out, "  meter engine"));
  CHECK(place_in(place.out, "\n  guard") < place_in(place.out, "\n  gland"));
  const auto answer = json_of(place, "find-out old");
  CHECK(answer["not_in_use"][0]["state"] == "out-of-use");
  CHECK(answer["machines"][0]["questions"][0]["kind"] == "reading");
  CHECK(answer["machines"][0]["questions"][1]["task"] == "guard");
  must(place, "find-out old --format csv");
  CHECK(place_in(place.out, ",guard,") < place_in(place.out, ",gland,"));
}

TEST_CASE("in the table of what is due the rows of what must not run come first, those of what is laid up last") {
  Place place;
  place.furnish();
  must(place, "out-of-use pump");
  must(place, "lay-up loader");
  must(place, "due --format csv");
  const std::size_t first = place.out.find('\n') + 1;
  CHECK(place.out.substr(first).starts_with("machine,pump,"));
  const std::size_t stopped = place.out.rfind('\n', place.out.size() - 2) + 1;
  CHECK(place.out.substr(stopped).starts_with("not-to-run,pump,"));
  const std::size_t last = place.out.rfind('\n', stopped - 2) + 1;
  CHECK(place.out.substr(last).starts_with("machine,loader,"));
}

TEST_CASE("a calendar says first what nobody may run, and of a fleet that is well that nothing is overdue") {
  Place place;
  place.furnish();
  must(place, "done loader engine-oil tyre hoses --at 100 --on 2026-06-10 --checked");
  must(place, "done pump gland --at 10 --on 2026-06-10");
  REQUIRE(place.run("due --overdue --format ics --as-of 2026-06-16") == 0);
  CHECK(place.out.find("SUMMARY:Skarvey estate: nothing overdue\r\n") != std::string::npos);
  CHECK(place.out.find("\r\nNAME:Skarvey estate: overdue\r\n") != std::string::npos);
  must(place, "out-of-use pump --note fork-worn --on 2026-06-12");
  must(place, "saw pump rattling --on 2026-06-12");
  REQUIRE(place.run("due --all --format ics --as-of 2026-06-16") == 0);
  for (const char* title : {"pump gland: later", "pump: out of use", "pump: Seen"}) {
    CAPTURE(title);
    CHECK(place.out.find(std::string("SUMMARY:do not run: ") + title) != std::string::npos);
  }
  CHECK(place.out.find("SUMMARY:pump") == std::string::npos);
  CHECK(place.out.find("DESCRIPTION:Do not run: out of use since ") != std::string::npos);
  CHECK(place.out.find("SUMMARY:loader") != std::string::npos);
}
