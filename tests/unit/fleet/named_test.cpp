// Machines, sites and seasons as people name them: by key, else by the only key or name that it is but for case.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "service/fleet.h"

using namespace service;

namespace {

Fleet named_fleet() {
  Fleet fleet;
  const std::vector<std::pair<std::string, std::string>> machines{
      {"loader", "Loader tractor"}, {"drill", "Tractor"}, {"hay", "Tractor"},     {"mower", "loader"},
      {"combine", "Mähdrescher"},   {"dryer", "Сушилка"}, {"pump-1", "Old  pump"}};
  for (const auto& [key, name] : machines) {
    Machine machine;
    machine.key = key;
    machine.name = name;
    fleet.machines.push_back(machine);
  }
  for (const auto& [key, name] :
       std::vector<std::pair<std::string, std::string>>{{"yard", "Home yard"}, {"mere", "Mere"}}) {
    Site site;
    site.key = key;
    site.name = name;
    fleet.sites.push_back(site);
  }
  return fleet;
}

std::string found(const std::string& written) {
  const Fleet fleet = named_fleet();
  const auto named = machine_named(fleet, written);
  if (named.one != nullptr) return named.one->key;
  std::string text;
  for (const Machine* machine : named.several) text += "several:" + machine->key + ' ';
  for (const std::string& key : named.near) text += "near:" + key + ' ';
  return text;
}

}  // namespace

TEST_CASE("the key wins, else a name that one machine bears, blanks and case folded") {
  CHECK(found("loader") == "loader");  // also another one's name
  CHECK(found("Loader tractor") == "loader");
  CHECK(found("  LOADER \t tractor ") == "loader");
  CHECK(found("Loader\u00a0tractor") == "loader");
  CHECK(found("old pump") == "pump-1");
  CHECK(found("MÄHDRESCHER") == "combine");
  CHECK(found("сУШИЛКА") == "dryer");
  CHECK(found("Loadertractor") == "near:loader ");  // blanks may be many, but not none
}

TEST_CASE("a name that several bear is asked back, and what is nobody's gets the nearest") {
  CHECK(found("tractor") == "several:drill several:hay ");
  CHECK(found("loadr") == "near:loader ");
  CHECK(found("Loader tracktor") == "near:loader ");  // near a name: its key
  CHECK(found("") == "");
  CHECK(found("  ") == "");
  CHECK(found("submarine") == "");
  CHECK(found("LOADER") == "several:loader several:mower ");  // by key and by name
}

TEST_CASE("a key is found whatever its case, and with blanks for its hyphens") {
  CHECK(found("DRILL") == "drill");
  CHECK(found("Pump 1") == "pump-1");
  CHECK(found("Pump-1") == "pump-1");
  CHECK(found("Mower") == "mower");
}

TEST_CASE("seasons likewise, by their keys") {
  Fleet fleet;
  for (const char* key : {"harvest", "early-sowing"}) {
    fleet.seasons.emplace_back();
    fleet.seasons.back().key = key;
  }
  CHECK(season_named(fleet, "Harvest").one == &fleet.seasons[0]);
  CHECK(season_named(fleet, "early Sowing").one == &fleet.seasons[1]);
  REQUIRE(season_named(fleet, "harvst").near.size() == 1);
  CHECK(season_named(fleet, "harvst").near.front() == "harvest");
}

TEST_CASE("sites likewise") {
  const Fleet fleet = named_fleet();
  CHECK(site_named(fleet, "home YARD").one == &fleet.sites[0]);
  CHECK(site_named(fleet, "Mere").one == &fleet.sites[1]);
  const auto near = site_named(fleet, "yrd").near;
  REQUIRE(near.size() == 1);
  CHECK(near.front() == "yard");
}

TEST_CASE("names are folded letter by letter") {
  CHECK(folded_name("ÅÉÞ×ß") == "åéþ×ß");
  CHECK(folded_name("ŁÓDŹ ŽĎÁR ŸŐ") == "łódź žďár ÿő");
  CHECK(folded_name("ΆΈΌΏΣΑΣ") == folded_name("άέόώσας"));
  CHECK(folded_name("ЂЁЯ") == "ђёя");
  CHECK(folded_name("\xff"
                    "A") ==
        "\xff"
        "a");
  CHECK(folded_name("耕運機 A") == "耕運機 a");
}
