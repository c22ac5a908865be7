// The report: where it is written as what, and that it says what the commands say.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <filesystem>
#include <nlohmann/json.hpp>

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
  CHECK(report["forecast"] == asked(place, "forecast"));
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
