// One command table: what completes, what the manual page says and what --help says cannot drift from what is parsed.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "command_table.h"
#include "render/help/help.h"
#include "unit/cli/place.h"

namespace {

using cli_test::Place;

std::vector<std::string> complete(Place& place, std::vector<std::string> words) {
  words.insert(words.begin(), {"complete", "--"});
  REQUIRE(place.run_words(words) == 0);
  std::vector<std::string> lines;
  std::istringstream out(place.out);
  for (std::string line; std::getline(out, line);) lines.push_back(line);
  return lines;
}

bool has(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

std::string escaped(std::string text) {
  for (std::size_t at = 0; (at = text.find('-', at)) != std::string::npos; at += 2) text.insert(at, 1, '\\');
  return text;
}

}  // namespace

TEST_CASE("every command and option completes, is in the manual page and in the help") {
  Place place;
  const auto all = complete(place, {""});
  const std::string manual = cli::help_as_man({});
  REQUIRE(place.run("help") == 0);
  const std::string help = place.out;
  for (const cli::Command& command : cli::commands()) {
    const std::string name(command.name);
    CAPTURE(name);
    CHECK(has(all, name) == !command.hidden);
    CHECK((manual.find(".SS " + escaped(name) + "\n") != std::string::npos) == !command.hidden);
    CHECK((help.find("  " + name + ' ') != std::string::npos) == !command.hidden);
    const auto options = complete(place, {name, "--"});
    REQUIRE(place.run_words({name, "--help"}) == 0);
    const std::string own = place.out;
    const auto section = manual.find(".SS " + escaped(name) + "\n");
    for (const cli::Option& option : command.options) {
      const std::string written = "--" + std::string(option.name);
      CAPTURE(written);
      CHECK(has(options, written));
      CHECK(own.find(written) != std::string::npos);
      if (!command.hidden) CHECK(manual.find(escaped(written), section) != std::string::npos);
      CHECK(option.does.size() < 60);
    }
    for (const cli::Option& option : cli::global_options()) {
      const bool about_a_fleet = option.name == "fleet" || option.name == "as-of";
      const bool has_it = option.name == "format" ? name != "mail" : command.about_a_fleet || !about_a_fleet;
      CHECK(has(options, "--" + std::string(option.name)) == has_it);
    }
    CHECK((complete(place, {name, "--format", ""}) ==
           std::vector<std::string>(command.formats.begin(), command.formats.end())));
  }
}

TEST_CASE("names of machines, tasks and the rest are those of the fleet that is there") {
  Place place;
  place.furnish();
  using Names = std::vector<std::string>;
  CHECK((complete(place, {"reading", ""}) == Names{"loader", "pump"}));
  CHECK((complete(place, {"reading", "lo"}) == Names{"loader"}));
  CHECK((complete(place, {"done", "pump", ""}) == Names{"gland"}));
  CHECK((complete(place, {"done", "loader", "t"}) == Names{"tyre", "tyre@front-left", "tyre@front-right"}));
  CHECK((complete(place, {"done", "loader", "hoses", "engine-oil/"}) == Names{"engine-oil/check-leaks"}));
  CHECK((complete(place, {"saw", "loader", ""}) == Names{"leak", "tread="}));
  CHECK((complete(place, {"due", "--site", ""}) == Names{"yard", "mere"}));
  CHECK((complete(place, {"due", "--machine", "pump", "--machine", "l"}) == Names{"loader"}));
  CHECK((complete(place, {"due", "--machine=p"}) == Names{"--machine=pump"}));
  CHECK((complete(place, {"due", "--machine", "=", "p"}) == Names{"pump"}));
  CHECK((complete(place, {"reading", "loader", "5", "--meter", ""}) == Names{"engine"}));
  CHECK((complete(place, {"done", "loader", "hoses", "--found", "w"}) == Names{"worn"}));
  CHECK(complete(place, {"due", "--within", ""}).empty());  // forms, not words
  CHECK(complete(place, {"import", ""}).empty());           // the shell knows files
  CHECK((complete(place, {"completion", ""}) == Names{"bash", "zsh", "fish"}));
  CHECK((complete(place, {"he"}) == Names{"help"}));
  CHECK(complete(place, {"nonsense", ""}).size() > 10);  // no command yet
  CHECK_FALSE(has(complete(place, {"due", "--all", "--"}), "--all"));
  CHECK(has(complete(place, {"due", "--machine", "pump", "--"}), "--machine"));
}

TEST_CASE("completing is silent where there is no fleet, or a broken one") {
  Place place;
  CHECK(complete(place, {"reading", ""}).empty());
  place.furnish();
  place.write("fleet.yaml", "fleet: [\n");
  CHECK(complete(place, {"reading", ""}).empty());
  CHECK(place.err.empty());
}

TEST_CASE("a shell without completion is named") {
  Place place;
  CHECK(place.run("completion tcsh") == 64);
  CHECK(place.complains("bash, zsh or fish"));
  for (const char* shell : {"bash", "zsh", "fish"}) {
    REQUIRE(place.run(std::string("completion ") + shell) == 0);
    CHECK(place.says("whichever complete --"));
  }
}
