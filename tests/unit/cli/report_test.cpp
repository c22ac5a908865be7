// The report: where it is written as what, and that it says what the commands say.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <regex>

#include "unit/cli/asking.h"
#include "unit/cli/place.h"

using cli_test::must;
using cli_test::Place;
using Json = nlohmann::json;

namespace {

bool holds(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

std::size_t count(const std::string& text, std::string_view part) {
  std::size_t found = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++found;
  return found;
}

void write_something(Place& place) {
  place.furnish();
  must(place, "reading loader 1200 --on 2026-01-10 --as-of 2026-06-15");
  must(place, "done loader engine-oil --at 1210 --on 2026-01-20 --as-of 2026-06-15");
  must(place, "saw loader leak --on 2026-02-01 --as-of 2026-06-15");
}

Json asked(Place& place, const std::string& line) {
  must(place, line + " --as-of 2026-06-15 --format json");
  return Json::parse(place.out);
}

}  // namespace

TEST_CASE("the report is a page, and on a terminal a digest") {
  Place place;
  write_something(place);
  must(place, "report --as-of 2026-06-15");
  CHECK(place.out.starts_with("<!DOCTYPE html>"));
  const std::string page = place.out;
  must(place, "report --as-of 2026-06-15");
  CHECK(place.out == page);  // to the byte
  place.world.terminal = true;
  must(place, "report --as-of 2026-06-15");
  CHECK_FALSE(holds(place.out, "<"));
  CHECK(holds(place.out, "whichever report --output report.html"));
  must(place, "report --as-of 2026-06-15 --format html");
  CHECK(place.out == page);
  must(place, "report --as-of 2026-06-15 --output report.html");
  CHECK(place.out.empty());
  CHECK(place.read("report.html") == page);
}

TEST_CASE("the report says what the commands say") {
  Place place;
  write_something(place);
  const Json report = asked(place, "report");
  CHECK(report["due"] == asked(place, "due"));
  CHECK(report["overdue"] == asked(place, "due --overdue"));
  CHECK(report["workload"] == asked(place, "workload"));
  CHECK(report["parts"] == asked(place, "parts"));
  Json forecast = asked(place, "forecast");
  REQUIRE(forecast["points"].size() == report["forecast"]["points"].size());
  int later = 0;
  for (std::size_t i = 0; i < forecast["points"].size(); ++i) {
    // What a forecast of a year calls coming may be later to the due list beside it.
    auto& point = forecast["points"][i];
    for (const Json& listed : report["due"]["points"]) {
      const bool same = listed["machine"] == point["machine"] && listed["task"] == point["task"];
      if (same && point["standing"] == "coming") point["standing"] = listed["standing"];
    }
    later += point["standing"] == "later" ? 1 : 0;
  }
  CHECK(later > 0);
  CHECK(report["forecast"] == forecast);
  CHECK(report["season"].is_null());
  REQUIRE(report["machines"].size() == 2);
  CHECK(report["machines"][0]["history"] == asked(place, "history loader"));
  CHECK(report["machines"][1]["known_until"].is_null());
  CHECK(report["known_until"] == "2026-02-01");
  CHECK(asked(place, "report loader")["due"] == asked(place, "due loader"));
}

TEST_CASE("the digest names the command that makes the page of the same") {
  Place place;
  write_something(place);
  const auto page_of = [&](const std::string& asked) {
    must(place, asked + " --as-of 2026-06-15 --format text");
    const auto at = place.out.find("The page with all of it: ");
    return place.out.substr(at, place.out.find(".html", at) - at);
  };
  CHECK(holds(page_of("report"), "whichever report --output report"));
  CHECK(holds(page_of("report --site mere"), "whichever report --site mere --output report"));
  CHECK(holds(page_of("report loader pump"), "whichever report loader pump --output report"));
}

TEST_CASE("the key to the bars stands before the first of them, and the book is folded as what is printed is") {
  Place place;
  write_something(place);
  must(place, "report --as-of 2026-06-15");
  const auto key = place.out.find("class=\"quiet bars-key\"");
  const auto bars = place.out.find("<table class=\"points\"");
  REQUIRE(bars != std::string::npos);
  CHECK(key < bars);
  CHECK_FALSE(holds(place.out, "<details"));  // many browsers print those folded
}

TEST_CASE("each machine has a part of its own, to which its name leads") {
  Place place;
  write_something(place);
  must(place, "report --as-of 2026-06-15");
  for (const char* machine : {"loader", "pump"}) {
    CHECK(count(place.out, fmt::format("id=\"machine-{}\"", machine)) == 1);
    CHECK(count(place.out, fmt::format("href=\"#machine-{}\"", machine)) >= 1);
  }
  must(place, "report --site mere --as-of 2026-06-15");
  CHECK(count(place.out, "id=\"machine-loader\"") == 0);
  CHECK(count(place.out, "href=\"#machine-loader\"") == 0);
  CHECK(count(place.out, "id=\"machine-pump\"") == 1);
}

TEST_CASE("an empty overdue list says that all is well and known, and no other does") {
  Place place;
  constexpr std::string_view well = "Nothing: all is well, and all is known";
  place.furnish();
  must(place, "reading loader 10 --on 2024-03-10 --as-of 2024-03-10");
  must(place, "report loader --as-of 2024-03-10");
  CHECK(holds(place.out, well));
  must(place, "report --as-of 2026-06-15");
  CHECK_FALSE(holds(place.out, well));
  CHECK(place.run("report --exit-code --as-of 2026-06-15 --format text") == 1);
  CHECK(place.run("report loader --exit-code --as-of 2024-03-10 --format text") == 0);
}

TEST_CASE("a season that is not there is asked back, before anything is written") {
  Place place;
  write_something(place);
  CHECK(place.run("report --season harvst --as-of 2026-06-15 --output page.html") == 64);
  CHECK_FALSE(std::filesystem::exists(place.folder / "page.html"));
}

namespace {

void make_hoses_safety(const Place& place) {
  std::string schedule = place.read("schedules/tractor.yaml");
  schedule.replace(schedule.find("do: Renew worn hoses"), 0, "safety: true\n    ");
  place.write("schedules/tractor.yaml", schedule);
}

std::string between(const std::string& text, std::string_view from, std::string_view to) {
  const auto at = text.find(from);
  REQUIRE_MESSAGE(at != std::string::npos, std::string(from));
  return text.substr(at, text.find(to, at) - at);
}

// What is read of it: without tags, in one line.
std::string said(const std::string& html) {
  return std::regex_replace(std::regex_replace(html, std::regex("<[^>]*>"), ""), std::regex("\\s+"), " ");
}

}  // namespace

TEST_CASE("a machine that must not be run is told first in each part, on its own page, in its rows and in data") {
  Place place;
  write_something(place);
  make_hoses_safety(place);  // they leak, so nobody may run the loader, though it is not out of use
  must(place, "out-of-use pump --note cracked --on 2026-03-01 --as-of 2026-06-15");
  must(place, "report --as-of 2026-06-15");
  const std::string page = place.out;
  const std::string entry = said(between(page, "<a href=\"#overdue\"", "</li>"));
  CHECK_MESSAGE(holds(entry, "2 not to be run, "), entry);
  for (const char* part : {"overdue", "due", "workload", "parts"}) {
    CAPTURE(part);
    const std::string its = between(page, fmt::format("<section class=\"part\" id=\"{}\"", part), "To the contents");
    const std::string box = said(between(its, "<section class=\"stop\">", "</section>"));
    CHECK(holds(box, "Do not run"));
    CHECK(holds(box, "out of use since 2026-03-01: cracked"));
    CHECK(holds(box, "before this is mended: hoses, leak seen 2026-02-01"));
  }
  const std::string own = between(page, "id=\"machine-loader\"", "id=\"machine-pump\"");
  CHECK(holds(said(between(own, "<p class=\"stop\">", "</p>")),
              "Do not run: before this is mended: hoses, leak seen 2026-02-01"));
  const std::string row = between(own, "<span class=\"task\">hoses", "leak seen");
  CHECK(std::regex_search(row, std::regex("<td class=\"words\">\\s*<b>do not run it before this is mended")));
  // Its other rows say so too.
  const std::string due = between(page, "<section class=\"part\" id=\"due\"", "To the contents");
  CHECK(holds(said(due), "do not run it before this is mended: hoses, leak seen 2026-02-01"));
  must(place, "report --as-of 2026-06-15 --format text");
  CHECK(holds(place.out, "do not run   pump (out of use), loader (hoses)"));
  const Json report = asked(place, "report");
  REQUIRE(report["not_to_run"].size() == 2);
  CHECK(report["not_to_run"][0]["machine"] == "pump");
  CHECK(report["not_to_run"][0]["out_of_use"] == true);
  CHECK(report["not_to_run"][1]["points"][0]["task"] == "hoses");
}

TEST_CASE("the digest counts the overdue list as it is, and what must not wait beside it apart") {
  Place place;
  place.furnish();
  make_hoses_safety(place);
  must(place, "report --as-of 2030-02-28 --format text");
  CHECK_FALSE(holds(between(place.out, "overdue list", "safety soon"), "statutory"));
  CHECK(holds(place.out, "safety soon  1 safety or statutory task due, or within 7 days, beside that list"));
  // What forbids to run its machine stands in that list.
  must(place, "saw loader leak --on 2026-06-15 --as-of 2026-06-15");
  must(place, "report --as-of 2026-06-15 --format text");
  CHECK(holds(place.out, "overdue list 1 not to be run"));
  CHECK_FALSE(holds(place.out, "safety soon"));
}

TEST_CASE("rows say that their machine is laid up or out of use, on the page and in text") {
  Place place;
  write_something(place);
  must(place, "lay-up loader --until 2026-11-01 --note dry --on 2026-06-01 --as-of 2026-06-15");
  must(place, "out-of-use pump --note cracked --on 2026-03-01 --as-of 2026-06-15");
  must(place, "due --all --as-of 2026-06-15");
  const std::string rows = said(place.out);
  CHECK(count(rows, "laid up until 2026-11-01") >= 3);
  CHECK(count(rows, "out of use: do not run it") == 1);
  must(place, "report --as-of 2026-06-15");
  CHECK(holds(said(between(place.out, "<span class=\"task\">hoses", "</th>")), "laid up until 2026-11-01"));
}

TEST_CASE("what is not known of a machine stands on its page with blanks, task by task") {
  Place place;
  place.furnish();
  std::string fleet = place.read("fleet.yaml");
  const std::string start = "    in-service: {on: 2025-01-10, at: 0}\n";
  const auto at = fleet.find(start);
  REQUIRE(at != std::string::npos);
  place.write("fleet.yaml", fleet.erase(at, start.size()));
  must(place, "report --as-of 2026-06-15");
  const std::string own = said(between(place.out, "id=\"machine-pump\"", "Its book"));
  CHECK(holds(own, "To find out"));
  CHECK(std::regex_search(own, std::regex("gland\\s*done ____-__-__")));
}

namespace {

// The loader and the pump of one customer; of another a cart. The loader was misread, and all take one part.
void write_a_doubt(Place& place) {
  place.furnish();
  place.write("fleet.yaml",
              "fleet: Skarvey estate\n"
              "sites:\n  yard: {customer: Skarvey}\n  mere: {customer: Skarvey}\n  farm: {customer: Ash}\n"
              "seasons: {harvest: {from: 08-01, to: 09-20}}\n"
              "parts: {filter: {stock: 0}}\n"
              "machines:\n"
              "  loader: {schedule: tractor, site: yard, in-service: {on: 2024-03-02, at: 0}}\n"
              "  pump: {schedule: tractor, site: mere, in-service: {on: 2024-03-02, at: 0}}\n"
              "  cart: {schedule: tractor, site: farm, in-service: {on: 2024-03-02, at: 0}}\n");
  place.write("schedules/tractor.yaml",
              "schedule: tractor\nmeters: {engine: {unit: h}}\ntasks:\n"
              "  oil: {do: Oil, every: {hours: 250, months: 6}, takes: 1 h, people: 2, parts: {filter: 1}}\n");
  for (const char* machine : {"loader", "pump", "cart"}) {
    for (const char* value : {"100 --on 2024-09-01", "200 --on 2025-03-01", "300 --on 2025-09-01"}) {
      must(place, fmt::format("reading {} {} --as-of 2026-06-15", machine, value));
    }
    must(place, fmt::format("done {} oil --at 400 --on 2026-02-01 --as-of 2026-06-15", machine));
  }
  must(place, "reading loader 1900 --on 2026-05-10 --as-of 2026-06-15");
  must(place, "reading pump 460 --on 2026-06-10 --as-of 2026-06-15");
  must(place, "reading cart 460 --on 2026-06-10 --as-of 2026-06-15");
}

}  // namespace

TEST_CASE("an answer about one site begins with the readings elsewhere on which its orders rest") {
  Place place;
  write_a_doubt(place);
  const std::string sentence = "Look first at the meter of loader: its last reading is hard to believe";
  must(place, "season harvest --site mere --as-of 2026-06-15");
  REQUIRE(place.says(sentence));
  must(place, "parts --before harvest --site mere --as-of 2026-06-15");
  CHECK(place.says(sentence + ", and days and orders rest on it."));
  must(place, "parts --before harvest --site mere --format md --as-of 2026-06-15");
  CHECK(place.says(sentence));
  must(place, "report --site mere --as-of 2026-06-15");
  CHECK(place.says(sentence + ", and rows and orders rest on it."));
  CHECK(place.says(sentence + ", and days and orders rest on it."));
  const std::string say = asked(place, "report --site mere")["season"]["say"];
  CHECK(say.starts_with(sentence));
  // Another customer is told that there is something, and not of whose machine.
  must(place, "report --site farm --as-of 2026-06-15");
  CHECK_FALSE(holds(place.out, "loader"));
  CHECK(
      place.says("Look first at the meter of 1 machine that this answer is not about: its last reading is hard to "
                 "believe, and rows and orders rest on it."));
}

TEST_CASE("the months of a report name what the plan before the season takes, for that is another figure") {
  Place place;
  write_a_doubt(place);
  const Json report = asked(place, "report");
  REQUIRE(report["season"]["sums"]["beforehand"]["labour_hours"] > 0);
  CHECK(report["beside_months"]["labour_hours"] == report["season"]["sums"]["beforehand"]["labour_hours"]);
  CHECK(report["beside_months"]["before"] == "2026-08-01");
  must(place, "report --as-of 2026-06-15");
  CHECK(holds(said(place.out), "of work fall before 2026-08-01; here each point is done on the day it comes due."));
  must(place, "report --as-of 2026-08-15 --format json");
  CHECK(Json::parse(place.out)["beside_months"].is_null());
}

TEST_CASE("a report says which work is not for one alone, as the due list does") {
  Place place;
  write_a_doubt(place);
  must(place, "due --as-of 2026-06-15 --format text");
  REQUIRE(place.says("two people"));
  must(place, "report --as-of 2026-06-15");
  CHECK(count(place.out, "two people") > 3);  // in the due list and on the page of each machine
}

TEST_CASE("the page of a machine shows what is to be mended among what is due, and says what was found") {
  Place place;
  place.furnish();
  place.write("schedules/tractor.yaml",
              "schedule: tractor\nmeters: {engine: {unit: h}}\ntasks:\n"
              "  brakes: {do: Try the brakes, every: {months: 12}, safety: true}\n"
              "  oil: {do: Oil, every: {months: 36}}\n");
  must(place, "done loader oil brakes --on 2026-06-10 --as-of 2026-06-15");
  must(place, "done loader brakes --found failed --on 2026-06-12 --as-of 2026-06-15");
  must(place, "report loader --as-of 2026-06-15");
  const std::string page = said(place.out.substr(place.out.find("id=\"machine-loader\"")));
  const auto mend = page.find("to be mended: brakes found failed, seen 2026-06-12");
  REQUIRE(mend != std::string::npos);
  CHECK(mend < page.find("task that comes later"));
}
