// One machine told in every list and format: whether anybody may run it, what is due by estimate, how many people.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "unit/cli/asking.h"

using cli_test::json_of;
using cli_test::must;
using cli_test::Place;
using cli_test::rows_of;

namespace {

// The loader and its hoses, which are for safety; a pump; a mower, which is well and laid up.
void furnish_three(Place& place) {
  place.furnish();
  place.write("fleet.yaml", std::string("seasons: {harvest: {from: 08-01, to: 09-20}}\n") + cli_test::small_fleet +
                                "  mower: {schedule: pump, site: mere, in-service: {on: 2025-01-10, at: 0}}\n");
  place.write("schedules/tractor.yaml",
              "schedule: tractor\nmeters: {engine: {unit: h}}\ntasks:\n"
              "  engine-oil: {do: Change the oil, every: {hours: 250}, takes: 1 h}\n"
              "  hoses: {do: Renew worn hoses, every: {years: 6, signs: [leak]}, safety: true, people: 2}\n");
}

// By use so far the interval and its grace are over, and nobody has read the meter since.
void run_the_loader(Place& place) {
  must(place, "done loader engine-oil --on 2025-06-15 --at 1000");
  must(place, "reading loader 1130 --on 2025-11-15");
  must(place, "reading loader 1249 --on 2026-04-20");
}

const nlohmann::json& of_task(const nlohmann::json& points, const std::string& task) {
  for (const auto& point : points) {
    if (point["task"] == task) return point;
  }
  FAIL(task);
  return points;
}

}  // namespace

TEST_CASE("each row of a machine that nobody may run says so in every list") {
  Place place;
  furnish_three(place);
  run_the_loader(place);
  must(place, "out-of-use pump --note fork-worn --on 2026-06-10");
  must(place, "lay-up mower --on 2026-06-10");
  must(place, "saw loader leak --on 2026-06-12");
  for (const char* ask : {"due --all", "due --overdue", "why pump", "why loader engine-oil", "forecast --within 24m"}) {
    CAPTURE(ask);
    const auto list = json_of(place, ask);
    CHECK_FALSE(list["points"].empty());
    for (const auto& point : list["points"]) CHECK(point["do_not_run"] == (point["machine"] != "mower"));
    for (const auto& use : list["not_in_use"]) CHECK(use["do_not_run"] == (use["machine"] == "pump"));
  }
  // What was seen of it forbids it, and so its other rows say it too.
  const auto season = json_of(place, "season harvest");
  CHECK(of_task(season["beforehand"], "engine-oil")["do_not_run"] == true);
  for (const auto& use : season["not_in_use"]) CHECK(use["do_not_run"] == (use["machine"] == "pump"));

  for (const char* ask : {"due --all --format ics", "due --overdue --format ics"}) {
    CAPTURE(ask);
    must(place, ask);
    CHECK(place.out.find("SUMMARY:do not run: loader hoses: overdue") != std::string::npos);
    CHECK(place.out.find("SUMMARY:do not run: pump: out of use") != std::string::npos);
    CHECK(place.out.find("SUMMARY:loader") == std::string::npos);
    CHECK(place.out.find("SUMMARY:do not run: mower") == std::string::npos);
    CHECK(place.out.find(",do-not-run\r\n") != std::string::npos);
  }
}

TEST_CASE("a forecast says first which machines nobody may run") {
  Place place;
  furnish_three(place);
  must(place, "out-of-use pump --note fork-worn --on 2026-06-10");
  must(place, "lay-up mower --on 2026-06-10");
  must(place, "saw loader leak --on 2026-06-12");
  for (const char* ask : {"forecast", "forecast loader pump mower"}) {
    CAPTURE(ask);
    must(place, ask);
    CHECK(place.says("\nOut of use: do not run\n   pump  out of use since 2026-06-10: fork-worn\n"));
    CHECK(place.says("\nDo not run before this is mended\n   loader  hoses, leak seen 2026-06-12\n"));
    CHECK(place.says("\nLaid up\n   mower  laid up since 2026-06-10\n"));
  }
  CHECK(place.says("safety; do not run it before this is mended"));
}

TEST_CASE("every list begins with all machines that nobody may run, and not with those out of use alone") {
  Place place;
  furnish_three(place);
  run_the_loader(place);
  must(place, "out-of-use pump --note fork-worn --on 2026-06-10");
  must(place, "saw loader leak --on 2026-06-12");
  const std::string out = "\nOut of use: do not run\n   pump  out of use since 2026-06-10: fork-worn\n";
  const std::string title = "\nDo not run before this is mended\n   loader  ";
  const std::string why = "hoses, leak seen 2026-06-12\n";
  for (const char* ask :
       {"due", "season harvest", "workload", "parts", "parts --before harvest", "forecast", "find-out"}) {
    CAPTURE(ask);
    must(place, ask);
    CHECK(place.says(out));
    CHECK(place.says(title + why));
    CHECK_FALSE(place.says("see whichever due loader"));
  }
  // Of a site, its own alone.
  must(place, "workload --site mere");
  CHECK(place.says("out of use since 2026-06-10"));
  CHECK_FALSE(place.says("loader"));
  must(place, "due --format md");
  CHECK(place.says("- **loader**: do not run it before this is mended: " + why));
  CHECK(place.says("- **pump**: do not run it: out of use since 2026-06-10: fork-worn\n"));
  must(place, "parts --format md");
  CHECK(place.says("- **loader**: do not run it before this is mended: " + why));
  CHECK(place.says("- **pump**: do not run it: out of use since 2026-06-10: fork-worn\n"));
  for (const char* ask : {"season harvest", "workload", "parts"}) {
    CAPTURE(ask);
    const auto stopped = json_of(place, ask)["not_to_run"];
    REQUIRE(stopped.size() == 2);
    CHECK(stopped[0]["machine"] == "pump");
    CHECK(stopped[0]["out_of_use"] == true);
    CHECK(stopped[1]["machine"] == "loader");
    CHECK(stopped[1]["out_of_use"] == false);
    REQUIRE(stopped[1]["points"].size() == 1);
    CHECK(stopped[1]["points"][0]["task"] == "hoses");
    CHECK(stopped[1]["seen"].empty());
  }
  for (const char* ask : {"workload", "parts", "forecast", "season harvest"}) {
    CAPTURE(ask);
    auto rows = rows_of(place, ask);
    std::erase_if(rows, [](auto& row) { return row["row"] != "not-to-run"; });
    REQUIRE(rows.size() == 2);
    CHECK(rows[0]["machine"] == "pump");
    CHECK(rows[0]["say"] == "do not run it: out of use since 2026-06-10: fork-worn");
    CHECK(rows[1]["machine"] == "loader");
    CHECK(rows[1]["say"] == "do not run it before this is mended: hoses, leak seen 2026-06-12");
    for (auto& row : rows) CHECK(row["do_not_run"] == "yes");
  }
}

TEST_CASE("every answer in data says which machines nobody may run, and so do its rows of those not in use") {
  Place place;
  furnish_three(place);
  std::string fleet = place.read("fleet.yaml");
  fleet.replace(fleet.find("{name: Home yard}"), 17, "{name: Home yard, at: [54.10, 3.20]}");
  fleet.replace(fleet.find("{name: Pumping station}"), 23, "{name: Pumping station, at: [54.12, 3.22]}");
  place.write("fleet.yaml", fleet +
                                "crews: {van: {start: yard, hours: {mon-fri: \"08:00-16:00\"}}}\n"
                                "travel: {road-factor: 1.4, speed: 36 km/h}\ncosts: {hour: 44, km: 0.55}\n");
  must(place, "out-of-use pump --note fork-worn --on 2026-06-10");
  must(place, "lay-up mower --on 2026-06-10");
  must(place, "saw loader leak --on 2026-06-12");
  for (const std::string ask : {"due", "due --overdue", "forecast", "season harvest", "workload", "parts", "find-out",
                                "sheet", "sheet --readings", "visits", "rounds --from 2026-06-15", "why pump gland"}) {
    CAPTURE(ask);
    const auto answer = json_of(place, ask);
    const std::size_t machines = ask.starts_with("why") ? 1 : 2;
    REQUIRE(answer["not_to_run"].size() == machines);
    CHECK(answer["not_to_run"][0]["machine"] == "pump");
    CHECK(answer["not_to_run"][0]["out_of_use"] == true);
    // The overdue list has the mower only with what is due on it.
    CHECK(answer["not_in_use"].size() == (ask == "due --overdue" ? 1 : machines));
    for (const auto& use : answer["not_in_use"]) CHECK(use["do_not_run"] == (use["machine"] == "pump"));
  }
  // Of a site, its own alone.
  const auto site = json_of(place, "rounds --from 2026-06-15 --site yard");
  REQUIRE(site["not_to_run"].size() == 1);
  CHECK(site["not_to_run"][0]["machine"] == "loader");
  must(place, "rounds --from 2026-06-15 --format csv");
  CHECK(place.says(",not-to-run,"));
  // Each row of a season, whatever block it stands in.
  std::size_t rows = 0;
  const auto season = json_of(place, "season harvest");
  for (const char* block : {"beforehand", "have_ready", "put_off", "not_before_end", "find_out", "others"}) {
    for (const auto& row : season[block]) {
      CAPTURE(block);
      CHECK(row["do_not_run"] == (row["machine"] != "mower"));
      ++rows;
    }
  }
  CHECK(rows > 1);
}

TEST_CASE("a row of a point tells of a listed sign what a row of one that is kept as seen tells") {
  Place place;
  furnish_three(place);
  must(place, "saw loader leak --note drips --on 2026-06-10");
  must(place, "saw loader leak --note pours --on 2026-06-12");
  must(place, "saw loader odd noise --note drips --on 2026-06-10");
  must(place, "saw loader odd noise --note pours --on 2026-06-12");
  for (const char* ask : {"due", "due --overdue"}) {
    CAPTURE(ask);
    std::map<std::string, std::string> point;
    std::map<std::string, std::string> seen;
    for (auto& row : rows_of(place, ask)) {
      if (row["task"] == "hoses") point = row;
      if (row["row"] == "seen") seen = row;
    }
    CHECK(point["sign"] == "leak");
    CHECK(seen["sign"] == "odd noise");
    for (const char* column : {"on", "until", "note", "again_on", "sightings"}) CHECK(point[column] == seen[column]);
    CHECK(point["on"] == "2026-06-10");
    CHECK(point["note"] == "pours");
    CHECK(point["again_on"] == "2026-06-12");
    CHECK(point["sightings"] == "2026-06-10: drips; 2026-06-12: pours");
    CHECK(point["fact"] != seen["fact"]);
  }
}

TEST_CASE("a listed sign tells in data what one in its own words tells") {
  Place place;
  furnish_three(place);
  must(place, "saw loader leak --note drips --on 2026-06-10");
  must(place, "saw loader leak --note pours --on 2026-06-12");
  must(place, "saw loader odd noise --note drips --on 2026-06-10");
  must(place, "saw loader odd noise --note pours --on 2026-06-12");
  for (const char* ask : {"due", "why loader hoses", "sheet"}) {
    CAPTURE(ask);
    const auto answer = json_of(place, ask);
    const bool is_sheet = answer.contains("sheets");
    const auto& points = is_sheet ? answer["sheets"][0]["tasks"][0]["points"] : answer["points"];
    const auto& own = (is_sheet ? answer["sheets"][0] : answer)["seen"][0];
    for (const auto& limb : of_task(points, "hoses")["limbs"]) {
      if (limb["kind"] != "sign") continue;
      CHECK(limb["note"] == own["note"]);
      CHECK(limb["again_on"] == "2026-06-12");
      REQUIRE(limb["sightings"].size() == 2);
      CHECK(limb["sightings"][1]["note"] == "pours");
      CHECK(limb["sightings"][1]["fact"] != limb["sightings"][0]["fact"]);
    }
  }
  // By its id the second can be struck, as `why` tells it.
  must(place, "why loader hoses");
  CHECK(place.says("sign leak (pours)"));
}

TEST_CASE("each row of a season and of a due list for notes says that nobody may run its machine") {
  Place place;
  furnish_three(place);
  run_the_loader(place);
  must(place, "saw loader leak --on 2026-06-12");
  must(place, "season harvest");
  CHECK(place.says("engine-oil  due?"));
  CHECK(place.says("do not run it before this is mended: hoses, leak seen 2026-06-12"));  // the oil
  CHECK(place.says("do not run it before this is mended\n"));                             // the hoses themselves
  must(place, "due --format md");
  CHECK(place.says("| engine-oil |"));
  CHECK(place.says("do not run it before this is mended: hoses, leak seen 2026-06-12; "));
  must(place, "why loader engine-oil");
  CHECK(place.says("do not run it before this is mended: hoses, leak seen 2026-06-12"));
  // Also where it comes due once more.
  const auto season = json_of(place, "season harvest --odds 1%");
  for (const auto& row : season["have_ready"]) {
    CHECK(row["do_not_run"] == (row["machine"] == "loader"));
  }
}

TEST_CASE("what is due by estimate is due today in a forecast, and past grace by estimate in a season too") {
  Place place;
  furnish_three(place);
  run_the_loader(place);
  must(place, "due loader");
  REQUIRE(place.says("overdue by estimate: read the meter"));
  must(place, "forecast loader");
  CHECK(place.says("due  today, overdue by estimate: read the meter"));
  CHECK_FALSE(place.says("sooner in less than one case of ten, overdue"));
  for (const char* ask : {"forecast loader", "season harvest"}) {
    CAPTURE(ask);
    const auto answer = json_of(place, ask);
    const auto& points = answer.contains("points") ? answer["points"] : answer["beforehand"];
    CHECK(of_task(points, "engine-oil")["past_grace_by_estimate"] == true);
  }
  must(place, "season harvest");
  CHECK(place.says("overdue by estimate: read the meter"));
}

TEST_CASE("lists say what is not for one alone") {
  Place place;
  furnish_three(place);
  must(place, "saw loader leak --on 2026-06-12");
  for (const char* ask : {"due", "due --overdue", "due --format md", "due --overdue --format md"}) {
    CAPTURE(ask);
    must(place, ask);
    CHECK(place.says("two people"));
  }
  const auto points = json_of(place, "due --all")["points"];
  CHECK(of_task(points, "hoses")["people"] == 2);
  CHECK(of_task(points, "engine-oil")["people"] == 1);
  must(place, "due --all --format csv");
  CHECK(place.out.substr(0, place.out.find_first_of("\r\n"))
            .ends_with(
                ",do_not_run,doubtful,people,usage_estimated_from,again_on,sightings,looked_on,looked_by,looked_fact"));
}

TEST_CASE("a list in Markdown says first what nobody may run, and what is laid up under its heading") {
  Place place;
  furnish_three(place);
  must(place, "out-of-use pump --note fork-worn --on 2026-06-10");
  must(place, "lay-up mower --on 2026-06-10");
  must(place, "saw loader leak --on 2026-06-12");
  must(place, "due --format md");
  CHECK(
      place.out.find("\n\n- **pump**: do not run it: out of use since 2026-06-10: fork-worn\n- **loader**: do not run "
                     "it before this is mended: hoses, "
                     "leak seen 2026-06-12\n\n|") != std::string::npos);
  CHECK(place.out.find("\n\n## Laid up\n\n- **mower**: laid up since 2026-06-10\n") != std::string::npos);
}

TEST_CASE(
    "what a look found is told in the same words of a listed sign and of any other, and in data with who looked") {
  Place place;
  furnish_three(place);
  run_the_loader(place);
  must(place, "saw loader leak --on 2026-06-10 --note drips");
  must(place, "looked loader leak --found worn --by M.T. --on 2026-06-12 --note hose-split --as-of 2026-06-15");
  must(place, "saw loader odd-noise --on 2026-06-11");
  must(place, "looked loader odd-noise --found worn --by A.F. --on 2026-06-13 --note bearing-hums --as-of 2026-06-15");
  for (const char* ask : {"due", "due --overdue", "season harvest", "sheet loader", "workload", "parts"}) {
    CAPTURE(ask);
    must(place, std::string(ask) + " --as-of 2026-06-15");
    CHECK(place.says("leak seen 2026-06-10 (drips); looked at 2026-06-12, found worn: hose-split"));
    CHECK(place.says("odd-noise, seen 2026-06-11; looked at 2026-06-13, found worn: bearing-hums"));
  }
  const auto due = json_of(place, "due --as-of 2026-06-15");
  const auto& seen = due["seen"][0];
  CHECK(seen["looked_on"] == "2026-06-13");
  CHECK(seen["looked_by"] == "A.F.");
  CHECK(seen["looked_fact"] != seen["fact"]);
  for (const auto& limb : of_task(due["points"], "hoses")["limbs"]) {
    if (limb["kind"] != "sign") continue;
    CHECK(limb["looked_on"] == "2026-06-12");
    CHECK(limb["looked_by"] == "M.T.");
    CHECK(limb["looked_fact"].is_string());
  }
  for (const auto& row : rows_of(place, "due --as-of 2026-06-15")) {
    if (row.at("sign") == "leak") CHECK(row.at("looked_by") == "M.T.");
    if (row.at("sign") == "odd-noise") CHECK(row.at("looked_on") == "2026-06-13");
  }
}

TEST_CASE("each row of CSV and JSON about a machine says whether nobody may run it, and so does why with the reasons") {
  Place place;
  furnish_three(place);
  run_the_loader(place);
  must(place, "out-of-use pump --note fork-worn --on 2026-06-10");
  must(place, "lay-up mower --on 2026-06-10");
  must(place, "saw loader leak --on 2026-06-12");
  for (const char* ask :
       {"due --all", "due --overdue", "forecast --within 24m", "workload", "parts", "season harvest"}) {
    CAPTURE(ask);
    std::size_t bans = 0;
    for (const auto& row : rows_of(place, ask)) {
      if (row.at("row") == "not-to-run") ++bans;
      if (row.at("machine").empty()) continue;
      CAPTURE(row.at("row"));
      CHECK(row.at("do_not_run") == (row.at("machine") == "mower" ? "no" : "yes"));
    }
    CHECK(bans == 2);
    // So does each row of JSON: gaps, meters and points without a record, too.
    const auto answer = json_of(place, ask);
    for (const auto& [list, lines] : answer.items()) {
      if (!lines.is_array() || list == "not_to_run") continue;
      CAPTURE(list);
      for (const auto& row : lines) {
        if (row.is_object() && row.contains("machine")) CHECK(row["do_not_run"] == (row["machine"] != "mower"));
      }
    }
  }
  must(place, "why pump");
  CHECK(place.says("do not run it: out of use since 2026-06-10: fork-worn"));
  must(place, "why loader engine-oil");
  CHECK(place.says("do not run it before this is mended: hoses, leak seen 2026-06-12"));
  must(place, "why loader hoses");
  CHECK(place.says("do not run it before this is mended: hoses, leak seen 2026-06-12"));
  // Laid up alone is no ban, in no answer.
  must(place, "sheet mower");
  CHECK_FALSE(place.says("Do not run"));
  CHECK(place.says("LAID UP: not before it is back"));
  CHECK(json_of(place, "sheet mower")["sheets"][0]["do_not_run"] == false);
}
