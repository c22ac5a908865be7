// Every command that is printed about a fleet which `--fleet` named names it again: copied as it stands it asks about
// that fleet, and writes into its book, wherever it is given.
#include <doctest/doctest.h>

#include <algorithm>
#include <sstream>
#include <string>
#include <vector>

#include "command_table.h"
#include "unit/cli/asking.h"
#include "unit/cli/place.h"

using namespace cli_test;

namespace {

constexpr std::string_view about_it = "whichever --fleet 'my farm' ";

// What follows a printed command that does not name the fleet; empty where all do. Counts those that do.
std::string astray(const std::string& printed, int& named) {
  const std::string text = Place::unfolded(printed);
  constexpr std::string_view begins = "whichever ";
  for (auto at = text.find(begins); at != std::string::npos; at = text.find(begins, at + 1)) {
    std::string rest = text.substr(at, 90);
    const std::string behind = rest.substr(begins.size());
    const std::string word = behind.substr(0, behind.find_first_of(" `;,.\n\""));
    const bool about_none = word == "help" || word == "new";
    if (rest.starts_with(about_it)) {
      ++named;
    } else if (cli::find_command(word) != nullptr && !about_none) {
      return rest;
    }
  }
  return "";
}

std::vector<std::string> words_of(const std::string& line) {
  std::istringstream words(line);
  std::vector<std::string> all{"--fleet", "my farm"};
  all.insert(all.end(), std::istream_iterator<std::string>(words), {});
  return all;
}

void furnish_farm(Place& place) {
  std::string fleet = small_fleet;
  fleet.insert(fleet.find("machines:"), "seasons:\n  harvest: {from: 08-01, to: 09-20}\n");
  fleet = std::string(fleet).replace(fleet.find("{name: Pumping station}"), 23, "{name: Mere, at: [54.1, 3.2]}");
  place.write("my farm/fleet.yaml", fleet +
                                        "  wreck:\n    schedule: pump\n    site: mere\n"
                                        "crews: {van: {start: mere, hours: {mon-fri: \"08:00-16:00\"}}}\n"
                                        "costs: {hour: 44, km: 0.55}\n"
                                        "calls: {c: {machine: pump, do: Look, takes: 10 min, wait: 90}}\n");
  place.write("my farm/schedules/tractor.yaml", tractor_schedule);
  place.write("my farm/schedules/pump.yaml", pump_schedule);
  REQUIRE_MESSAGE(place.run_words({"new", "my farm"}) == 0, place.err);
}

}  // namespace

TEST_CASE("every printed command names the fleet that --fleet named, in what is said and in what is asked back") {
  Place place;
  furnish_farm(place);
  place.write("facts.csv", "kind,machine,on,at\nreading,pump,2026-06-01,12\n");
  // In this order: each prints at least one command.
  const std::vector<std::string> lines{
      "reading loader 100 --on 2026-06-01",
      "done loader engine-oil",
      "done loader engine-oil",
      "done loader engine-oil --format json",
      "check",
      "check --format json",
      "reading loader 50",
      "reading loader 50 --format json",
      "reading loader 405 --on 2026-06-15",
      "saw loader strange noise",
      "saw loader loud leak",
      "saw loader tread=14 --position front-left",
      "done loader tyre",
      "saw loader tread=14 --position front-left --format json",
      "done loader tyre --format json",
      "undo",
      "undo nothing-of-it",
      "strike nothing-of-it",
      "out-of-use loader --note x",
      "lay-up loader",
      "reading loader 410",
      "back loader",
      "lay-up pump --until 2026-07-01",
      "put-off loader engine-oil --until 2026-07-01",
      "import facts.csv",
      "merge facts.csv",
      "import farm-copy.db",
      "backup farm-copy-2.db",
      "due",
      "due --format md",
      "due --overdue",
      "due --overdue --format md",
      "due harvest",
      "why loader",
      "find-out",
      "forecast",
      "workload",
      "parts",
      "sheet",
      "sheet --format html",
      "sheet --readings",
      "sheet --readings --format html",
      "season harvest",
      "visits",
      "rounds --from 2026-06-15",
      "rounds --from 2026-06-15 --format md",
      "list",
      "what",
      "import wrong.csv",
  };
  REQUIRE_MESSAGE(place.run_words({"--fleet", "my farm", "backup", "farm-copy.db"}) == 0, place.err);
  place.write("wrong.csv", "kind,machine,on,at,name\nmeasurement,loader,2026-06-01,,tread\n");
  for (const std::string& line : lines) {
    CAPTURE(line);
    place.run_words(words_of(line));
    int named = 0;
    CHECK(astray(place.out + "\n\n" + place.err, named) == "");
    const bool prints_one = line != "what" && line != "import wrong.csv";
    CHECK_MESSAGE((named > 0) == prints_one, (place.out + place.err));
  }
}

TEST_CASE("a command that is printed about a fleet in a folder with a blank runs as it is printed") {
  Place place;
  furnish_farm(place);
  REQUIRE(place.run_words(words_of("reading loader 100")) == 0);
  CHECK(place.says("Take it back: whichever --fleet 'my farm' undo\n"));
  REQUIRE(place.run_words(words_of("undo")) == 0);
  CHECK(place.says("Bring it back: whichever --fleet 'my farm' strike "));
  place.variables["WHICHEVER_FLEET"] = "my farm";  // without the option they are as short as they were
  REQUIRE(place.run("reading loader 100") == 0);
  CHECK(place.says("Take it back: whichever undo\n"));
}
