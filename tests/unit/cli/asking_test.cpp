// How people ask: machines by name, days and values as they are typed, words for which people reach.
#include "unit/cli/asking.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <sstream>
#include <string>
#include <vector>

#include "command_table.h"
#include "near_commands.h"
#include "terminal/width.h"

namespace {

using cli_test::must;
using cli_test::Place;
using Words = std::vector<std::string>;

std::string two_of_a_name() {
  std::string fleet = cli_test::small_fleet;
  return fleet.replace(fleet.find("Old pump"), 8, "loader TRACTOR");
}

}  // namespace

TEST_CASE("a machine is named by its name wherever one is named") {
  Place place;
  place.furnish();
  REQUIRE(place.run_words({"reading", "Loader tractor", "12"}) == 0);
  REQUIRE(place.run_words({"reading", "old PUMP", "3", "--on", "yesterday"}) == 0);
  for (const Words& words : {Words{"due", "Old pump", "--all"}, Words{"due", "--machine", "Old pump", "--all"},
                             Words{"due", "--site", "Pumping station", "--all"}}) {
    REQUIRE(place.run_words(words) == 0);
    CHECK(place.says("gland"));
    CHECK_FALSE(place.says("hoses"));
  }
  for (const char* command : {"find-out", "forecast", "workload", "parts", "history", "why"}) {
    CAPTURE(command);
    CHECK(place.run_words({command, "Loader tractor"}) == 0);
  }
  for (const Words& words :
       {Words{"done", "old pump", "gland", "--dry-run"}, Words{"saw", "Loader tractor", "leak", "--dry-run"},
        Words{"meter-change", "old pump", "--last", "3", "--first", "0", "--dry-run"},
        Words{"put-off", "old pump", "gland", "--until", "2027-01-01", "--dry-run"},
        Words{"lay-up", "old pump", "--dry-run"}, Words{"out-of-use", "old pump", "--dry-run"}}) {
    CAPTURE(words[0]);
    CHECK(place.run_words(words) == 0);
  }
}

TEST_CASE("a name that two machines bear is asked back, and nothing is stored") {
  Place place;
  place.furnish();
  place.write("fleet.yaml", two_of_a_name());
  CHECK(place.run_words({"reading", "Loader tractor", "12"}) == 64);
  CHECK(place.complains("`Loader tractor` may mean 2 machines"));
  CHECK(place.complains("write which: loader or pump"));
  REQUIRE(place.run("export") == 0);
  CHECK_FALSE(place.says("reading"));
  CHECK(place.run_words({"due", "Loader tractor"}) == 64);
  CHECK(place.run("due loader") == 0);  // the key is clear
}

TEST_CASE("another kind of name leads on") {
  Place place;
  place.furnish();
  place.write("fleet.yaml", std::string(cli_test::small_fleet) + "seasons: {harvest: {from: 08-01, to: 09-20}}\n");
  CHECK(place.run("due harvest") == 64);
  CHECK(place.complains("`harvest` is a season: whichever season harvest"));
  CHECK(place.run("due yard") == 64);
  CHECK(place.complains("--site yard"));
  CHECK(place.run("why engine-oil") == 64);
  CHECK(place.complains("MACHINE engine-oil"));
}

TEST_CASE("why without a task is of the worst point") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 300 --on 2026-06-14") == 0);
  REQUIRE(place.run("why loader") == 0);
  CHECK(place.says("loader engine-oil, on 2026-06-15"));
  CHECK(place.says("and 3 more: whichever due loader --all"));
  REQUIRE(place.run("why loader --format json") == 0);
  CHECK(place.says("\"left_off\": 3"));
  REQUIRE(place.run("why loader engine-oil --format json") == 0);
  CHECK(place.says("\"left_off\": 0"));
  CHECK(place.run("why loader --as-of 2020-01-01") == 64);
  CHECK(place.complains("no service point"));
}

TEST_CASE("days and values as people type them") {
  Place place;
  place.furnish();
  struct Row {
    Words words;
    std::string on;
  };
  for (const Row& row :
       {Row{{"--on", "yesterday"}, "2026-06-14"}, Row{{"--on", "-3d"}, "2026-06-12"}, Row{{"--on=-3d"}, "2026-06-12"},
        Row{{"--on", "13.06.2026"}, "2026-06-13"}, Row{{"--on", "06/13/2026"}, "2026-06-13"},
        Row{{"--as-of", "yesterday"}, "2026-06-14"}, Row{{"--as-of", "-1w"}, "2026-06-08"},
        Row{{"--as-of", "10.6.2026", "--on", "yesterday"}, "2026-06-09"}}) {
    Words words{"done", "loader", "engine-oil", "--at", "2383,7", "--dry-run", "--format", "json"};
    words.insert(words.end(), row.words.begin(), row.words.end());
    CAPTURE(row.on);
    REQUIRE(place.run_words(words) == 0);
    CHECK(place.says("\"on\": \"" + row.on));
    CHECK(place.says("2383.7"));
  }
  CHECK(place.run("reading loader 12 --on 03/04/2026") == 64);
  CHECK(place.complains("could be 2026-04-03 or 2026-03-04"));
  CHECK(place.run("reading loader 1,250") == 64);
  CHECK(place.complains("could be 1250 or 1.250"));
  REQUIRE(place.run("reading loader 12,5") == 0);
  CHECK(place.says("12.5 h"));
  REQUIRE(place.run("saw loader tread=14,5 --position front-left") == 0);
  CHECK(place.says("14.5 mm"));
  REQUIRE(place.run("meter-change loader --last 12,75 --first 0,5 --dry-run") == 0);
  CHECK(place.says("12.75"));
  REQUIRE(place.run("put-off loader engine-oil --until +50,5h --dry-run") == 0);
  CHECK(place.says("63"));
  REQUIRE(place.run("put-off loader engine-oil --until 01.09.2026 --dry-run") == 0);
  CHECK(place.says("2026-09-01"));
  REQUIRE(place.run("lay-up loader --until 1.9.2026 --dry-run") == 0);
  CHECK(place.says("2026-09-01"));
}

TEST_CASE("the day that came off the clock is not called given because it was typed as today") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 12") == 0);
  place.now -= 10 * 86'400'000LL;  // the clock is behind
  REQUIRE(place.run("due") == 0);
  CHECK(place.says("clock"));
  REQUIRE(place.run("due --as-of today") == 0);
  CHECK(place.says("clock"));
}

TEST_CASE("words for which people reach lead to the command that answers") {
  struct Bridge {
    std::string typed;
    std::string command;
  };
  for (const Bridge& bridge : {Bridge{"list", "whichever due"},
                               {"overdue", "whichever due --overdue"},
                               {"order", "whichever parts"},
                               {"show", "whichever why MACHINE"},
                               {"show", "whichever history MACHINE"},
                               {"look", "whichever due MACHINE"},
                               {"log", "whichever history MACHINE"},
                               {"plan", "whichever season SEASON"},
                               {"plan", "whichever rounds --from DAY"},
                               {"week", "whichever rounds --from DAY"}}) {
    CAPTURE(bridge.typed);
    CHECK(cli::instead_of_command(bridge.typed, "whichever").find(bridge.command) != std::string::npos);
    Place place;
    CHECK(place.run(bridge.typed + " loader --all") == 64);
    CHECK(place.complains(bridge.command));
  }
}

TEST_CASE("a hint never leads from asking to writing") {
  for (const char* typed : {"doe", "dune", "du", "dut", "duee", "show", "list", "order", "overdue", "looks", "chek"}) {
    CAPTURE(typed);
    const std::string hint = cli::instead_of_command(typed, "whichever");
    for (const cli::Command& command : cli::commands()) {
      const bool writes = std::any_of(command.options.begin(), command.options.end(),
                                      [](const cli::Option& option) { return option.name == "dry-run"; });
      if (!writes) continue;
      CHECK(hint.find('`' + std::string(command.name) + '`') == std::string::npos);
      CHECK(hint.find("whichever " + std::string(command.name)) == std::string::npos);
    }
  }
  // Who writes is led to writing.
  CHECK(cli::instead_of_command("readin", "whichever") == "did you mean `reading`?");
  CHECK(cli::instead_of_command("dnoe", "whichever").find("`done`") != std::string::npos);
}

TEST_CASE("seasons complete, and tasks of a machine by name") {
  Place place;
  place.furnish();
  place.write("fleet.yaml", std::string(cli_test::small_fleet) + "seasons: {harvest: {from: 08-01, to: 09-20}}\n");
  REQUIRE(place.run_words({"complete", "--", "season", "ha"}) == 0);
  CHECK(place.out == "harvest\n");
  REQUIRE(place.run_words({"complete", "--", "parts", "--before", ""}) == 0);
  CHECK(place.out == "harvest\n");
  REQUIRE(place.run_words({"complete", "--", "season", "harvest", "pu"}) == 0);
  CHECK(place.out == "pump\n");
  REQUIRE(place.run_words({"complete", "--", "why", "old pump", ""}) == 0);
  CHECK(place.out == "gland\n");
}

TEST_CASE("every list takes --site and --first, and says what it left off") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 300 --on 2026-06-14") == 0);
  for (const char* command : {"due", "find-out", "forecast", "workload", "parts"}) {
    CAPTURE(command);
    REQUIRE(place.run(std::string(command) + " --site yard --first 1") == 0);
    CHECK_FALSE(place.says("pump"));
    REQUIRE(place.run(std::string(command) + " --first 1 --format json") == 0);
    CHECK(place.says("\"left_off\": "));
    CHECK(place.run(std::string(command) + " --first 0") == 64);
    CHECK(place.run(std::string(command) + " --first some") == 64);
  }
  REQUIRE(place.run("due --all --first 1") == 0);
  CHECK(place.says("And 3 more"));
  REQUIRE(place.run("due --first 1 --format json") == 0);
  CHECK(place.says("\"left_off\": 3"));
  REQUIRE(place.run("due --first 1 --format csv") == 0);
  CHECK(place.complains("and 3 more"));
  REQUIRE(place.run("due --all --first 1 --format md") == 0);
  CHECK(place.says("And 3 more, left off by --first."));
  REQUIRE(place.run("due --first 9 --format csv") == 0);
  CHECK(place.err.empty());
  REQUIRE(place.run("history loader --first 1") == 0);
  CHECK_FALSE(place.says("And "));
  REQUIRE(place.run("reading loader 310") == 0);
  REQUIRE(place.run("history loader --first 1") == 0);
  CHECK(place.says("And 1 more"));
  REQUIRE(place.run("find-out --first 1 --as-of 2026-06-15") == 0);
}

TEST_CASE("the overdue list is never cut, and is written as CSV and Markdown under its headings") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 300 --on 2026-06-14") == 0);
  CHECK(place.run("due --overdue --first 3") == 64);
  CHECK(place.complains("its silence means that all is well"));
  REQUIRE(place.run("due --overdue --format csv --as-of 2026-12-01") == 0);
  CHECK(place.says("row,heading,machine,site,customer,task"));
  CHECK(place.says("point,overdue,loader,yard,,engine-oil"));
  CHECK(place.says("gap,find-out,loader"));
  REQUIRE(place.run("due --overdue --format md --as-of 2026-12-01") == 0);
  CHECK(place.says("## Overdue\n"));
  CHECK(place.says("| overdue | loader | yard | engine-oil |"));
  CHECK(place.says("## Find out\n"));
}

TEST_CASE("sites and customers in every format of the due list") {
  Place place;
  place.furnish();
  std::string fleet = cli_test::small_fleet;
  fleet.replace(fleet.find("{name: Home yard}"), 17, "{name: Home yard, customer: A. Thorne}");
  fleet.replace(fleet.find("{name: Pumping station}"), 23, "{name: Pumping station, customer: Mere board}");
  place.write("fleet.yaml", fleet);
  REQUIRE(place.run("due --all") == 0);
  CHECK(place.says("Sites: yard for A. Thorne; mere for Mere board."));
  REQUIRE(place.run("due --all --site mere") == 0);
  CHECK_FALSE(place.says("Sites:"));
  REQUIRE(place.run("due --all --format md") == 0);
  CHECK(place.says("| mere (Mere board) | gland |"));
  REQUIRE(place.run("due --format csv") == 0);
  CHECK(place.says("point,pump,mere,Mere board,gland"));
  REQUIRE(place.run("due --format json") == 0);
  CHECK(place.says("\"site\": \"mere\",\n   \"customer\": \"Mere board\""));
  REQUIRE(place.run("forecast --format csv") == 0);
  CHECK(place.says(",pump,mere,Mere board,engine"));
}

TEST_CASE("text keeps to the terminal's columns, whatever they are") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 300 --on 2026-06-14") == 0);
  REQUIRE(place.run("put-off loader engine-oil --until 2026-12-01 --note a-reason") == 0);
  place.variables["LANG"] = "C.UTF-8";
  for (const int columns : {60, 80, 120}) {
    for (const bool terminal : {true, false}) {
      place.world.terminal = terminal;
      place.world.columns = terminal ? columns : 0;
      const auto most = static_cast<std::size_t>(terminal ? columns : 80);
      for (const char* command : {"due --all", "due --overdue", "why loader", "find-out", "forecast", "forecast loader",
                                  "workload", "parts", "history loader", "check"}) {
        CAPTURE(command);
        CAPTURE(columns);
        REQUIRE(place.run(command) == 0);
        std::istringstream lines(place.out);
        for (std::string line; std::getline(lines, line);) {
          CAPTURE(line);
          CHECK(cli::width(line) <= most);
        }
      }
    }
  }
}

TEST_CASE("an overdue list without an entry prints nothing, as CSV too") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 100") == 0);
  REQUIRE(place.run("reading pump 100") == 0);
  for (const char* task : {"engine-oil", "tyre"}) {
    REQUIRE(place.run(std::string("done loader ") + task + " --at 100 --checked") == 0);
  }
  for (const char* position : {"front-left", "front-right"}) {
    REQUIRE(place.run(std::string("saw loader tread=30 --position ") + position) == 0);
  }
  for (const char* format : {"text", "md", "csv"}) {
    CAPTURE(format);
    REQUIRE(place.run(std::string("due --overdue --exit-code --format ") + format) == 0);
    CHECK(place.out.empty());
  }
}

TEST_CASE("a list to find out carries cautions in CSV, and is imported with them") {
  Place place;
  place.furnish();
  std::string fleet = cli_test::small_fleet;
  fleet.replace(fleet.find("in-service: {on: 2024-03-02, at: 0}"), 35, "bought: {on: 2024-03-02, at: 0}");
  place.write("fleet.yaml", fleet);
  std::string schedule = cli_test::tractor_schedule;
  schedule.replace(schedule.find("    every: {hours: 250"), 0, "    cautions: [hot-fluid, used-oil]\n");
  place.write("schedules/tractor.yaml", schedule);
  REQUIRE(place.run("find-out --format csv --output blanks.csv") == 0);
  const std::string blanks = place.read("blanks.csv");
  CHECK(blanks.find(",cautions") != std::string::npos);
  CHECK(blanks.find("hot-fluid; used-oil") != std::string::npos);
  std::string filled = blanks;
  const auto row = filled.find("service,loader,");
  REQUIRE(row != std::string::npos);
  filled.insert(row + std::string("service,loader,").size(), "2026-01-10");
  place.write("filled.csv", filled);
  CHECK(place.run("import filled.csv") == 0);
  CHECK(place.says("1 fact new"));
}

TEST_CASE("a forecast says what has no record, and nothing is no all-clear") {
  Place place;
  place.furnish();
  std::string fleet = cli_test::small_fleet;
  fleet.replace(fleet.find("in-service: {on: 2025-01-10, at: 0}"), 35, "bought: {on: 2025-01-10, at: 0}");
  place.write("fleet.yaml", fleet);
  REQUIRE(place.run("forecast pump") == 0);
  CHECK(place.says("Nothing that is known comes due by then."));
  CHECK(place.says("not known when gland comes due: whichever find-out pump"));
  REQUIRE(place.run("forecast --first 1") == 0);
  CHECK(place.says("whichever find-out pump"));
}

TEST_CASE("a list about a site or about machines says so at its head and in JSON, and the whole fleet's does not") {
  Place place;
  place.furnish();
  place.write("fleet.yaml", std::string(cli_test::small_fleet) + "seasons: {harvest: {from: 08-01, to: 09-20}}\n");
  for (const std::string list : {"due --all", "forecast", "workload", "parts", "season harvest", "find-out"}) {
    CAPTURE(list);
    const auto scope = [&](const std::string& of) {
      must(place, list + of + " --format json");
      return nlohmann::json::parse(place.out)["scope"];
    };
    must(place, list + " --site mere");
    CHECK(place.out.starts_with("Skarvey estate, site mere"));
    CHECK((scope(" --site mere") == nlohmann::json{{"site", "mere"}}));
    must(place, list + " pump");
    CHECK(place.out.starts_with("Skarvey estate, pump, "));  // though it is all that stands there
    CHECK((scope(" pump")["machines"] == std::vector<std::string>{"pump"}));
    must(place, list + " pump --machine loader --site mere");
    CHECK(place.out.starts_with("Skarvey estate, loader and pump, "));
    CHECK((scope(" pump --machine loader")["machines"] == std::vector<std::string>{"loader", "pump"}));
    must(place, list);
    CHECK_FALSE(place.out.starts_with("Skarvey estate, loader"));
    CHECK_FALSE(place.out.starts_with("Skarvey estate, site"));
    CHECK(scope("").is_null());
  }
  std::string four = cli_test::small_fleet;
  for (const char* more : {"a", "b"}) four += fmt::format("  {}: {{schedule: pump, in-service: 2025-01-10}}\n", more);
  place.write("fleet.yaml", four);
  must(place, "due pump loader b");
  CHECK(place.out.starts_with("Skarvey estate, pump, loader and b, "));
  must(place, "due pump loader b a");
  CHECK(place.out.starts_with("Skarvey estate, pump, loader and 2 more, "));
  must(place, "due --overdue --site yard --format json");
  CHECK(nlohmann::json::parse(place.out)["scope"]["site"] == "yard");
  must(place, "parts pump --format md");
  CHECK(place.out.starts_with("# Skarvey estate, pump: parts"));
}

TEST_CASE("asked about a machine that left, its name and day are told") {
  Place place;
  place.furnish();
  std::string fleet = cli_test::small_fleet;
  const std::string start = "in-service: {on: 2025-01-10, at: 0}";
  fleet.replace(fleet.find(start), start.size(), start + "\n    left: 2026-03-01");
  place.write("fleet.yaml", fleet);
  for (const char* list : {"due pump", "find-out pump", "due pump --overdue", "forecast pump", "workload pump"}) {
    CAPTURE(list);
    must(place, list);
    CHECK(place.says("pump  it is not there on 2026-06-15: it left on 2026-03-01"));
    CHECK_FALSE(place.says("whole fleet"));
  }
}

TEST_CASE("what --first left off is counted by the rows that the list lost") {
  Place place;
  place.furnish();
  must(place, "reading loader 100 --on 2025-06-01");
  must(place, "reading loader 300 --on 2026-06-14");
  must(place, "reading pump 30 --on 2026-06-14");
  const auto lost = [&](const std::string& list) {
    const auto rows = [&](const std::string& line) {
      must(place, line + " --format csv");
      return std::count(place.out.begin(), place.out.end(), '\n');
    };
    const auto whole = rows(list);
    const auto cut = rows(list + " --first 1");
    CAPTURE(list);
    CHECK(whole > cut);
    CHECK(place.complains("and " + std::to_string(whole - cut) + " more"));
  };
  for (const char* list : {"workload", "forecast", "due"}) lost(list);
  must(place, "workload --first 1");
  CHECK(place.says("And 12 more months, left off by --first; the sums hold them."));
  must(place, "forecast --first 1");
  CHECK(place.says("And 1 more, left off by --first."));  // a meter; points are not in this text
  std::string bought = cli_test::small_fleet;             // nothing is known of either machine
  for (std::size_t at = 0; (at = bought.find("in-service", at)) != std::string::npos;) bought.replace(at, 10, "bought");
  place.write("fleet.yaml", bought);
  lost("find-out");
}

TEST_CASE("what is not known is told with site and customer") {
  Place place;
  place.furnish();
  std::string fleet = cli_test::small_fleet;
  const std::string start = "in-service: {on: 2025-01-10, at: 0}";
  fleet.replace(fleet.find(start), start.size(), "bought: {on: 2025-01-10, at: 0}");
  fleet.replace(fleet.find("name: Pumping station"), 21, "name: Pumping station, customer: Mere drainage");
  place.write("fleet.yaml", fleet);
  for (const char* list : {"forecast", "workload", "parts"}) {
    CAPTURE(list);
    must(place, list + std::string(" --format json"));
    const auto unknown = nlohmann::json::parse(place.out)["unknown"];
    REQUIRE(unknown.size() == 1);
    CHECK(unknown[0]["machine"] == "pump");
    CHECK(unknown[0]["site"] == "mere");
    CHECK(unknown[0]["customer"] == "Mere drainage");
  }
}

TEST_CASE("the due list in Markdown counts its standings, and says that later points are left out") {
  Place place;
  place.furnish();
  must(place, "reading loader 300 --on 2026-06-14");
  must(place, "due --format md");
  CHECK(place.says(" later. --all shows the later ones too.\n"));
  must(place, "due --format md --all");
  CHECK_FALSE(place.says("--all shows"));
  CHECK(place.says(" later.\n"));
}

TEST_CASE("an examination without record is not called safety alone") {
  Place place;
  place.furnish();
  place.write("schedules/pump.yaml",
              "schedule: pump\ntasks:\n"
              "  guard: {do: Look at the guard, every: {months: 12}, safety: true}\n"
              "  exam: {do: Examine, every: {months: 6}, by-whom: competent-person}\n");
  std::string fleet = cli_test::small_fleet;
  const std::string start = "in-service: {on: 2025-01-10, at: 0}";
  fleet.replace(fleet.find(start), start.size(), "bought: {on: 2025-01-10, at: 0}");
  place.write("fleet.yaml", fleet);
  for (const char* list : {"due", "due --overdue", "workload", "forecast"}) {
    CAPTURE(list);
    must(place, list);
    CHECK(place.says(", safety or statutory: guard, exam"));
  }
  must(place, "done pump exam --on 2026-05-01 --by M.T.");
  must(place, "due");
  CHECK(place.says(", safety: guard"));
}
