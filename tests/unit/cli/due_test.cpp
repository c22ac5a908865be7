// `due` in process: text, JSON, CSV and Markdown, scopes, exit status, and silence that means something.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <set>

#include "unit/cli/asking.h"

using cli_test::json_of;
using cli_test::Place;

namespace {

const nlohmann::json* point(const nlohmann::json& list, const std::string& machine, const std::string& task) {
  for (const auto& found : list["points"]) {
    if (found["machine"] == machine && found["task"] == task) return &found;
  }
  return nullptr;
}

void serviced_in_2025(Place& place) {
  REQUIRE(place.run("done loader engine-oil --on 2025-03-02 --at 1250 --checked") == 0);
  REQUIRE(place.run("reading loader 1511.4 --on 2026-03-01") == 0);
}

}  // namespace

TEST_CASE("due without a record is an error that says how to start one") {
  Place place;
  place.furnish();
  std::filesystem::remove(place.folder / "record.db");
  CHECK(place.run("due") == 66);
  CHECK(place.out.empty());
  CHECK(place.complains("put back a backup: copy it to " + (place.folder / "record.db").string() +
                        "; only where there never was a record, start one: whichever new"));
  CHECK(place.err.starts_with("whichever: "));
}

TEST_CASE("a time zone that nobody knows is told with the other mistakes, in one run") {
  Place place;
  place.furnish();
  place.write("fleet.yaml", std::string("time-zone: Europe/Lundon\ngraze: 5%\n") + cli_test::small_fleet);
  CHECK(place.run("due") == 78);
  CHECK(place.complains("graze"));
  const auto zone = place.err.find("fleet.yaml:1:12: error: this computer does not know the time zone `Europe/Lundon`");
  REQUIRE(zone != std::string::npos);
  CHECK(zone < place.err.find("fleet.yaml:2:1: error:"));
  CHECK(place.complains("did you mean `Europe/London`"));
  CHECK_FALSE(place.complains("--as-of"));
  // Of a day that is given, too: it says when a message was written, and on which day the next morning begins.
  const std::string told = place.err;
  CHECK(place.run("due --as-of 2026-06-16") == 78);
  CHECK(place.err == told);
  // And where nothing else is wrong.
  place.write("fleet.yaml", cli_test::small_fleet + std::string("time-zone: \"Europe/Lundon\"\n"));
  for (const char* command : {"due --as-of 2026-06-16", "check --as-of 2026-06-16", "due"}) {
    CAPTURE(command);
    CHECK(place.run(command) == 78);
    CHECK((place.complains("fleet.yaml:17:") || place.says("fleet.yaml:17:")));
  }
  // As far as its line stands, where the file cannot be read to its end.
  place.write("fleet.yaml", std::string("fleet: \"a\n# more\ntime-zone: Europe/Lundon\n"));
  CHECK(place.run("due --as-of 2026-06-16") == 78);
  CHECK(place.complains("fleet.yaml:1:"));
  CHECK(place.complains("fleet.yaml:3:12: error: this computer does not know"));
}

TEST_CASE("due says what is overdue, by how much and since when") {
  Place place;
  place.furnish();
  serviced_in_2025(place);
  REQUIRE(place.run("due --as-of 2026-03-01") == 0);
  CHECK(place.says("!! overdue  loader  engine-oil"));
  CHECK(place.says("   later") == false);
  CHECK(place.says("11.4 h over 250 h · 1 day left of 12 months"));
  CHECK(place.says("since 2026-02-14"));
  CHECK(place.out.find('\x1b') == std::string::npos);
  CHECK(place.says("Skarvey estate, 2026-03-01"));
}

TEST_CASE("due as JSON has exact amounts and every point") {
  Place place;
  place.furnish();
  serviced_in_2025(place);
  const auto list = json_of(place, "due --as-of 2026-03-01");
  CHECK(list["fleet"] == "Skarvey estate");
  CHECK(list["as_of"] == "2026-03-01");
  const auto* oil = point(list, "loader", "engine-oil");
  REQUIRE(oil != nullptr);
  CHECK((*oil)["standing"] == "overdue");
  CHECK((*oil)["ruled_by"] == "usage");
  CHECK((*oil)["position"].is_null());
  CHECK((*oil)["put_off"].is_null());
  CHECK((*oil)["fitted"].dump() ==
        R"({"at":1250.0,"basis":"recorded","meter":"engine","on":"2025-03-02","until":"2025-03-02"})");
  CHECK((*oil)["limbs"][0]["used"].dump() == "261.4");
  CHECK((*oil)["limbs"][0]["left"].dump() == "-11.4");
  CHECK((*oil)["limbs"][0]["due_at"].dump() == "1500.0");
  CHECK((*oil)["limbs"][0]["meter"] == "engine");
  CHECK((*oil)["limbs"][1]["every"] == "12 months");
  CHECK((*oil)["limbs"][1]["left_days"] == 1);
  CHECK(point(list, "pump", "gland") != nullptr);  // later ones too
  CHECK(list["gaps"].is_array());
  CHECK(list["not_in_use"].empty());
  CHECK(place.out.find("\"machine\": \"loader\"") < place.out.find("\"task\""));  // keys keep their order
}

TEST_CASE("options before and after the command give the same bytes") {
  Place place;
  place.furnish();
  serviced_in_2025(place);
  REQUIRE(place.run("--as-of 2026-03-01 --format json due") == 0);
  const std::string before = place.out;
  REQUIRE(place.run("due --format json --as-of 2026-03-01") == 0);
  CHECK(place.out == before);
  CHECK_FALSE(before.empty());
}

TEST_CASE("a scoped question gives the same points as the whole") {
  Place place;
  place.furnish();
  serviced_in_2025(place);
  const auto whole = json_of(place, "due");
  const auto loader = json_of(place, "due --machine loader");
  const auto site = json_of(place, "due --site mere");
  CHECK(*point(loader, "loader", "engine-oil") == *point(whole, "loader", "engine-oil"));
  CHECK(point(loader, "pump", "gland") == nullptr);
  CHECK(*point(site, "pump", "gland") == *point(whole, "pump", "gland"));
  CHECK(point(site, "loader", "engine-oil") == nullptr);
  const auto both = json_of(place, "due --machine loader --site mere");
  CHECK(both["points"].size() == whole["points"].size());
}

TEST_CASE("the exit status tells of work only when asked") {
  Place place;
  place.furnish();
  CHECK(place.run("due --machine pump --as-of 2025-01-20") == 0);
  CHECK(place.run("due --machine pump --as-of 2025-01-20 --exit-code") == 0);
  serviced_in_2025(place);
  CHECK(place.run("due --as-of 2026-03-01") == 0);
  CHECK(place.run("due --as-of 2026-03-01 --exit-code") == 1);
}

TEST_CASE("an empty list says what it rests on") {
  Place place;
  place.furnish();
  REQUIRE(place.run("due --machine pump --as-of 2025-01-20") == 0);
  CHECK(place.says("Nothing is due within 30 days. 1 machine, nothing is recorded yet."));
  REQUIRE(place.run("reading pump 20 --on 2025-01-15") == 0);
  REQUIRE(place.run("due --machine pump --as-of 2025-01-20 --within 2w") == 0);
  CHECK(place.says("Nothing is due within 14 days. 1 machine, newest entry 2025-01-15."));
}

TEST_CASE("a clock before the newest fact is said and is no all-clear") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading pump 20 --on 2026-06-15") == 0);
  place.now -= 40LL * 86'400'000;
  REQUIRE(place.run("due --machine pump") == 0);
  CHECK(place.says("Not known"));
  CHECK(place.says("clock"));
  CHECK_FALSE(place.says("Nothing is due"));
  CHECK(place.run("due --machine pump --exit-code") == 1);
}

TEST_CASE("the overdue list is silent only when all is well") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading pump 20 --on 2025-01-15") == 0);
  REQUIRE(place.run("due --overdue --machine pump --as-of 2025-01-20") == 0);
  CHECK(place.out.empty());
  serviced_in_2025(place);
  REQUIRE(place.run("due --overdue --as-of 2026-03-20") == 0);
  CHECK(place.says("Overdue\n"));
  CHECK(place.says("engine-oil"));
  CHECK(place.run("due --overdue --first 1") == 64);
}

TEST_CASE("machines out of use come first and laid up ones under their heading") {
  Place place;
  place.furnish();
  place.write("facts.csv",
              "kind,machine,on,note\nout-of-use,loader,2026-06-01,brakes pull\nlaid-up,pump,2026-06-02,dry\n");
  REQUIRE(place.run("import facts.csv") == 0);
  REQUIRE(place.run("due") == 0);
  CHECK(place.out.find("out of use since 2026-06-01: brakes pull") < place.out.find("overdue"));
  CHECK(place.says("laid up since 2026-06-02: dry"));
  const auto list = json_of(place, "due");
  CHECK(
      list["not_in_use"][0].dump() ==
      R"({"customer":null,"do_not_run":true,"laid_up":null,"machine":"loader","note":"brakes pull","reasons":[{"note":"brakes pull","on":"2026-06-01"}],"since":"2026-06-01","site":"yard","state":"out-of-use","until":null})");
}

TEST_CASE("first cuts the list and says so") {
  Place place;
  place.furnish();
  REQUIRE(place.run("due --first 1 --all") == 0);
  CHECK(place.says("more, left off by --first"));
  CHECK(json_of(place, "due --first 1")["points"].size() == 2);
}

TEST_CASE("machines are words as well as options, and add up") {
  Place place;
  place.furnish();
  const auto machines = [&](const std::string& line) {
    const auto list = json_of(place, line);
    std::set<std::string> found;
    for (const auto& point : list["points"]) found.insert(point["machine"]);
    return found;
  };
  using Found = std::set<std::string>;
  CHECK((machines("due") == Found{"loader", "pump"}));
  CHECK((machines("due pump") == Found{"pump"}));
  CHECK((machines("due --machine pump") == Found{"pump"}));
  CHECK((machines("due pump loader") == Found{"loader", "pump"}));
  CHECK((machines("due pump --machine loader") == Found{"loader", "pump"}));
  CHECK(place.run("due pmp") == 64);
  CHECK(place.err.find("did you mean `pump`?") != std::string::npos);
}

TEST_CASE("CSV and Markdown name the gaps as well") {
  Place place;
  place.furnish();
  REQUIRE(place.run("reading loader 100 --on 2024-06-01") == 0);
  REQUIRE(place.run("due --format csv") == 0);
  CHECK(place.out.starts_with("row,machine,site,customer,task,position,standing"));
  CHECK(place.says("point,loader,yard,,engine-oil,,overdue"));
  CHECK(place.says(",engine,stale,,2024-06-01,"));
  REQUIRE(place.run("due --format md") == 0);
  CHECK(place.says("| overdue | loader | yard | engine-oil |"));
  CHECK(place.says("## Not known"));
}

TEST_CASE("names from files cannot steer a terminal") {
  Place place;
  place.furnish();
  place.input = "kind,machine,on,note\nout-of-use,loader,2026-06-01,\"\x1b]0;owned\x07 \xE2\x80\xAE\"\n";
  const int status = place.run("import -");
  REQUIRE((status == 0 || status == 65));
  CHECK(place.run("due") == 0);
  CHECK(place.out.find('\x1b') == std::string::npos);
  CHECK(place.err.find('\x1b') == std::string::npos);
}

TEST_CASE("on a terminal each point has its pair of bars") {
  Place place;
  place.furnish();
  serviced_in_2025(place);
  place.world.terminal = true;
  place.world.columns = 80;
  place.variables = {{"NO_COLOR", "1"}, {"LANG", "C.UTF-8"}};
  REQUIRE(place.run("due --machine loader --as-of 2026-03-01") == 0);
  CHECK(place.says("┃━"));
  CHECK(place.out.find('\x1b') == std::string::npos);
  place.world.columns = 200;
  REQUIRE(place.run("due --machine loader --as-of 2026-03-01") == 0);
  CHECK(place.says("▀┃▀"));
  place.variables["LANG"] = "C";
  REQUIRE(place.run("due --machine loader --as-of 2026-03-01") == 0);
  CHECK(place.says("=|="));
  CHECK_FALSE(place.says("┃"));
}
