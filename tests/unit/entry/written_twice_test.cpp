// One service that was written down twice, said at entry and by the check; both stand.
#include <doctest/doctest.h>

#include "office.h"

using namespace entry_test;

namespace {

service::FleetFiles workshop() {
  service::FleetFiles files;
  files.texts["fleet.yaml"] =
      "fleet: Test\nmachines:\n  loader: {schedule: tractor, in-service: {on: 2024-03-02, at: 0}}\n";
  files.texts["schedules/tractor.yaml"] =
      "schedule: tractor\nmeters: {engine: {unit: h}}\ntasks:\n"
      "  oil: {do: Oil, every: {hours: 250, months: 12}}\n"
      "  grease: {do: Grease, every: {hours: 10}}\n"
      "  look: {do: Look around, every: {days: 2}}\n"
      "  tyre: {do: Look at the tyre, every: {months: 1}, positions: [left, right]}\n";
  return files;
}

// The later days that are said to be written down already, of services entered one command after the other.
std::string said(const std::vector<Fact>& services) {
  Office office(workshop());
  std::string days;
  for (const Fact& fact : services) {
    for (const auto& twice : office.enter(std::vector{fact}).twice) days += to_text(twice.later.on) + ' ';
  }
  // The check says the same of the whole book.
  std::size_t remarks = 0;
  for (const auto& found : service::check_book(office.fleet, office.record.facts(), day("2026-06-15"), true)) {
    if (found.what.code != "written-twice") continue;
    ++remarks;
    CHECK(days.find(to_text(found.fact->on)) != std::string::npos);
  }
  CHECK(remarks == static_cast<std::size_t>(std::count(days.begin(), days.end(), ' ')));
  CHECK(office.record.facts().size() == services.size());  // all stand
  return days;
}

Fact done_at(std::string_view task, std::string_view on, const char* at, std::string_view position = "") {
  Fact fact = done("loader", task, on);
  if (at != nullptr) fact.at = amount(at);
  fact.position = position;
  return fact;
}

}  // namespace

TEST_CASE("the same oil change on three days of a week is said twice") {
  CHECK(said({done_at("oil", "2026-06-05", nullptr), done_at("oil", "2026-06-07", nullptr),
              done_at("oil", "2026-06-08", nullptr)}) == "2026-06-07 2026-06-08 ");
  CHECK(said({done_at("oil", "2026-06-05", "500"), done_at("oil", "2026-06-07", "501"),
              done_at("oil", "2026-06-08", nullptr)}) == "2026-06-07 2026-06-08 ");
}

TEST_CASE("three days apart is near, four are not") {
  CHECK(said({done_at("oil", "2026-06-05", nullptr), done_at("oil", "2026-06-08", nullptr)}) == "2026-06-08 ");
  CHECK(said({done_at("oil", "2026-06-05", nullptr), done_at("oil", "2026-06-09", nullptr)}).empty());
}

TEST_CASE(
    "within a tenth of the usage interval is near, whatever the days; two values further apart are two services") {
  CHECK(said({done_at("oil", "2026-05-05", "500"), done_at("oil", "2026-06-05", "525")}) == "2026-06-05 ");
  CHECK(said({done_at("oil", "2026-05-05", "500"), done_at("oil", "2026-06-05", "525.1")}).empty());
  CHECK(said({done_at("oil", "2025-06-05", "500"), done_at("oil", "2026-06-05", "510")}).empty());  // a year later
  CHECK(said({done_at("grease", "2026-06-05", "500"), done_at("grease", "2026-06-06", "510")}).empty());
}

TEST_CASE("half the shortest calendar limb is near where that is less than three days") {
  CHECK(said({done_at("look", "2026-06-05", nullptr), done_at("look", "2026-06-06", nullptr)}) == "2026-06-06 ");
  CHECK(said({done_at("look", "2026-06-05", nullptr), done_at("look", "2026-06-07", nullptr)}).empty());
}

TEST_CASE("other positions are other services, and one without a position is of all of them") {
  CHECK(
      said({done_at("tyre", "2026-06-05", nullptr, "left"), done_at("tyre", "2026-06-05", nullptr, "right")}).empty());
  CHECK(said({done_at("tyre", "2026-06-05", nullptr, "left"), done_at("tyre", "2026-06-06", nullptr)}) ==
        "2026-06-06 ");
}
