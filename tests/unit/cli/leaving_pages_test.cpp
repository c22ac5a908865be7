// A page that leaves by itself says of each machine why nobody may run it, and what of it waits for a repair that
// nobody has planned: the van's pages, the calendar, the visits, and the blanks of what is to be found out.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "support/estate_files.h"
#include "unit/cli/asking.h"

using namespace cli_test;

namespace {

constexpr const char* week = "rounds --from 2026-05-04 --as-of 2026-05-03";
constexpr const char* ahead = "visits --within 2w --as-of 2026-05-03";

// The loader's tyre is at its limit and is only checked; its hoses leak; the pump makes a noise, found failed.
void furnish(Place& place, const std::string& tyre_needs = "") {
  estate::Texts texts;
  texts.tractor +=
      "  tyre: {do: Check the tyre, every: {months: 12, measured: {tread: {below: 15, unit: mm}}}, takes: 20 min, "
      "safety: true" +
      tyre_needs +
      "}\n"
      "  hoses: {do: Renew the hoses, every: {years: 6, signs: [leak]}, takes: 30 min, parts: {hose: 1}, safety: "
      "true}\n"
      "  fork: {do: Measure the fork, every: {years: 6, measured: {wear: {above: 10, unit: mm}}}, "
      "positions: [left, right], safety: true}\n";
  for (const auto& [name, text] : estate::files_of(texts).texts) place.write(name, text);
  must(place, "new .");
  place.write("facts.csv",
              "kind,machine,on,task,name,value,unit,note,found\nservice,loader,2025-04-20,engine-oil,,,,,\n"
              "service,loader,2025-11-06,brakes,,,,,\nservice,loader,2026-01-10,tyre,,,,,\n"
              "service,loader,2026-01-10,hoses,,,,,\nservice,pump,2025-10-20,gland,,,,,\n"
              "service,loader,2026-01-10,fork,,,,,\n"
              "service,pump,2025-05-01,relief,,,,,\nmeasurement,loader,2026-04-30,,tread,15,mm,,\n"
              "sign,loader,2026-05-01,,leak,,,drips,\nsign,pump,2026-05-01,,odd noise,,,,\n"
              "looked-at,pump,2026-05-02,,odd noise,,,bearing gone,failed\n");
  must(place, "import facts.csv --as-of 2026-05-03");
}

constexpr const char* why =
    "do not run it before this is mended: hoses, leak seen 2026-05-01 (drips); tyre, tread 15 mm, limit 15 mm";

// An event's text, as the calendar folds and masks it, in one line.
std::string unfolded(std::string text) {
  for (std::size_t at = text.find("\r\n "); at != std::string::npos; at = text.find("\r\n ")) text.erase(at, 3);
  std::erase(text, '\\');
  return text;
}

}  // namespace

TEST_CASE("each page that leaves by itself says what of a machine is to be mended before it runs") {
  Place place;
  furnish(place);
  for (const std::string& ask :
       {std::string(week), std::string(ahead), std::string("find-out loader hoist --as-of 2026-05-03")}) {
    CAPTURE(ask);
    must(place, ask);
    if (ask.starts_with("find-out")) {
      CHECK(place.says(
          "Do not run before this is mended\n   loader  hoses, leak seen 2026-05-01 (drips); tyre, tread 15 mm"));
    } else {
      CHECK(place.says(std::string("!! ") + why));
      CHECK_FALSE(place.says("do not run it before this is mended\n"));  // each names what
    }
  }
  must(place, std::string(week) + " --format md");
  CHECK(place.says(why));
  must(place, std::string(week) + " --format ics");
  const std::string calendar = unfolded(place.out);
  CHECK(calendar.find(why) != std::string::npos);
  CHECK(calendar.find("Do not run before this is mended: loader: hoses, leak seen 2026-05-01 (drips)") !=
        std::string::npos);
  must(place, "out-of-use hoist --note bent --on 2026-05-03 --as-of 2026-05-03");
  must(place, std::string(week) + " --format ics");
  CHECK(unfolded(place.out).find("Do not run: hoist: out of use since 2026-05-03: bent") != std::string::npos);
}

TEST_CASE("the form of what is to be found out says at its machine that nobody may run it") {
  Place place;
  furnish(place);
  must(place, "saw hoist odd-smell --on 2026-05-02 --as-of 2026-05-03");
  must(place, "looked hoist odd-smell --found failed --note burnt --on 2026-05-02 --as-of 2026-05-03");
  must(place, "find-out hoist --as-of 2026-05-03");
  CHECK(place.says("Do not run before this is mended\n   hoist  odd-smell, seen 2026-05-02"));
  CHECK(
      place.says("!! do not run it before this is mended: odd-smell, seen 2026-05-02; looked at 2026-05-02, found "
                 "failed: burnt"));
  const auto answer = json_of(place, "find-out --as-of 2026-05-03");
  for (const auto& machine : answer["machines"]) CHECK(machine["do_not_run"].get<bool>() == true);
  // Also where there is no blank to fill in.
  must(place, "find-out loader --as-of 2026-05-03");
  CHECK(place.says(
      "Do not run before this is mended\n   loader  hoses, leak seen 2026-05-01 (drips); tyre, tread 15 mm"));
}

TEST_CASE("what was found failed, or measured at its limit and is only looked at, is told as waiting at its own stop") {
  Place place;
  furnish(place);
  const std::string tyre =
      "* waits to be mended: tyre, tread 15 mm, limit 15 mm, measured 2026-04-30; no call says how long it takes";
  const std::string noise = "* waits to be mended: odd noise, seen 2026-05-01";
  for (const char* ask : {week, ahead}) {
    CAPTURE(ask);
    must(place, ask);
    CHECK(place.says(tyre));
    CHECK(place.says(noise));
    CHECK_FALSE(place.says("look before it runs: odd noise"));
    const auto waiting = json_of(place, ask)["to_mend"];
    REQUIRE(waiting.size() == 2);
    CHECK(waiting[0]["sign"] == "odd noise");
    CHECK(waiting[0]["found"] == "failed");
    CHECK(waiting[0]["value"].is_null());
    CHECK(waiting[1]["sign"] == "tread 15 mm");
    CHECK(waiting[1]["found"].is_null());
    CHECK(waiting[1]["task"] == "tyre");
    CHECK(waiting[1]["on"] == "2026-04-30");
    CHECK(waiting[1]["value"] == 15.0);
    CHECK(waiting[1]["limit"] == 15.0);
    CHECK(waiting[1]["unit"] == "mm");
    CHECK(waiting[1]["do_not_run"] == true);
    std::vector<std::map<std::string, std::string>> rows = rows_of(place, ask);
    std::erase_if(rows, [](auto& row) { return row["row"] != "to-mend"; });
    REQUIRE(rows.size() == 2);
    CHECK(rows[0]["sign"] == "odd noise");
    CHECK(rows[0]["note"] == "bearing gone");
    CHECK(rows[0]["sightings"] == "2026-05-01");
    CHECK(rows[0]["value"].empty());
    CHECK(rows[1]["sign"] == "tread 15 mm");
    CHECK(rows[1]["name"] == "tread");
    CHECK(rows[1]["value"] == "15");
    CHECK(rows[1]["limit"] == "15");
    CHECK(rows[1]["unit"] == "mm");
  }
}

TEST_CASE("rows of data name each machine that nobody may run, and why") {
  Place place;
  furnish(place);
  for (const char* ask : {week, ahead}) {
    CAPTURE(ask);
    std::map<std::string, std::string> said;
    for (auto& row : rows_of(place, ask)) {
      if (row["row"] == "not-to-run") said[row["machine"]] = row["say"];
    }
    const auto json = json_of(place, ask)["not_to_run"];
    REQUIRE(said.size() == json.size());
    CHECK(said["loader"] == why);
    CHECK(said["pump"].starts_with("do not run it before this is mended: odd noise"));
  }
}

TEST_CASE("work for safety that mends nothing keeps its machine out of use until it is mended") {
  Place place;
  furnish(place);
  must(place, ahead);
  CHECK(place.says("!! safety: keep it out of use until mended"));  // the tyre, which is only checked
  CHECK(place.says("!! safety: keep it out of use until done"));    // the hoses, which are renewed
  Place nobody;
  furnish(nobody, ", needs: [rims]");
  must(nobody, week);
  CHECK(nobody.says("!! safety: not this week, keep it out of use until mended"));
  must(nobody, ahead);
  CHECK(nobody.says("!! safety: keep it out of use until mended"));
}

TEST_CASE("a check that found it worn is told with what it found in every list") {
  Place place;
  furnish(place);
  must(place, "done loader fork --found worn --on 2026-05-02 --as-of 2026-05-03");
  for (const char* ask : {week, ahead}) {
    CAPTURE(ask);
    const auto answer = json_of(place, ask);
    for (const char* list : {"seen", "to_mend"}) {
      bool told = false;
      for (const auto& row : answer[list]) {
        if (row["sign"] != "fork found worn") continue;
        told = true;
        CHECK(row["found"] == "worn");
      }
      CHECK(told);
    }
  }
}

TEST_CASE("a sheet offers either the service that mends what was found, or the look that ends it") {
  Place place;
  furnish(place);
  must(place, "done loader fork --found worn --on 2026-05-02 --as-of 2026-05-03");
  // Nothing says which of both: both are done, and then nothing is left to look at.
  must(place, "sheet loader --as-of 2026-05-03");
  CHECK(place.says("done loader fork@left fork@right"));
  CHECK_FALSE(place.says("looked loader \"fork found worn\""));
  // The left one is at its limit: that one is renewed, and of the right one nothing is claimed.
  must(place, "saw loader wear=11 --position left --on 2026-05-03 --as-of 2026-05-03");
  must(place, "sheet loader --as-of 2026-05-03");
  CHECK(place.says("done loader fork@left --at VALUE"));
  CHECK_FALSE(place.says("done loader fork@right"));
  CHECK(place.says("looked loader \"fork found worn\""));
  // On a screen too, first of all.
  must(place, "sheet loader --as-of 2026-05-03 --format html");
  CHECK(place.says("<p class=\"stop\">DO NOT RUN before this is mended</p>"));
}
