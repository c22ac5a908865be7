// The week for the crews in every format, plans that are read, kept and judged, and planning that is cut short.
#include <doctest/doctest.h>

#include <csignal>
#include <nlohmann/json.hpp>
#include <string>

#include "render/rounds/plan_reader.h"
#include "support/estate_files.h"
#include "today.h"
#include "unit/cli/asking.h"

using namespace cli_test;
using Json = nlohmann::ordered_json;

namespace {

// The answer for the estate as it was agreed on. Other keys may join, these stay, in this order.
constexpr const char* agreed = R"({
 "fleet": "Skarvey estate", "as_of": "2026-05-03", "week": {"from": "2026-05-04", "to": "2026-05-10"}, "currency": "GBP",
 "cost": {"total": 202.62, "travel": 123.27, "waiting": 43.56, "put_off": 35.79},
 "safety_put_off": 0, "bound": {"safety_put_off": 0, "total": 202.62}, "gap": 0.0, "proven": true,
 "rounds": [
  {"crew": "van", "on": "2026-05-04", "leaves": "07:37", "back": "09:23", "drive_min": 46, "set_up_min": 10,
   "work_min": 50, "km": 36.4, "cost": 61.09,
   "parts": {"oil-filter-a": 1}, "fluids": {"engine-oil-15w40": "11.5 L"},
   "stops": [
    {"visit": "loader", "site": "holm", "machine": "loader", "call": null, "arrives": "08:00", "starts": "08:00",
     "ends": "09:00", "drive_min": 23, "km": 18.2, "set_up_min": 10, "work_min": 50, "waiting": 0.56,
     "tasks": [{"task": "engine-oil", "position": null}]}]},
  {"crew": "van", "on": "2026-05-05", "leaves": "07:30", "back": "10:09", "drive_min": 44, "set_up_min": 15,
   "work_min": 100, "km": 34.4, "cost": 62.18,
   "parts": {}, "fluids": {},
   "stops": [
    {"visit": "pump", "site": "beck", "machine": "pump", "call": null, "arrives": "07:52", "starts": "07:52",
     "ends": "08:47", "drive_min": 22, "km": 17.2, "set_up_min": 15, "work_min": 40, "waiting": 3.0,
     "tasks": [{"task": "gland", "position": null}]},
    {"visit": "call c-01", "site": "beck", "machine": null, "call": "c-01", "arrives": "08:47", "starts": "08:47",
     "ends": "09:47", "drive_min": 0, "km": 0.0, "set_up_min": 0, "work_min": 60, "waiting": 40.0, "tasks": []}]}],
 "put_off": [
  {"visit": "pump+pressure", "site": "beck", "machine": "pump", "call": null, "safety": false, "reason": "not-qualified",
   "why": "no crew that works this week has pressure", "until": "2026-05-12", "cost": 35.79}],
 "no_record": [{"machine": "hoist", "task": "rope", "position": null}], "not_planned": [], "seen": []})";

// Where the answer is not as agreed: a key that is missing, stands out of its order or behind keys that joined, or has
// another value. Empty: nowhere.
std::string differs(const Json& expected, const Json& got, const std::string& at = "") {
  if (expected.is_object() && got.is_object()) {
    auto next = got.begin();
    for (const auto& [key, value] : expected.items()) {
      while (next != got.end() && next.key() != key) ++next;
      if (next == got.end()) return at + '/' + key;
      if (std::string inner = differs(value, *next, at + '/' + key); !inner.empty()) return inner;
    }
    return at.ends_with("/parts") || at.ends_with("/fluids") ? (expected.size() == got.size() ? "" : at) : "";
  }
  if (expected.is_array() && got.is_array()) {
    if (expected.size() != got.size()) return at + " has " + std::to_string(got.size());
    for (std::size_t i = 0; i < expected.size(); ++i) {
      if (std::string inner = differs(expected[i], got[i], at + '/' + std::to_string(i)); !inner.empty()) return inner;
    }
    return "";
  }
  return expected.dump() == got.dump() ? "" : at + " is " + got.dump();
}

constexpr const char* asked = "rounds --from 2026-05-04 --as-of 2026-05-03";

void furnish_estate(Place& place, const estate::Texts& texts = {}, const std::string& more = "") {
  for (const auto& [name, text] : estate::files_of(texts).texts) {
    place.write(name, name == "fleet.yaml" ? text + more : text);
  }
  must(place, "new .");
  place.write("facts.csv",
              "kind,machine,on,task\nservice,loader,2025-04-20,engine-oil\nservice,loader,2025-11-06,brakes\n"
              "service,pump,2025-10-20,gland\nservice,pump,2025-05-01,relief\n");
  must(place, "import facts.csv --as-of 2026-05-03");
}

// With its keys in the order in which they stand.
Json in_order(Place& place, const std::string& line) {
  must(place, line + " --format json");
  return Json::parse(place.out);
}

// The plan of the week as it is, kept in a file, as changed by a test.
template <class Change>
void keep_plan(Place& place, const Change& change) {
  Json plan = in_order(place, asked);
  change(plan);
  place.write("plan.json", plan.dump());
}
void keep_plan(Place& place) {
  keep_plan(place, [](Json&) {});
}

std::string rules_of(const Json& judged) {
  std::string rules;
  for (const Json& fault : judged["faults"]) rules += fault["rule"].get<std::string>() + ' ';
  return rules;
}

std::string form_of(const std::string& text) {
  std::string said;
  const cli::ReadPlan read = cli::read_plan(text, "plan.json");
  for (const service::UnreadRound& round : read.plan.unread) said += round.where + ": " + round.says + '\n';
  for (const service::PlanFault& fault : read.faults) {
    CHECK(fault.rule == service::PlanRule::form);
    said += fault.where + ": " + fault.says + '\n';
  }
  return said;
}

}  // namespace

TEST_CASE("the worked example is answered as it was agreed on, key by key") {
  Place place;
  furnish_estate(place);
  const Json answer = in_order(place, asked);
  CHECK(differs(Json::parse(agreed), answer) == "");
  CHECK_FALSE(answer["gaps"].empty());
  CHECK(answer["stopped"].is_null());
  CHECK(answer["rounds"][0]["stops"][0]["promised"] == false);
  CHECK(answer["rounds"][0]["stops"][0]["cautions"] == Json::parse(R"(["hot-fluid"])"));
  CHECK(answer["rounds"][1]["stops"][1]["do"] == "Hydraulic leak");
  CHECK(answer["cautions"].size() == 9);
}

TEST_CASE("figures that people read add up in every format") {
  Place place;
  furnish_estate(place);
  must(place, asked);
  CHECK(place.says("It costs 202.62 GBP: 123.27 on the way, 43.56 for waiting, 35.79 for what is not this week."));
  CHECK(place.says("No plan can cost less than 202.62: this one is proven to be the best."));
  must(place, std::string(asked) + " --format csv");
  CHECK(place.out.starts_with("crew,on,visit,site,arrives,starts,ends,cautions,"));
  CHECK(place.says("\r\nvan,2026-05-04,loader,holm,08:00,08:00,09:00,hot-fluid,"));
  CHECK(place.says("\r\nvan,2026-05-05,call c-01,beck,08:47,08:47,09:47,,"));
  CHECK(place.says("\r\n,,pump+pressure,beck,,,,,put-off,"));
  must(place, std::string(asked) + " --format md");
  CHECK(place.says("## Van, Monday 2026-05-04"));
  CHECK(place.says("| 08:00 | 08:00 | 09:00 | Holm | Loader (loader) |"));
  CHECK(place.says("- **pump+pressure**: no crew that works this week has pressure;"));
}

TEST_CASE("a page of a round has what is to be read out before it sets out") {
  Place place;
  estate::Texts texts;
  texts.sites =
      std::string(texts.sites)
          .replace(texts.sites.find("set-up: 10"), 0, "access: Ring at the gate, contact: \"keeper, 01 23\", ");
  furnish_estate(place, texts);
  must(place, asked);
  const std::string monday = place.out.substr(place.out.find("Van, Monday 2026-05-04"));
  const std::string page = Place::unfolded(monday.substr(0, monday.find("\n====")));
  std::size_t from = 0;
  for (const char* said :
       {"Leave Workshop at 07:37; back at Workshop by 09:23.",
        "1 stop: 46 min of driving, 36.4 km, 10 min of set-up, 50 min of work.", "To load", "[ ] 1 oil-filter-a",
        "[ ] 11.5 L engine-oil-15w40", "1. park level", "7. try that it cannot start", "1. Holm: Loader (loader)",
        "Arrive 08:00 (23 min, 18.2 km from Workshop); begin 08:00, 10 min of it set-up; done by 09:00.",
        "Access: Ring at the gate", "Contact: keeper, 01 23", "engine-oil: Change the oil (overdue since 2026-04-20)",
        "Takes 50 min, oil-filter-a, 11.5 L engine-oil-15w40", "mind: hot-fluid",
        "Then Workshop: 23 min, 18.2 km; back by 09:23.", "What to mind",
        "hot-fluid: ", "Afterwards: ", "whichever sheet loader"}) {
    CAPTURE(said);
    const std::size_t at = page.find(said, from);
    CHECK(at != std::string::npos);
    if (at != std::string::npos) from = at;
  }
  // Behind the pages.
  CHECK(
      place.says("pump+pressure at Beck: no crew that works this week has pressure; leaving it until 2026-05-12 costs "
                 "35.79 GBP."));
  CHECK(place.says("No record: somebody must look"));
  CHECK(place.says("hoist"));
}

TEST_CASE("a customer is told of his site alone, and of no other") {
  Place place;
  furnish_estate(place);
  const std::string part = std::string(asked) + " --site beck";
  must(place, part);
  CHECK(place.says("site beck, 2026-05-03: rounds 2026-05-04 to 2026-05-10"));
  CHECK_FALSE(place.says("loader"));
  CHECK_FALSE(place.says("Leave "));
  CHECK(place.says("7. try that it cannot start"));
  CHECK(place.says("Arrive 07:52"));
  const Json answer = in_order(place, part);
  CHECK(answer["scope"]["site"] == "beck");
  CHECK(answer["rounds"].size() == 1);
  CHECK(answer["cost"]["total"] == 202.62);
  // It is no whole plan.
  place.write("part.json", answer.dump());
  must(place, std::string(asked) + " --check part.json --format json");
  CHECK(Json::parse(place.out)["faults"][0]["where"] == "scope");
  CHECK(place.run(std::string(asked) + " --keep part.json") == 65);
  CHECK(place.complains("part of one site alone"));
}

TEST_CASE("events last from when to when, by the clocks of the fleet") {
  Place place;
  furnish_estate(place, {}, "time-zone: Europe/London\n");
  must(place, std::string(asked) + " --format ics");
  for (const char* line :
       {"DTSTART:20260504T063700Z\r\nDTEND:20260504T082300Z\r\nTRANSP:OPAQUE\r\nSUMMARY:Van: 1 stop",
        "DTSTART:20260504T070000Z\r\nDTEND:20260504T080000Z\r\nTRANSP:OPAQUE\r\nSUMMARY:Holm: Loader",
        "DTSTART;VALUE=DATE:20260503\r\n"}) {
    CHECK_MESSAGE(place.out.find(line) != std::string::npos, line);
  }
  std::size_t events = 0;
  for (std::size_t at = 0; (at = place.out.find("BEGIN:VEVENT", at)) != std::string::npos; ++at) ++events;
  CHECK(events == 6);  // the week, two rounds, three stops
}

TEST_CASE("a calendar of a plan made anew is above the one kept, and takes out what is not made") {
  Place place;
  furnish_estate(place, {}, "time-zone: Europe/London\n");
  keep_plan(place);
  const auto number = [&] {
    const std::size_t at = place.out.find("SEQUENCE:");
    REQUIRE(at != std::string::npos);
    return std::stoll(place.out.substr(at + 9));
  };
  must(place, std::string(asked) + " --format ics");
  const auto first = number();
  CHECK(place.out.find("STATUS:") == std::string::npos);
  const Json plan = Json::parse(place.read("plan.json"));
  CHECK(plan["sequence"] == first);
  const std::string uid = plan["rounds"][1]["stops"][0]["uid"];
  CHECK(place.out.find("UID:" + uid) != std::string::npos);

  must(place, "put-off pump gland --until 2026-08-01 --by Ann --note harvest --on 2026-05-02 --as-of 2026-05-03");
  const std::string anew = std::string(asked) + " --keep plan.json";
  must(place, anew + " --format json");
  place.write("second.json", place.out);
  const auto second = Json::parse(place.out)["sequence"].get<std::int64_t>();
  CHECK(second > first);
  must(place, anew + " --format ics");
  CHECK(number() == second);
  const std::size_t at = place.out.find("UID:" + uid);
  REQUIRE(at != std::string::npos);
  CHECK(place.out.find("STATUS:CANCELLED", at) < place.out.find("END:VEVENT", at));
  CHECK(place.out.find("cancelled: pump (van)") != std::string::npos);
  // Once: the plan made anew does not have it any more.
  must(place, std::string(asked) + " --keep second.json --format ics");
  CHECK(number() > second);
  CHECK(place.out.find("STATUS:") == std::string::npos);
}

TEST_CASE("a plan knows what was handed out on its day, so that the plan that keeps it is above that") {
  Place place;
  place.now = (service::days_between(service::Day{}, service::day_of(2026, 5, 3)) * 24LL + 9) * 3'600'000;
  furnish_estate(place, {}, "time-zone: Europe/London\n");
  keep_plan(place);
  // On the day itself, so that what is handed out is remembered. The loader's visit by its own UID.
  const std::string anew = "rounds --from 2026-05-04 --keep plan.json";
  const std::string uid = Json::parse(place.read("plan.json"))["rounds"][0]["stops"][0]["uid"];
  const auto number = [&] {
    const std::size_t at = place.out.find("UID:" + uid);
    REQUIRE(at != std::string::npos);
    const std::size_t event = place.out.rfind("BEGIN:VEVENT", at);
    return std::stoll(place.out.substr(place.out.find("SEQUENCE:", event) + 9));
  };
  const auto starts = [&] {
    const std::size_t at = place.out.find("UID:" + uid);
    return place.out.substr(place.out.find("DTSTART:", at), 24);
  };
  must(place, anew + " --format ics");
  const auto first = number();
  const std::string morning = starts();
  const std::string remembered = place.read(".calendar");
  CHECK_FALSE(remembered.empty());
  // Once more on that day: the site opens later, so the visit moves within its day.
  estate::Texts texts;
  texts.sites.replace(texts.sites.find("\"08:00-12:00\""), 13, "\"10:00-12:00\"");
  place.write("fleet.yaml", std::string(estate::files_of(texts).texts.at("fleet.yaml")) + "time-zone: Europe/London\n");
  must(place, anew + " --format json");
  const auto told = Json::parse(place.out)["sequence"].get<std::int64_t>();
  CHECK(place.read(".calendar") == remembered);  // whoever looks hands out nothing
  place.write("second.json", place.out);
  must(place, anew + " --format ics");
  CHECK(starts() != morning);
  CHECK(number() > first);
  CHECK(told >= number());
  // Whoever keeps that plan elsewhere, where nothing is remembered, is above it all the same.
  std::filesystem::remove(place.folder / ".calendar");
  must(place, "rounds --from 2026-05-04 --keep second.json --format ics");
  CHECK(number() > told);
}

TEST_CASE("a moment by the clocks of a time zone, as summer begins and ends") {
  const auto hours = [](int month, int day, int minutes) {
    const std::int64_t midnight =
        service::days_between(service::Day{},
                              service::day_of(2026, static_cast<unsigned>(month), static_cast<unsigned>(day))) *
        86'400'000LL;
    return static_cast<int>(
        (cli::moment_there(service::day_of(2026, static_cast<unsigned>(month), static_cast<unsigned>(day)), minutes,
                           "Europe/London") -
         midnight) /
        60'000);
  };
  CHECK(hours(1, 5, 480) == 480);
  CHECK(hours(7, 6, 480) == 420);
  CHECK(hours(3, 29, 90) == 90);   // 01:30 is skipped: it is 02:30 then
  CHECK(hours(3, 29, 121) == 61);  // and 02:01 a minute later than 02:00
  CHECK(hours(10, 25, 90) == 30);  // comes twice: the first
  CHECK(hours(10, 25, 150) == 150);
}

TEST_CASE("the same plan is without fault, and each fault of another is told") {
  Place place;
  furnish_estate(place);
  keep_plan(place);
  const std::string check = std::string(asked) + " --check plan.json";
  Json judged = in_order(place, check);
  CHECK(judged["faults"].dump() == "[]");
  CHECK(judged["ok"] == true);
  CHECK(judged["value"] == Json::parse(R"({"safety_put_off": 0, "total": 202.62})"));
  // Its own week holds where none is told.
  CHECK(in_order(place, "rounds --as-of 2026-05-03 --check plan.json")["ok"] == true);

  keep_plan(place, [](Json& plan) { plan["rounds"][0]["stops"].erase(0); });
  judged = in_order(place, check);
  CHECK(judged["ok"] == false);
  CHECK(rules_of(judged).find("left-out ") != std::string::npos);
  CHECK(place.run(check) == 0);
  CHECK(place.says("left-out: "));
  CHECK(place.run(check + " --exit-code") == 1);

  keep_plan(place, [](Json& plan) { plan["cost"]["total"] = 202.61; });
  CHECK(rules_of(in_order(place, check)).find("figure ") != std::string::npos);
  CHECK(place.run("rounds --from 2026-05-05 --as-of 2026-05-04 --check plan.json") == 0);
  CHECK(place.says("The plan is of 2026-05-03, and it is judged by what is known on 2026-05-04."));

  place.write("plan.json", "{\"rounds\": [");
  CHECK(place.run(check) == 65);
  CHECK(place.complains("plan.json is no JSON"));
  CHECK(place.run(std::string(asked) + " --check nothing.json") == 66);
}

TEST_CASE("each key of another shape is told with its place, and what it needs") {
  CHECK(form_of(R"({"rounds": [], "put_off": []})") == "");
  CHECK(form_of("[]") == ": needs an object with `rounds` and `put_off`, but it is []\n");
  CHECK(form_of(R"({"rounds": 3})") ==
        "rounds: needs a list, but it is 3\nput_off: is missing: it needs a list, which may be empty\n");
  CHECK(form_of(R"({"rounds": [{"crew": 1, "on": "May", "stops": [{"visit": ""}, 5]}], "put_off": [{}]})") ==
        "rounds[0].crew: needs a text, but it is 1\nrounds[0].on: needs a day such as 2026-05-04, but it is \"May\"\n"
        "rounds[0].stops[0].visit: needs a text, but it is \"\"\nrounds[0].stops[1]: needs an object, but it is 5\n"
        "put_off[0].visit: is missing\n");
  CHECK(form_of(R"({"as_of": 1, "week": {"from": "2026-02-30"}, "cost": {"total": 1.005}, "gap": 2, "proven": 1,
                    "safety_put_off": 0.5, "bound": {"total": 1}, "rounds": [], "put_off": []})") ==
        "as_of: needs a day such as 2026-05-04, but it is 1\n"
        "week.from: needs a day such as 2026-05-04, but it is \"2026-02-30\"\n"
        "cost.total: needs money with two decimals at most, but it is 1.005\n"
        "safety_put_off: needs a whole number, but it is 0.5\n"
        "bound: needs both `safety_put_off` and `total`\n"
        "gap: needs a share from 0 to 1 with six decimals at most, but it is 2\n"
        "proven: needs true or false, but it is 1\n");
  CHECK(form_of(R"({"put_off": [], "rounds": [{"crew": "van", "on": "2026-05-04", "leaves": "24:01", "km": 1.25,
                    "parts": {"a": "1"}, "fluids": {"oil": "much", "water": "1 L + x"},
                    "stops": [{"visit": "v", "starts": "7:30", "machine": 3, "tasks": [{"position": "x"}, {"task": 1}],
                               "promised": "yes"}]}]})") ==
        "rounds[0].leaves: needs a time such as 07:30, but it is \"24:01\"\n"
        "rounds[0].km: needs km with one decimal at most, but it is 1.25\n"
        "rounds[0].parts.a: needs a number of pieces, but it is \"1\"\n"
        "rounds[0].fluids.oil: needs an amount such as \"11.5 L\", but it is \"much\"\n"
        "rounds[0].fluids.water: needs an amount such as \"11.5 L\", but it is \"1 L + x\"\n"
        "rounds[0].stops[0].machine: needs a text, or null, but it is 3\n"
        "rounds[0].stops[0].starts: needs a time such as 07:30, but it is \"7:30\"\n"
        "rounds[0].stops[0].tasks[0]: needs an object with a `task`, but it is {\"position\":\"x\"}\n"
        "rounds[0].stops[0].tasks[1].task: needs a text, but it is 1\n"
        "rounds[0].stops[0].promised: needs true or false, but it is \"yes\"\n");
  CHECK(form_of(R"({"rounds": [], "rounds": [], "put_off": []})") == "rounds: this key stands twice in one object\n");
  CHECK(form_of(R"({"rounds": [], "put_off": [], "left_off": 2})") ==
        "left_off: rows were left off by --first, so it is no whole plan\n");
}

TEST_CASE("a plan is read to the last figure") {
  const auto read = cli::read_plan(R"({"as_of": "2026-05-03", "week": {"from": "2026-05-04", "to": "2026-05-10"},
      "cost": {"total": 202.62}, "bound": {"safety_put_off": 1, "total": 0.1}, "gap": 0.000001, "put_off": [],
      "rounds": [{"crew": "van", "on": "2026-05-04", "back": "24:00", "km": 36.4,
                  "fluids": {"oil": "11.5 L + 2 kg"}, "stops": [{"visit": "call c-01", "machine": null, "call": "c-01",
                  "tasks": [{"task": "tyre", "position": "left"}], "promised": true}]}]})",
                                   "plan.json");
  CHECK(read.faults.empty());
  CHECK_FALSE(read.lacks_some);
  const service::GivenPlan& plan = read.plan;
  CHECK((plan.to == service::day_of(2026, 5, 10)));
  CHECK(plan.total->hundredths == 20262);
  CHECK(plan.bound->first == 1);
  CHECK(plan.bound->second.hundredths == 10);
  CHECK((plan.gap_millionths == 1));
  REQUIRE(plan.rounds.size() == 1);
  CHECK((plan.rounds[0].back == 1440));
  CHECK_FALSE(plan.rounds[0].leaves.has_value());
  CHECK((plan.rounds[0].tenths_of_km == 364));
  REQUIRE(plan.rounds[0].fluids->size() == 2);
  CHECK(plan.rounds[0].fluids->at(1).second.amount.hundredths == 200);
  const service::GivenStop& stop = plan.rounds[0].stops.at(0);
  CHECK((stop.machine == ""));
  CHECK_FALSE(stop.site.has_value());
  CHECK(stop.tasks->at(0).position == "left");
  CHECK(stop.promised);
}

TEST_CASE("a plan is kept as far as it can be, and whoever waits elsewhere is rung up") {
  Place place;
  estate::Texts texts;
  texts.sites =
      std::string(texts.sites).replace(texts.sites.find("set-up: 15"), 0, "contact: \"sluice keeper, 01 45\", ");
  furnish_estate(place, texts);
  keep_plan(place);
  const std::string keep = "rounds --from 2026-05-04 --as-of 2026-05-03 --keep plan.json";
  CHECK(in_order(place, keep)["changes"].dump() == "[]");
  must(place, keep);
  CHECK(place.says("Nothing: every visit has its crew and day."));

  must(place, "put-off pump gland --until 2026-08-01 --by Ann --note harvest --as-of 2026-05-03");
  const Json answer = in_order(place, keep);
  const auto change = Json::parse(
      R"({"visit": "pump", "was": {"crew": "van", "on": "2026-05-05"}, "is": null, "contact": "sluice keeper, 01 45"})");
  REQUIRE(answer["changes"].size() == 1);
  CHECK(differs(change, answer["changes"][0]) == "");
  CHECK(answer["changes"][0]["wanted"] == false);
  CHECK(answer["changes"][0]["not_planned"] == "put-off");
  must(place, keep);
  CHECK(place.says("ring up Beck: sluice keeper, 01 45"));
  CHECK(place.says("pump: was Van, Tuesday 2026-05-05; now not planned: somebody put it off"));
  // On the next day what was to be done is done, and the week ends where it did.
  const Json next = in_order(place, "rounds --from 2026-05-05 --as-of 2026-05-05 --keep plan.json");
  CHECK(next["done"] == Json::parse(R"(["loader"])"));
  CHECK(next["week"]["to"] == "2026-05-10");
}

TEST_CASE("a stop says how its machine stands on its day, in every format") {
  Place place;
  estate::Texts texts;
  texts.tractor.replace(texts.tractor.find("takes: 50"), 9, "late: 90000, takes: 50");
  texts.tractor += "  horn: {do: Try the horn, every: {months: 12}, takes: 10 min, safety: true, late: 90000}\n";
  furnish_estate(place, texts);
  must(place, "done loader horn --on 2025-04-20 --as-of 2026-05-01");
  must(place, "lay-up loader --until 2026-05-05 --note drained --on 2026-05-01 --as-of 2026-05-01");
  // The horn is tried the day before it is back, and its oil is changed from that day on.
  std::size_t told = 0;
  const Json plan = in_order(place, asked);
  for (const Json& round : plan["rounds"]) {
    for (const Json& stop : round["stops"]) {
      CAPTURE(stop["visit"]);
      if (stop["machine"] != "loader") continue;
      ++told;
      const bool before = round["on"] < "2026-05-05";
      CHECK(stop["not_in_use"].is_null() == !before);
      CHECK(stop["was_laid_up"].is_null() == before);
      CHECK(stop[before ? "not_in_use" : "was_laid_up"]["until"] == "2026-05-05");
    }
  }
  CHECK(told == 2);
  CHECK(plan["rounds"][0]["on"] == "2026-05-04");
  const std::string back =
      "in use again from 2026-05-05 on: before it runs, put back what the lay-up took off (laid up since 2026-05-01 "
      "until "
      "2026-05-05: drained)";
  must(place, std::string(asked) + " --format md");
  CHECK(place.says(back));
  CHECK(place.says("laid up since 2026-05-01 until 2026-05-05: drained; "));
  must(place, asked);
  CHECK(place.says("- in use again from 2026-05-05 on"));
  CHECK(place.says("!! laid up since 2026-05-01 until 2026-05-05"));
  must(place, std::string(asked) + " --format ics");
  CHECK(place.says("in use again from"));
}

TEST_CASE("a call for safety keeps what it is about out of use until it is made, in every format") {
  Place place;
  estate::Texts texts;
  texts.calls = "  winch: {site: holm, do: Brake slips, takes: 30 min, safety: true, from: 2026-05-05}\n";
  furnish_estate(place, texts);
  const Json plan = in_order(place, asked);
  bool told = false;
  for (const Json& round : plan["rounds"]) {
    for (const Json& stop : round["stops"]) {
      if (stop["call"] != "winch") continue;
      told = true;
      CHECK(stop["keep_out_of_use"] == true);
    }
  }
  CHECK(told);
  for (const auto& row : rows_of(place, asked)) {
    if (row.at("call") == "winch") CHECK(row.at("keep_out_of_use") == "yes");
  }
  must(place, asked);
  CHECK(place.says("Keep out of use until done or mended, for safety: call winch (Tuesday 2026-05-05)."));
  CHECK(place.says("!! safety: keep what it is about out of use until done"));
}

TEST_CASE("that nobody who can do it works when it may be done is said with the days, in every format") {
  Place place;
  estate::Texts texts;
  texts.crews += "  gang: {start: workshop, hours: {mon: \"07:30-16:00\"}, qualified-for: [pressure]}\n";
  texts.calls = "  late: {site: holm, do: Look, takes: 10 min, from: 2026-05-05, by: 2026-05-06, needs: [pressure]}\n";
  furnish_estate(place, texts);
  const Json plan = in_order(place, asked);
  const auto late = std::find_if(plan["put_off"].begin(), plan["put_off"].end(),
                                 [](const Json& out) { return out["call"] == "late"; });
  REQUIRE((late != plan["put_off"].end()));
  const std::string why =
      "no crew that can do it works when it may be done, from Tuesday 2026-05-05 to Wednesday 2026-05-06";
  CHECK((*late)["reason"] == "no-crew");
  CHECK((*late)["why"] == why);
  for (const auto& row : rows_of(place, asked)) {
    if (row.at("call") != "late") continue;
    CHECK(row.at("reason") == "no-crew");
    CHECK(row.at("why") == why);
  }
  must(place, std::string(asked) + " --format md");
  CHECK(place.says(why));
  // A plan that calls it closed is told so.
  Json changed = plan;
  for (Json& out : changed["put_off"]) {
    if (out["call"] == "late") out["reason"] = "closed";
  }
  place.write("plan.json", changed.dump());
  CHECK(rules_of(in_order(place, std::string(asked) + " --check plan.json")) == "reason ");
}

TEST_CASE("what is not due any more without the crew that works last is told as that, and not as unwanted") {
  Place place;
  estate::Texts texts;
  texts.crews += "  anna: {start: workshop, hours: {sat: \"08:00-12:00\"}}\n";
  texts.sites.replace(texts.sites.find("mon-fri"), 7, "mon-sat");
  texts.tractor.replace(texts.tractor.find("takes: 40"), 9, "late: 90000, takes: 40");  // due on 6 May
  furnish_estate(place, texts);
  must(place, "done loader engine-oil --on 2026-05-02 --as-of 2026-05-02");
  keep_plan(place);
  const std::string keep = std::string(asked) + " --keep plan.json --without anna";
  const Json answer = in_order(place, keep);
  bool told = false;
  for (const Json& change : answer["changes"]) {
    if (!change["not_due"].get<bool>()) continue;
    told = true;
    CHECK(change["wanted"] == false);
    CHECK(change["not_planned"].is_null());
  }
  CHECK(told);
  must(place, keep);
  CHECK(place.says("now not due by Tuesday 2026-05-05, the last day on"));
}

TEST_CASE("one contact of two sites is rung up once, and every format has the calls") {
  Place place;
  estate::Texts texts;
  for (const char* site : {"set-up: 10", "set-up: 15"}) {
    texts.sites.replace(texts.sites.find(site), 0, "contact: \"keeper, 01 45\", ");
  }
  furnish_estate(place, texts);
  keep_plan(place);
  for (const char* done : {"loader engine-oil", "pump gland"}) {
    must(place, "done " + std::string(done) + " --on 2026-05-03 --as-of 2026-05-03");
  }
  const std::string keep = "rounds --from 2026-05-04 --as-of 2026-05-03 --keep plan.json";
  const Json answer = in_order(place, keep);
  REQUIRE(answer["changes"].size() == 2);
  REQUIRE(answer["ring_up"].size() == 1);
  const Json& call = answer["ring_up"][0];
  CHECK(call["contact"] == "keeper, 01 45");
  CHECK(call["sites"] == Json::parse(R"(["holm", "beck"])"));
  CHECK(call["changes"] == answer["changes"]);
  CHECK(call["promised"] == false);
  must(place, keep);
  CHECK(place.says("ring up Holm and Beck: keeper, 01 45"));
  CHECK(place.says("- loader (holm): was Van, Monday 2026-05-04; now no longer wanted"));
  std::size_t changes = 0;
  for (const auto& row : rows_of(place, keep)) {
    if (row.at("row") != "change") continue;
    ++changes;
    CHECK(row.at("ring_up") == "1");
  }
  CHECK(changes == 2);
}

TEST_CASE("a plan of another fleet, or in other money, is told so first") {
  Place place;
  furnish_estate(place);
  keep_plan(place, [](Json& plan) {
    plan["fleet"] = "Another estate";
    plan["currency"] = nullptr;
  });
  const Json judged = in_order(place, std::string(asked) + " --check plan.json");
  CHECK(judged["ok"] == false);
  CHECK(rules_of(judged) == "form figure ");
  for (const auto& field : judged["not_judged"]) CHECK((field != "fleet" && field != "currency"));
}

TEST_CASE("a plan made by hand is judged in the week in which the plan that is kept is made anew") {
  Place place;
  furnish_estate(place);
  keep_plan(place, [](Json& plan) { plan["week"]["to"] = "2026-05-08"; });
  place.write("hand.json", R"({"rounds": [{"crew": "van", "on": "2026-05-05",
                               "stops": [{"visit": "pump"}, {"visit": "call c-01"}]}],
                               "put_off": [{"visit": "pump+pressure"}]})");
  const std::string anew = "rounds --from 2026-05-05 --as-of 2026-05-05 --keep plan.json";
  const Json week = in_order(place, anew)["week"];
  CHECK(week["to"] == "2026-05-08");
  const Json judged = in_order(place, anew + " --check hand.json");
  CHECK(judged["week"] == week);
  CHECK(judged["ok"] == true);
}

TEST_CASE("work for safety after its due day is warned of on its page and in the head, in every format") {
  Place place;
  estate::Texts texts;
  texts.tractor.replace(texts.tractor.find("takes: 50 min"), 13, "takes: 50 min, safety: true");
  furnish_estate(place, texts);
  must(place, asked);
  CHECK(place.says("Keep out of use until done or mended, for safety: loader (engine-oil, Monday 2026-05-04)."));
  CHECK(place.says("!! engine-oil: safety: keep it out of use until done"));
  must(place, std::string(asked) + " --format md");
  CHECK(place.says("Keep out of use until done or mended, for safety: loader (engine-oil, Monday 2026-05-04)."));
  CHECK(place.says("engine-oil: safety: keep it out of use until done"));
  const Json answer = in_order(place, asked);
  CHECK(answer["rounds"][0]["stops"][0]["tasks"][0]["keep_out_of_use"] == true);
  CHECK(answer["rounds"][1]["stops"][0]["tasks"][0]["keep_out_of_use"] == false);

  // A plan that leaves it out, where there is a day for it, has a fault.
  place.write("without.json", R"({"rounds": [], "put_off": [{"visit": "loader"}, {"visit": "pump"},
                                  {"visit": "pump+pressure"}, {"visit": "call c-01"}]})");
  const std::string check = std::string(asked) + " --check without.json";
  const Json judged = in_order(place, check);
  CHECK(judged["ok"] == false);
  CHECK(rules_of(judged) == "safety ");
  CHECK(place.run(check + " --exit-code") == 1);
}

TEST_CASE("what was promised keeps its day, though another would be cheaper") {
  Place place;
  estate::Texts texts;
  texts.sites = std::string(texts.sites).replace(texts.sites.find(", closed: [2026-05-04, harvest]"), 31, "");
  furnish_estate(place, texts);
  const Json free = in_order(place, asked);
  CHECK(free["rounds"][0]["on"] == "2026-05-04");
  place.write("plan.json",
              R"({"rounds": [{"crew": "van", "on": "2026-05-05", "stops": [{"visit": "call c-01", "promised": true}]}],
                  "put_off": []})");
  const Json kept = in_order(place, std::string(asked) + " --keep plan.json");
  bool found = false;
  for (const Json& round : kept["rounds"]) {
    for (const Json& stop : round["stops"]) {
      if (stop["visit"] != "call c-01") continue;
      found = true;
      CHECK(round["on"] == "2026-05-05");
      CHECK(stop["promised"] == true);
    }
  }
  CHECK(found);
}

TEST_CASE("without its only crew nobody goes, and an unknown one is asked back") {
  Place place;
  furnish_estate(place);
  CHECK(place.run(std::string(asked) + " --without van") == 65);
  CHECK(place.complains("no crew works from 2026-05-04 to 2026-05-10"));
  CHECK(place.run(std::string(asked) + " --without Van") == 65);  // by its name
  CHECK(place.run(std::string(asked) + " --without lorry") == 64);
  CHECK(place.complains("there is no crew `lorry`"));
}

TEST_CASE("when the time is up the best so far is told, with what is proven of it") {
  Place place;
  furnish_estate(place);
  std::int64_t clock = 0;
  place.world.elapsed = [&] { return clock += 60'000; };
  const Json answer = in_order(place, std::string(asked) + " --time 30s");
  CHECK(answer["stopped"] == "time");
  CHECK(answer["bound"]["total"] <= answer["cost"]["total"]);
  must(place, std::string(asked) + " --time 30s");
  CHECK(place.says("The time was up"));
  place.world.elapsed = [] { return std::int64_t{0}; };
  CHECK(in_order(place, std::string(asked) + " --time 2min")["stopped"].is_null());
}

TEST_CASE("Ctrl-C takes the best so far") {
  Place place;
  furnish_estate(place);
  int looks = 0;
  place.world.elapsed = [&] {
    if (++looks == 3) std::raise(SIGINT);  // the first two looks are before anything is planned
    return std::int64_t{0};
  };
  CHECK(in_order(place, std::string(asked) + " --time 60min")["stopped"] == "interrupt");
  CHECK(looks >= 2);
}

TEST_CASE("on a terminal it says how far it is, and takes that away again") {
  Place place;
  furnish_estate(place);
  place.world.error_terminal = true;
  must(place, asked);
  CHECK(place.err.empty());  // within a second
  std::int64_t now = 0;
  place.world.elapsed = [&] { return now += 300; };
  must(place, asked);
  CHECK(place.complains("planning: "));
  CHECK(place.complains(" so far, none is below "));
  CHECK(place.err.ends_with("\r\033[K"));
  place.world.error_terminal = false;
  must(place, asked);
  CHECK(place.err.empty());
}

TEST_CASE("a mistake in an option is told with what to write") {
  Place place;
  furnish_estate(place);
  CHECK(place.run("rounds --as-of 2026-05-03") == 64);
  CHECK(place.complains("rounds --from 2026-05-04"));  // the next Monday
  CHECK(place.run("rounds --from 2026-05-01 --as-of 2026-05-03") == 64);
  CHECK(place.complains("before the day asked about"));
  for (const char* wrong : {"--days 0", "--days 32", "--time 5", "--time 0s", "--time soon", "--within soon",
                            "--site bek", "--first 0", "--check plan.json --site beck", "--check plan.json --time 5s",
                            "--check plan.json --first 3", "--check plan.json --format ics"}) {
    CAPTURE(wrong);
    place.write("plan.json", R"({"rounds": [], "put_off": []})");
    CHECK(place.run(std::string(asked) + ' ' + wrong) == 64);
    CHECK_FALSE(place.err.empty());
  }
}

TEST_CASE("a status for what has no place, is not known or without record") {
  Place place;
  furnish_estate(place);
  CHECK(place.run(std::string(asked) + " --exit-code") == 1);
  CHECK(place.run(asked) == 0);
}
