// `why`, `history` and the help texts.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "command_table.h"
#include "terminal/width.h"
#include "unit/cli/place.h"

using cli_test::Place;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

// As a shell takes a line apart that has nothing but blanks and double quotes.
std::vector<std::string> words_of(const std::string& line) {
  std::vector<std::string> words{""};
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ' ' && !quoted) {
      words.emplace_back();
    } else {
      words.back() += c;
    }
  }
  return words;
}

}  // namespace

TEST_CASE("why reads back rule, facts and sums") {
  Place place;
  place.furnish();
  REQUIRE(place.run("done loader engine-oil --on 2025-03-02 --at 1250") == 0);
  REQUIRE(place.run("reading loader 1511.4 --on 2026-03-01") == 0);
  REQUIRE(place.run("why loader engine-oil --as-of 2026-03-01") == 0);
  CHECK(place.says("every 250 h or 12 months, whichever comes first; grace 5.0 h"));
  CHECK(place.says("2025-03-02: done engine-oil at 1250.0 h ["));
  CHECK(place.says("used 261.4 h = 1511.4 h (usage known on 2026-03-01) - 1250.0 h (fitted"));
  CHECK(place.says("due at 1500.0 h = 1250.0 h + 250.0 h: 11.4 h over 250 h"));
  CHECK(place.says("12 months from 2025-03-02 is 2026-03-02: 1 day left of 12 months"));
  CHECK(place.says("ruled by use"));
  REQUIRE(place.run("why loader engine-oil --as-of 2026-03-01 --format json") == 0);
  const auto answer = nlohmann::json::parse(place.out);
  CHECK(answer["points"][0]["rule"].get<std::string>().starts_with("every 250 h"));
  CHECK(answer["points"][0]["limbs"][0]["used"].dump() == "261.4");
}

TEST_CASE("why says what is wanting where use is not known, and nothing else") {
  Place place;
  place.furnish();
  place.write("fleet.yaml", "fleet: Test\nmachines:\n  a: {schedule: s}\n  b: {schedule: s}\n  c: {schedule: s}\n");
  place.write("schedules/s.yaml", "schedule: s\ntasks:\n  t: {do: It, every: {hours: 500, months: 12}}\n");
  REQUIRE(place.run("reading a 1200 --on 2026-05-01") == 0);
  REQUIRE(place.run("why a t") == 0);
  CHECK(place.says("use unknown, of 500 h: no service is written down from which to count"));
  REQUIRE(place.run("done b t --on 2026-03-01") == 0);
  REQUIRE(place.run("reading b 1200 --on 2026-05-01") == 0);
  REQUIRE(place.run("why b t") == 0);
  CHECK(place.says("use unknown, of 500 h: use at the last service is not known"));
  CHECK_FALSE(place.says("never read"));
}

TEST_CASE("a machine in service since a year says so, and that nothing was done then") {
  Place place;
  place.furnish();
  place.write("fleet.yaml", "fleet: Test\nmachines:\n  a: {schedule: s, in-service: {on: 2005, at: 0}}\n");
  place.write("schedules/s.yaml", "schedule: s\ntasks:\n  t: {do: It, every: {hours: 500, months: 12}}\n");
  REQUIRE(place.run("reading a 8000 --on 2026-05-01") == 0);
  REQUIRE(place.run("due") == 0);
  CHECK(place.says("in service 2005, year only"));
  CHECK_FALSE(place.says("done 2005"));
}

TEST_CASE("why says where a limit comes from, the machine's own change before the schedule, and what to mind") {
  Place place;
  place.furnish();
  std::string schedule = place.read("schedules/tractor.yaml");
  schedule.insert(schedule.find("    follow-up:"), "    notes: manual, page 90\n    cautions: [used-oil]\n");
  place.write("schedules/tractor.yaml", schedule);
  REQUIRE(place.run("done loader engine-oil --at 1250") == 0);
  REQUIRE(place.run("why loader engine-oil") == 0);
  CHECK(place.says("  source  manual, page 90\n"));
  CHECK(place.says("  mind    Used oil harms skin"));
  REQUIRE(place.run("why loader engine-oil/check-leaks") == 0);
  CHECK(place.says("  mind    Used oil harms skin"));
  std::string fleet = place.read("fleet.yaml");
  fleet.insert(fleet.find("  pump:"), "    change: {engine-oil: {every: {hours: 200}, notes: leaflet of 2025}}\n");
  place.write("fleet.yaml", fleet);
  REQUIRE(place.run("why loader engine-oil") == 0);
  CHECK(place.says("  source  leaflet of 2025\n"));
  REQUIRE(place.run("why loader engine-oil --format json") == 0);
  CHECK(nlohmann::json::parse(place.out)["points"][0]["source"] == "leaflet of 2025");
}

TEST_CASE("why shows all positions or the one asked for") {
  Place place;
  place.furnish();
  REQUIRE(place.run("why loader tyre") == 0);
  CHECK(place.says("tyre@front-left"));
  CHECK(place.says("tyre@front-right"));
  REQUIRE(place.run("why loader tyre@front-right") == 0);
  CHECK_FALSE(place.says("front-left"));
}

TEST_CASE("why of a check that nobody owes yet says when it would be") {
  Place place;
  place.furnish();
  CHECK(place.run("why loader engine-oil/check-leaks") == 64);
  CHECK(place.complains("after engine-oil was done"));
  REQUIRE(place.run("done loader engine-oil --at 100 --on 2026-06-10") == 0);
  REQUIRE(place.run("why loader engine-oil/check-leaks") == 0);
  CHECK(place.says("once, within 1 h of engine-oil"));
}

TEST_CASE("the book of a machine is in order and keeps what was struck") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 200 --on 2026-06-08") == 0);
  REQUIRE(place.run("reading loader 100 --on 2026-06-01") == 0);
  REQUIRE(place.run("undo") == 0);
  REQUIRE(place.run("history loader") == 0);
  CHECK(place.out.find("2026-06-01") < place.out.find("2026-06-08"));
  CHECK(place.says("STRUCK 2026-06-15 undo"));
  CHECK_FALSE(place.says("strike "));
  REQUIRE(place.run("history loader --all") == 0);
  CHECK(place.says("strike "));
  REQUIRE(place.run("history loader --format csv") == 0);
  const auto csv = lines_of(place.out);
  REQUIRE(csv.size() == 3);
  CHECK(csv[0].starts_with("kind,machine,on,meter,at,"));  // as `export` has them
  CHECK(csv[0].ends_with(",batch,strikes,meter_unit,usage,struck,struck_because\r"));
  CHECK(csv[1].starts_with("reading,loader,2026-06-01,"));
  CHECK(csv[1].find(",h,,yes,2026-06-15 undo by ") != std::string::npos);
  CHECK(csv[2].ends_with(",h,,no,\r"));
  REQUIRE(place.run("history loader --format json") == 0);
  const auto book = nlohmann::json::parse(place.out);
  CHECK(book["facts"][0]["struck"] == true);
  CHECK(book["facts"][1]["struck"] == false);
  REQUIRE(place.run("history pump") == 0);
  CHECK(place.says("Nothing is written down"));
}

TEST_CASE("a machine that the fleet lost still has its book") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading pump 20 --on 2026-06-01") == 0);
  std::string fleet = cli_test::small_fleet;
  fleet.erase(fleet.find("  pump:\n    name"));
  place.write("fleet.yaml", fleet);
  REQUIRE(place.run("history pump") == 0);
  CHECK(place.says("2026-06-01"));
  REQUIRE(place.run("due") == 0);
  CHECK(place.says("does not list"));
}

TEST_CASE("help is there for the program and for each command") {
  Place place;
  REQUIRE(place.run("--help") == 0);
  const std::string whole = place.out;
  REQUIRE(place.run("help") == 0);
  CHECK(place.out == whole);
  for (const auto& command : cli::commands()) {
    const std::string name(command.name);
    CAPTURE(name);
    CHECK((whole.find("\n  " + name + " ") != std::string::npos) == !command.hidden);
    REQUIRE(place.run(name + " --help") == 0);
    const std::string text = place.out;
    CHECK(text.find("USAGE\n  whichever " + name) != std::string::npos);
    CHECK(text.find("EXIT STATUS\n") != std::string::npos);
    for (const auto& option : command.options) CHECK(text.find("--" + std::string(option.name)) != std::string::npos);
    for (const auto& line : lines_of(text)) CHECK(cli::width(line) <= 90);
    REQUIRE(place.run("help " + name) == 0);
    CHECK(place.out == text);
  }
  REQUIRE(place.run("--version") == 0);
  CHECK(place.out.starts_with("whichever "));
}

TEST_CASE("every example in the help works on the sample fleet") {
  Place place;
  const std::filesystem::path sample = std::filesystem::path(SOURCE_DIR) / "sample-fleet";
  for (const char* file : {"fleet.yaml", "register.csv", "schedules", "facts.csv", "messages.txt"}) {
    std::filesystem::copy(sample / file, place.folder / file, std::filesystem::copy_options::recursive);
  }
  REQUIRE(place.run("new .") == 0);
  const int imported = place.run("import facts.csv");
  CAPTURE(place.err);
  REQUIRE(imported == 0);
  REQUIRE(place.run("count gland-packing 3") == 0);  // for `undo`, which takes back no file by a slip
  int tried = 0;
  for (const auto& command : cli::commands()) {
    for (const auto& example : command.examples) {
      const std::string line(example.arguments);
      CAPTURE(line);
      const int status = place.run_words(words_of(line));
      CAPTURE(place.err);
      CHECK(status == 0);
      ++tried;
    }
  }
  CHECK(tried > 10);
}

TEST_CASE("why tells a sign that was looked at, who looked and what was found, and what is kept as seen") {
  Place place;
  place.furnish();
  REQUIRE(place.run("done loader hoses --on 2026-06-01") == 0);
  REQUIRE(place.run("why loader hoses") == 0);
  CHECK(place.says("on leak: none seen since 2026-06-01"));
  REQUIRE(place.run("saw loader leak --on 2026-06-11 --note drips") == 0);
  REQUIRE(place.run("looked loader leak --on 2026-06-12 --found worn --note sweats") == 0);
  REQUIRE(place.run("why loader hoses") == 0);
  CHECK(place.says("leak seen 2026-06-11; looked at 2026-06-12, worn: sweats"));
  REQUIRE(place.run("saw loader leak --on 2026-06-13 --note worse") == 0);
  REQUIRE(place.run("why loader hoses") == 0);
  CHECK(place.says("leak seen 2026-06-11, again 2026-06-13; looked at 2026-06-12, worn: sweats"));
  CHECK(place.says("2026-06-13: sign leak (worse)"));
  REQUIRE(place.run("looked loader leak --by M.T. --note tightened") == 0);
  REQUIRE(place.run("saw loader strange noise") == 0);
  REQUIRE(place.run("why loader hoses") == 0);
  CHECK(place.says("looked at 2026-06-15 by M.T., good: tightened"));
  CHECK(place.says("2026-06-11: sign leak (drips) ["));
  CHECK(place.says("2026-06-15: looked-at leak, found good, by M.T. (tightened) ["));
  CHECK_FALSE(place.says("none seen"));
  CHECK(place.says("strange noise, seen 2026-06-15 ["));
  CHECK(place.says("nobody has looked at it yet"));
  REQUIRE(place.run("looked loader strange noise --found failed --note bearing") == 0);
  REQUIRE(place.run("why loader") == 0);
  CHECK(place.says("nobody has found it good since"));
}
