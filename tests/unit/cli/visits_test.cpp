// When to go to each site, in every format.
#include <doctest/doctest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>

#include "support/estate_files.h"
#include "unit/cli/asking.h"

using namespace cli_test;
using Json = nlohmann::json;

namespace {

constexpr const char* asked = "visits --within 2w --as-of 2026-05-03";

void furnish_estate(Place& place, const estate::Texts& texts, const std::string& facts) {
  for (const auto& [name, text] : estate::files_of(texts).texts) place.write(name, text);
  must(place, "new .");
  place.write("facts.csv", facts);
  must(place, "import facts.csv --as-of 2026-05-03");
}

constexpr const char* usual =
    "kind,machine,on,task\nservice,loader,2025-04-20,engine-oil\nservice,loader,2025-11-06,brakes\n"
    "service,pump,2025-10-20,gland\nservice,pump,2025-05-01,relief\n";

void furnish_estate(Place& place) { furnish_estate(place, {}, usual); }

std::int64_t pence(const Json& money) { return std::llround(money.get<double>() * 100); }

bool fits(const std::string& text, std::size_t columns) {
  std::istringstream lines(text);
  std::string line;
  bool all = true;
  while (std::getline(lines, line)) all = all && line.size() <= columns;
  return all;
}

}  // namespace

TEST_CASE("visits as text say where to go when, with what, what it costs and why") {
  Place place;
  estate::Texts texts;
  texts.sites = std::string(texts.sites)
                    .replace(texts.sites.find("set-up: 10"), 0,
                             "access: Ring at the gate, contact: \"keeper, 01 23\", customer: A. Thorne, ");
  furnish_estate(place, texts, usual);
  must(place, asked);
  CHECK(fits(place.out, 80));
  const std::string text = Place::unfolded(place.out);
  std::size_t from = 0;
  for (const char* said :
       {"Skarvey estate, 2026-05-03: visits until 2026-05-17",
        "2 visits, 3 tasks; 1 not possible, 1 without record.",
        "They cost 127.15 GBP: 123.27 for the trips, 0.32 for life given up, 3.56 for lateness.",
        "Each task on its own day would cost 189.56 GBP, with 3 visits: this saves 62.41.",
        "No plan of visits costs less: this one is proven to be the best.",
        "what may join: whichever rounds --from 2026-05-03 --within 14d",
        "1. park level",
        "7. try that it cannot start",
        "Monday 2026-05-04: Holm (A. Thorne), Van",
        "1 h 30 min of work, 10 min of set-up, 46 min of driving there and back, 36.4 km: the trip costs 61.09 GBP.",
        "Access: Ring at the gate",
        "Contact: keeper, 01 23",
        "Loader (loader)",
        "- engine-oil: Change the oil (overdue since 2026-04-20)",
        "14 days late, waiting loses 0.56 GBP: the first day on which somebody can go.",
        "- brakes: Look at the brakes (coming on 2026-05-06)",
        "2 days early, gives up 0.32 GBP: with the rest of this trip, for the next best, a trip of its own by Van on "
        "Tuesday 2026-05-05, would cost 61.25 GBP.",
        "To load:",
        "[ ] 1 oil-filter-a",
        "[ ] 11.5 L engine-oil-15w40",
        "mind: hot-fluid",
        "Sheets to print that day:",
        "whichever sheet loader --within 2d",
        "Tuesday 2026-05-05: Beck, Van",
        "To load: nothing beside what is always on board.",
        "What to mind",
        "hot-fluid: ",
        "Afterwards: ",
        "Not possible until 2026-05-17",
        "pump relief: Test the relief valve (overdue since 2026-05-01); no crew that works in that time has pressure.",
        "No record: somebody must look",
        "whichever find-out hoist"}) {
    CAPTURE(said);
    const std::size_t at = text.find(said, from);
    CHECK(at != std::string::npos);
    if (at != std::string::npos) from = at;
  }
}

TEST_CASE("visits as JSON have the agreed keys, and their figures add up") {
  Place place;
  furnish_estate(place);
  const Json answer = json_of(place, asked);
  CHECK(answer["span"] == Json::parse(R"({"from": "2026-05-03", "to": "2026-05-17"})"));
  CHECK(answer["cost"] == Json::parse(R"({"total": 127.15, "trips": 123.27, "late": 3.56, "early": 0.32})"));
  CHECK(answer["bound"] == 127.15);
  CHECK(answer["exact"] == true);
  CHECK(answer["on_own_days"] == Json::parse(R"({"total": 189.56, "trips": 184.36, "visits": 3, "behind": false})"));
  std::int64_t trips = 0;
  std::int64_t early = 0;
  std::int64_t late = 0;
  for (const Json& visit : answer["visits"]) {
    trips += pence(visit["trip_cost"]);
    for (const Json& task : visit["tasks"]) {
      early += pence(task["early"]);
      late += pence(task["late"]);
      for (const char* key : {"machine", "task", "position", "due_on", "early_days", "late_days", "why"}) {
        CHECK_MESSAGE(task.contains(key), key);
      }
    }
  }
  CHECK(trips == pence(answer["cost"]["trips"]));
  CHECK(early == pence(answer["cost"]["early"]));
  CHECK(late == pence(answer["cost"]["late"]));
  CHECK(trips + early + late == pence(answer["cost"]["total"]));
  const Json& brakes = answer["visits"][0]["tasks"][1];
  CHECK(brakes["reason"] == "early");
  CHECK(brakes["own_day"] == "2026-05-11");
  CHECK(brakes["own_cost"] == 62.73);
  CHECK(brakes["next_best"] == Json::parse(R"({"crew": "van", "on": "2026-05-05", "made": false, "cost": 61.25})"));
  CHECK(brakes["full_by"].is_null());
  CHECK(answer["visits"][0]["also_there"].empty());
  CHECK(answer["not_possible"][0]["reason"] == "not-qualified");
  CHECK(answer["not_possible"][0]["lacking"] == Json::parse(R"(["pressure"])"));
  CHECK(answer["cautions"].size() == 9);
  CHECK(answer["caution_sentences"][0]["name"] == "hot-fluid");
}

TEST_CASE("visits as CSV have a row a visit with its trip, and a row a task, so that columns add up") {
  Place place;
  furnish_estate(place);
  must(place, std::string(asked) + " --format csv");
  CHECK(place.out.starts_with("row,on,site,customer,crew,machine,task,position,do,due_on,early_days,late_days,early,"));
  CHECK(place.says("\r\nvisit,2026-05-04,holm,,van,,,,,,,,0.32,0.56,,,hot-fluid,61.09,90,46,36.4,10,oil-filter-a,"));
  CHECK(
      place.says("\r\ntask,2026-05-04,holm,,van,loader,engine-oil,,Change the oil,2026-04-20,0,14,0,0.56,first-day,"));
  CHECK(place.says("\r\nnot-possible,,beck,,,pump,relief,"));
  CHECK(place.says("\r\nno-record,,holm,,,hoist,rope,"));
}

TEST_CASE("what fills up a van stands in JSON and CSV alike") {
  Place place;
  estate::Texts texts;
  texts.crews.replace(texts.crews.find("duty"), 4, "carries: {oil-filter-a: 1}, duty");
  furnish_estate(place, texts, usual);
  const Json visits = json_of(place, asked)["visits"];
  std::vector<std::string> in_csv;
  for (const auto& row : rows_of(place, asked)) {
    if (row.at("row") == "visit") in_csv.push_back(row.at("fills_up"));
  }
  CHECK((in_csv == std::vector<std::string>{"", "oil-filter-a"}));
  REQUIRE(visits.size() == 2);
  CHECK(visits[0]["fills_up"] == Json::object());
  CHECK(visits[1]["fills_up"] == Json::parse(R"({"oil-filter-a": 1})"));
}

TEST_CASE("on a trip after the end of a lay-up a machine is not told as laid up") {
  Place place;
  furnish_estate(place);
  must(place, "lay-up loader --until 2026-05-05 --note drained --as-of 2026-05-01");
  must(place, std::string(asked));
  CHECK_FALSE(place.says("!! laid up"));
  CHECK(place.says(
      "- in use again from 2026-05-05 on: before it runs, put back what the lay-up took off (laid up since"));
}

TEST_CASE("a site is planned by itself, and of a machine its visits are told, whole") {
  Place place;
  furnish_estate(place);
  must(place, std::string(asked) + " --site Beck");
  CHECK(place.says("Skarvey estate, site beck, 2026-05-03: visits until 2026-05-17"));
  CHECK(place.says("1 visit, 1 task; 1 not possible."));
  CHECK(place.says("It costs 65.18 GBP"));
  CHECK_FALSE(place.says("loader"));
  CHECK(json_of(place, std::string(asked) + " --site beck")["scope"]["site"] == "beck");

  must(place, "visits loader --within 2w --as-of 2026-05-03");
  CHECK(place.says("1 visit for it, of a plan of all work at Holm: 1 visit, 2 tasks."));
  CHECK(place.says("The whole plan costs 61.97 GBP"));
  CHECK_FALSE(place.says("hoist"));
  const Json answer = json_of(place, "visits --machine loader --within 2w --as-of 2026-05-03");
  CHECK(answer["scope"]["machines"] == Json::parse(R"(["loader"])"));
  CHECK(answer["planned"] == Json::parse(R"({"visits": 1, "tasks": 2, "sites": ["holm"]})"));

  must(place, "visits hoist --within 2w --as-of 2026-05-03");
  CHECK(place.says("Nobody is sent anywhere until 2026-05-17. What is not planned or not known stands below."));
  CHECK(place.says("Before you touch it: "));
}

TEST_CASE("nobody has to go is said only where all is well and all is known") {
  Place place;
  estate::Texts texts;
  texts.machines = "  loader: {name: Loader, schedule: tractor, site: holm, in-service: {on: 2020-03-01, at: 0}}\n";
  const char* const facts =
      "kind,machine,on,task\nservice,loader,2026-04-20,engine-oil\nservice,loader,2026-04-06,brakes\n";
  Place called;
  furnish_estate(called, texts, facts);
  must(called, std::string(asked) + " --exit-code");
  CHECK(called.says("Nothing comes due until 2026-05-17, and all is known. Somebody has to go for calls: see below."));
  CHECK(called.says("call c-01  Hydraulic leak, at Beck, by 2026-05-08"));
  texts.calls = "";
  furnish_estate(place, texts, facts);
  must(place, std::string(asked) + " --exit-code");
  CHECK(place.out ==
        "Skarvey estate, 2026-05-03: visits until 2026-05-17\n"
        "Nothing comes due until 2026-05-17, and all is known: nobody has to go.\n");
  must(place, "saw loader odd noise --on 2026-05-01");
  CHECK(place.run(std::string(asked) + " --exit-code") == 1);
  CHECK(place.says("Nobody is sent anywhere until 2026-05-17."));
  CHECK(place.says("odd noise"));
}

TEST_CASE("the first visits are told, and how many more there are") {
  Place place;
  furnish_estate(place);
  must(place, std::string(asked) + " --first 1");
  CHECK(place.says("2 visits, 3 tasks"));
  CHECK_FALSE(place.says("Tuesday 2026-05-05: Beck"));
  CHECK(place.says("And 1 more, left off by --first."));
  CHECK(json_of(place, std::string(asked) + " --first 1")["left_off"] == 1);
  must(place, std::string(asked) + " --first 1 --format csv");
  CHECK(place.complains("and 1 more"));
}

TEST_CASE("work for safety that comes after its due day says to keep the machine out of use") {
  Place place;
  estate::Texts texts;
  texts.tractor += "  horn: {do: Try the horn, every: {months: 6}, takes: 5 min, safety: true}\n";
  texts.pump += "  wall: {do: Examine it, every: {months: 12}, needs: [pressure], safety: true}\n";
  furnish_estate(place, texts, std::string(usual) + "service,loader,2025-10-20,horn\nservice,pump,2025-05-10,wall\n");
  must(place, asked);
  CHECK(place.says("!! safety: keep it out of use until done"));
  CHECK(place.says("!! safety: from 2026-05-10 on keep it out of use until done"));
  const Json answer = json_of(place, asked);
  for (const Json& task : answer["visits"][0]["tasks"]) {
    CHECK(task["keep_out_of_use"].get<bool>() == (task["task"] == "horn"));
  }
}

TEST_CASE("a mistake in an option of visits is told with what to write") {
  Place place;
  furnish_estate(place);
  for (const char* wrong : {"--within soon", "--within 70m", "--site bek", "--machine lader", "--first 0",
                            "--without lorry", "--format ics"}) {
    CAPTURE(wrong);
    CHECK(place.run(std::string("visits --as-of 2026-05-03 ") + wrong) == 64);
    CHECK_FALSE(place.err.empty());
  }
  CHECK(place.run(std::string(asked) + " --without Van") == 65);
  CHECK(place.complains("no crew works from 2026-05-03 to 2026-05-17"));
  CHECK(place.run("trips") == 64);
  CHECK(place.complains("whichever visits"));
}

TEST_CASE("without crews or costs in the fleet file visits are refused, with what to write") {
  Place place;
  estate::Texts texts;
  texts.costs = "{hour: 44}";
  furnish_estate(place, texts, usual);
  CHECK(place.run(asked) == 78);
  CHECK(place.complains("write costs: {hour: 44, km: 0.55}"));
}

TEST_CASE("the command that is printed for the rounds keeps the site and the crews that do not go") {
  Place place;
  estate::Texts texts;
  texts.crews += "  lorry: {start: workshop, hours: {mon-fri: \"07:30-16:00\"}}\n";
  furnish_estate(place, texts, usual);
  must(place, std::string(asked) + " --without lorry --site holm");
  CHECK(Place::unfolded(place.out).find(
            "whichever rounds --from 2026-05-03 --within 14d --without lorry --site holm") != std::string::npos);
  must(place, asked);
  CHECK(Place::unfolded(place.out).find("--within 14d --") == std::string::npos);
}

TEST_CASE("work that is longer than the gate is open is not possible, and says so") {
  Place place;
  estate::Texts texts;
  texts.tractor =
      "  engine-oil: {do: Change it, every: {months: 12}, takes: 5 h}\n"
      "  brakes: {do: Look, every: {months: 6}, takes: 200 min}\n  hoses: {do: Look, every: {months: 6}, takes: 90 "
      "min}\n";
  furnish_estate(place, texts, std::string(usual) + "service,loader,2025-10-20,hoses\n");
  must(place, asked);
  CHECK(Place::unfolded(place.out).find(
            "it takes 5 h in one stay, and whoever can do it can stay there for 3 h 50 min at a "
            "time at most, by when Holm is open") != std::string::npos);
  const Json answer = json_of(place, asked);
  CHECK(answer["not_possible"][0]["reason"] == "unreachable");
  CHECK(answer["not_possible"][0]["limit"] == "opening");
  CHECK(answer["not_possible"][0]["longest_stay_min"] == 230);
  must(place, std::string(asked) + " --format csv");
  CHECK(place.says("opening,230"));
}

TEST_CASE("two crews at one machine on a day are told of each other, in every format") {
  Place place;
  estate::Texts texts;
  texts.machines = "  pump: {name: Pump, schedule: pump, site: beck, in-service: {on: 2021-03-01, at: 0}}\n";
  texts.pump =
      "  gland: {do: Repack it, every: {months: 6}, takes: 6 h, safety: true, needs: [lifting]}\n"
      "  relief: {do: Test it, every: {months: 12}, takes: 50 min, safety: true, needs: [pressure]}\n";
  texts.crews += "  lorry: {name: Lorry, start: workshop, hours: {tue: \"07:30-16:00\"}, qualified-for: [pressure]}\n";
  texts.calls = "";
  furnish_estate(place, texts, "kind,machine,on,task\nservice,pump,2025-10-20,gland\nservice,pump,2025-05-01,relief\n");
  must(place, asked);
  CHECK(place.says("!! Lorry works at it that day too: agree who locks it off, and who gives it"));
  CHECK(place.says("!! Van works at it that day too"));
  const Json answer = json_of(place, asked);
  CHECK(answer["visits"][0]["also_there"] == Json::parse(R"([{"machine": "pump", "crews": ["lorry"]}])"));
  must(place, std::string(asked) + " --format csv");
  CHECK(place.says("pump: lorry"));

  const std::string rounds = "rounds --from 2026-05-04 --as-of 2026-05-03";
  must(place, rounds);
  CHECK(place.says("!! Lorry works at it that day too"));
  must(place, rounds + " --format md");
  CHECK(place.says("Lorry works at it that day too"));
  must(place, rounds + " --format csv");
  CHECK(place.says("also_there"));
  const Json week = json_of(place, rounds);
  CHECK(week["rounds"][0]["stops"][0]["also_there"] == Json::parse(R"(["lorry"])"));
}

TEST_CASE("what the visits load and stock does not cover says so") {
  Place place;
  furnish_estate(place);
  must(place, "count oil-filter-a 0 --on 2026-05-03 --as-of 2026-05-03");
  must(place, asked);
  CHECK(Place::unfolded(place.out).find("[ ] 1 oil-filter-a: 1 not in stock") != std::string::npos);
  CHECK(place.says("1 part is short: 1 visit cannot be finished as planned: loader on 2026-05-04"));
  const Json answer = json_of(place, asked);
  REQUIRE(answer["short"].size() == 1);  // of the oil nobody says how much there is, and nothing is claimed
  CHECK(answer["short"][0]["part"] == "oil-filter-a");
  CHECK(answer["short"][0]["short_on"] == "2026-05-04");
  must(place, std::string(asked) + " --format csv");
  CHECK(place.says("\r\nshort,"));
}
