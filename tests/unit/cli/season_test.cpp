// The head of a season's list: what it says of the work, of what is not known, and of machines that do not work in it.
#include <doctest/doctest.h>

#include <regex>
#include <string>

#include "unit/cli/asking.h"

using namespace cli_test;

namespace {

// The drill works in the harvest; the trailer stands in it and is overdue; of the old drill nothing is recorded.
void furnish(Place& place) {
  place.write("fleet.yaml",
              "fleet: Test\nseasons: {harvest: {from: 08-01, to: 09-20}}\n"
              "parts:\n  filter: {what: Filter, unit: piece, stock: 9}\n"
              "machines:\n"
              "  drill: {schedule: kind, in-service: {on: 2022-06-01, at: 0}, expect: {per-year: 100, harvest: 60}}\n"
              "  trailer: {schedule: cart, in-service: {on: 2022-06-01, at: 0}, expect: {per-year: 600, harvest: 0}}\n"
              "  old-drill: {schedule: kind, expect: {per-year: 100, harvest: 60}}\n");
  const std::string tasks =
      "tasks:\n"
      "  oil: {do: Oil, every: {months: 12}, takes: 1 h, parts: {filter: 1}}\n"
      "  brakes: {do: Brakes, every: {months: 60}, safety: true, takes: 1 h}\n";
  place.write("schedules/kind.yaml", "schedule: kind\nmeters: {engine: {unit: h}}\n" + tasks +
                                         "  drum: {do: Drum, every: {months: 6}, takes: 2 h, people: 2}\n");
  place.write("schedules/cart.yaml", "schedule: cart\nmeters: {engine: {unit: h}}\n" + tasks);
  must(place, "new .");
  std::string facts = "kind,machine,on,at,task\n";
  int usage = 0;
  for (int month = 0; month <= 48; ++month) {
    const auto date = std::chrono::year{2022} / std::chrono::month{6} / 1 + std::chrono::months{month};
    facts += "reading,trailer," + service::to_text(service::Day{std::chrono::sys_days{date}}) + ',' +
             std::to_string(usage) + ",\n";
    const auto number = static_cast<unsigned>(date.month());
    usage += number == 8 || number == 9 ? 0 : 60;
  }
  facts += "service,drill,2025-07-01,,oil\nservice,drill,2026-01-01,,drum\nservice,trailer,2025-05-01,,oil\n";
  place.write("facts.csv", facts);
  must(place, "import facts.csv");
}

}  // namespace

TEST_CASE("the head of a season's list counts safety that is not known, and says that two people count twice") {
  Place place;
  furnish(place);
  must(place, "season harvest");
  CHECK(place.says("2 points; 5.0 h of work (two people count twice), 1 part."));
  CHECK(place.says("Find out first: of 1 safety or statutory task too little is known."));
  CHECK(
      place.says("old-drill  nothing is recorded of it: 3 tasks, safety: brakes; to fill in: whichever find-out "
                 "old-drill"));
  CHECK(place.says("Not at work in harvest; what is due on them: whichever due trailer"));
  must(place, "season harvest --format json");
  const auto json = nlohmann::json::parse(place.out);
  CHECK(json["sums"]["find_out"]["never_wait"] == 1);
  CHECK(json["sums"]["beforehand"]["several_people"] == true);
}

TEST_CASE("asked about machines that do not work in a season, that is said, and what is overdue on them") {
  Place place;
  furnish(place);
  must(place, "season harvest trailer");
  CHECK(place.says("trailer does not work in harvest; 1 task is overdue on it: whichever due trailer."));
  CHECK_FALSE(place.says("needs doing"));
  must(place, "done trailer oil");
  must(place, "season harvest trailer");
  CHECK(place.says("trailer does not work in harvest; its tasks: whichever due trailer."));
  must(place, "parts --before harvest trailer --as-of 2026-06-15");
}

TEST_CASE("what is put off beyond a season stands in a block of its own, in every format") {
  Place place;
  furnish(place);
  must(place, "put-off drill drum --until 2026-09-25 --by Ann --note x");
  must(place, "season harvest");
  CHECK(place.says("Do before 2026-08-01: 1 point; 1.0 h of work, 1 part."));
  CHECK(place.says("Put off beyond harvest: 1 point."));
  CHECK(place.says("Put off beyond harvest: in no sums and orders\n"));
  CHECK(place.says("put off until 2026-09-25 by Ann"));
  must(place, "season harvest --format csv");
  CHECK(place.says("put-off,drill,"));
  must(place, "season harvest --format json");
  const auto json = nlohmann::json::parse(place.out);
  REQUIRE(json["put_off"].size() == 1);
  CHECK(json["put_off"][0]["do_by"] == "2026-09-25");
  CHECK(json["put_off"][0]["put_off"]["by"] == "Ann");
}

TEST_CASE("the head of a season's list names meters whose readings contradict each other, and those that are doubted") {
  Place place;
  furnish(place);
  place.write("schedules/kind.yaml",
              "schedule: kind\nmeters: {engine: {unit: h}}\ntasks:\n  oil: {do: Oil, every: {hours: 250}}\n");
  for (int week = 0; week < 22; ++week) {
    const auto day = service::day_of(2026, 1, 5) + std::chrono::days{7 * week};
    must(place, "reading drill " + std::to_string(1000 + 3 * week) + " --on " + service::to_text(day));
  }
  must(place, "reading drill 1380 --on 2026-06-14");
  must(place, "season harvest");
  const std::string drill = "Look first at the meter of drill: ";
  CHECK(place.says(drill + "its last reading is hard to believe, and rows and orders rest on it."));
  // Every answer marks the rows that do, by one key and in the same words.
  const std::string rests = "rests on a doubtful reading";
  CHECK(place.says("D: " + rests));
  for (const char* asked : {"due drill --all", "due drill --all --format md", "due drill --all --format ics",
                            "why drill oil", "report drill"}) {
    CAPTURE(asked);
    must(place, asked);
    std::string text = place.out;
    for (std::size_t at; (at = text.find("\r\n ")) != std::string::npos;) text.erase(at, 3);
    CHECK(std::regex_search(text, std::regex("rests\\s+on\\s+a\\s+doubtful\\s+reading")));
  }
  must(place, "due drill --format json");
  CHECK(nlohmann::json::parse(place.out)["points"][0]["doubtful"] == true);
  must(place, "due trailer --format json");
  CHECK(nlohmann::json::parse(place.out)["points"][0]["doubtful"] == false);
  must(place, "workload drill --format json");
  CHECK(nlohmann::json::parse(place.out)["doubtful"] == true);
  must(place, "history drill --format json");
  CHECK(nlohmann::json::parse(place.out)["facts"].back()["doubtful"] == true);
  must(place, "undo");
  must(place, "season harvest");
  CHECK_FALSE(place.says("Look first"));
  must(place, "due drill --format json");
  CHECK(nlohmann::json::parse(place.out)["points"][0]["doubtful"] == false);
  put_aside(place, "start.db");
  must(place, "reading drill 1200 --on 2026-06-10 --sure");
  put_aside(place, "van.db");
  take_out(place, "start.db");
  must(place, "reading drill 1070 --on 2026-06-14");
  must(place, "merge van.db");
  must(place, "season harvest");
  CHECK(place.says(drill + "its readings contradict each other, and rows and orders rest on them."));
}

TEST_CASE("a service that includes what never waits is told so by one key in JSON and CSV, as text marks it") {
  Place place;
  furnish(place);
  place.write("schedules/kind.yaml",
              "schedule: kind\nmeters: {engine: {unit: h}}\ntasks:\n"
              "  big: {do: All, every: {months: 12}, covers: [brakes, oil]}\n"
              "  oil: {do: Oil, every: {months: 60}}\n"
              "  drum: {do: Drum, every: {months: 6}}\n"
              "  brakes: {do: Brakes, every: {months: 12}, safety: true}\n");
  must(place, "season harvest drill --format json");
  const auto json = nlohmann::json::parse(place.out);
  std::size_t never_wait = 0;
  for (const auto& item : json["beforehand"]) {
    if (item["task"] == "big") CHECK(item["safety"] == false);
    CHECK(item["never_wait"] == (item["task"] == "big" || item["task"] == "brakes"));
    CHECK(item["included_in"].is_null() == (item["task"] != "brakes"));
    never_wait += item["never_wait"] == true ? 1U : 0U;
  }
  CHECK(never_wait == 2);  // overdue brakes have a row of their own, and are counted once
  CHECK(json["sums"]["beforehand"]["never_wait"] == 1);
  const auto& with = json["sums"]["beforehand"]["counted_with"];
  REQUIRE(with.size() == 1);
  CHECK(with[0]["task"] == "brakes");
  CHECK(with[0]["counted_in"]["task"] == "big");
  must(place, "season harvest drill --format csv");
  const auto row = place.out.find("beforehand,drill,,,big,");
  REQUIRE(row != std::string::npos);
  const auto end = place.out.find_first_of("\r\n", row);
  CHECK(place.out.substr(0, place.out.find_first_of("\r\n"))
            .ends_with(
                ",never_wait,do_not_run,doubtful,included_in,group,past_grace_by_estimate,to_mend,again_on,sightings,"
                "looked_on,looked_by,looked_fact"));
  CHECK(place.out.substr(row, end - row).ends_with(",yes,no,no,,overdue,no,,,,,,"));
  must(place, "season harvest drill");
  CHECK(std::regex_search(
      place.out,
      std::regex(
          "1 of them\\s+safety\\s+or\\s+statutory\\s+\\(brakes\\s+of\\s+drill\\s+counted\\s+with\\s+its\\s+big\\)")));
  CHECK(place.says("\nOverdue\nS "));
  CHECK(place.says("big includes it, and has its work and parts"));
  CHECK(place.says("brakes (overdue, safety, in a row of its own)"));
}

TEST_CASE("what is not likely before a season ends stands a line a machine, in text and linked on the page") {
  Place place;
  furnish(place);
  must(place, "season harvest");
  CHECK(place.says("  Under 1 %:\n   drill  brakes\n"));
  must(place, "report --format html");
  CHECK(std::regex_search(place.out, std::regex("<h4>Under 1 %</h4>\\s*<dl class=\"said\">\\s*<dt>\\s*"
                                                "<a href=\"#machine-drill\">drill</a>\\s*</dt>\\s*<dd>brakes</dd>")));
}

TEST_CASE("a row that rests on a doubtful reading says on the page that its machine must not be run, too") {
  Place place;
  furnish(place);
  place.write("schedules/kind.yaml",
              "schedule: kind\nmeters: {engine: {unit: h}}\ntasks:\n"
              "  oil: {do: Oil, every: {hours: 250, signs: [leak]}, safety: true}\n");
  for (int week = 0; week < 22; ++week) {
    const auto day = service::day_of(2026, 1, 5) + std::chrono::days{7 * week};
    must(place, "reading drill " + std::to_string(1000 + 3 * week) + " --on " + service::to_text(day));
  }
  must(place, "reading drill 1380 --on 2026-06-14");
  must(place, "saw drill leak");
  must(place, "report drill");
  CHECK(place.says("<b>do not run it before this is mended · safety · rests on a doubtful reading · </b>"));
}

TEST_CASE("a season tells what a machine that stands would take, and when a machine that is laid up is back") {
  Place place;
  furnish(place);
  must(place, "out-of-use drill --note cracked --on 2026-06-10");
  must(place, "season harvest");
  const char* const words =
      "Not in it: drill, out of use. If it is to work in harvest: 2 points; 5.0 h of work (two people count twice), 1 "
      "part.";
  CHECK(place.says(words));
  auto told = json_of(place, "season harvest");
  CHECK(told["say"].get<std::string>().find(words) != std::string::npos);
  REQUIRE(told["absent"].size() == 1);
  CHECK(told["absent"][0]["machine"] == "drill");
  CHECK(told["absent"][0]["do_not_run"] == true);
  CHECK(told["absent"][0]["items"].size() == 2);
  CHECK(told["beforehand"].empty());
  must(place, "season harvest --format csv");
  CHECK(place.says("\nabsent,drill,"));
  must(place, "report --format html");
  CHECK(place.says(words));

  must(place, "back drill --on 2026-06-11");
  must(place, "lay-up drill --on 2026-06-12 --until 2026-09-01");
  must(place, "season harvest");
  CHECK_FALSE(place.says("Not in it"));
  CHECK(place.says("laid up since 2026-06-12 until 2026-09-01; not there on the first 31 days of harvest"));
  told = json_of(place, "season harvest");
  CHECK(told["not_in_use"][0]["days_missed"] == 31);
}

TEST_CASE("what was found failed stands first before a season, as work to mend, in every format") {
  Place place;
  furnish(place);
  must(place, "done drill brakes --found failed --note pulls --on 2026-06-12");
  must(place, "season harvest");
  CHECK(place.says("\nFound worn or failed, and not mended since\n"));
  CHECK(place.says("brakes found failed, seen 2026-06-12"));
  CHECK(place.says("do not run it before this is mended"));
  CHECK(place.says("to mend"));
  const auto told = json_of(place, "season harvest");
  const auto& first = told["beforehand"][0];
  CHECK(first["task"] == "brakes");
  CHECK(first["reason"] == "mend");
  CHECK(first["group"] == "mend");
  CHECK(first["do_by"] == told["as_of"]);
  const auto& mend = first["to_mend"][0];
  CHECK(mend["sign"] == "brakes found failed");
  CHECK(mend["task"] == "brakes");
  CHECK(mend["found"] == "failed");
  CHECK(mend["do_not_run"] == true);
  CHECK(mend["sightings"].size() == 1);
  CHECK(mend["value"].is_null());
  for (const auto& rest : told["not_before_end"]) {
    const bool it = rest["machine"] == "drill" && rest["task"] == "brakes";
    CHECK_FALSE(it);
  }
  must(place, "season harvest --format csv");
  CHECK(place.says("brakes found failed"));
}
