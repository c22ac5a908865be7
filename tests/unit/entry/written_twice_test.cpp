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
      "  oil: {do: Oil, every: {hours: 250, months: 12}, first: {hours: 50}}\n"
      "  belt: {do: Belt, every: {hours: 500, signs: [squeal]}}\n"
      "  grease: {do: Grease, every: {hours: 10}}\n"
      "  look: {do: Look around, every: {days: 2}}\n"
      "  tyre: {do: Look at the tyre, every: {months: 1}, positions: [left, right]}\n";
  return files;
}

// The later days that are said to be written down already, of services entered one command after the other.
std::string said(const std::vector<Fact>& services) {  // and signs
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

TEST_CASE("within three days is near whatever the values say, unless half an interval was used in between") {
  CHECK(said({done_at("oil", "2026-06-05", "500"), done_at("oil", "2026-06-07", "530")}) == "2026-06-07 ");
  CHECK(said({done_at("grease", "2026-06-05", "500"), done_at("grease", "2026-06-06", "504.9")}) == "2026-06-06 ");
  CHECK(said({done_at("grease", "2026-06-05", "500"), done_at("grease", "2026-06-06", "505")}).empty());
}

TEST_CASE("a tenth is of the interval that holds between two services, which is never the running-in one") {
  CHECK(said({done_at("oil", "2026-05-05", "500"), done_at("oil", "2026-06-05", "520")}) == "2026-06-05 ");
}

TEST_CASE("what was entered last is said to be written down already, also where it is of an earlier day") {
  Office office(workshop());
  const auto first = office.enter({done_at("oil", "2026-06-15", nullptr)}).added.front();
  const auto entered = office.enter({done_at("oil", "2026-06-14", nullptr)});
  REQUIRE(entered.twice.size() == 1);
  const service::WrittenTwice& two = entered.twice.front();
  CHECK((two.earlier.id == first.id));
  CHECK((two.later.id == entered.added.front().id));
  REQUIRE((two.spare() != nullptr));
  CHECK((two.spare()->id == entered.added.front().id));
}

TEST_CASE("beside a service of all positions only the one position is to spare") {
  Office office(workshop());
  const auto left = office.enter({done_at("tyre", "2026-06-15", nullptr, "left")}).added.front();
  const auto all = office.enter({done_at("tyre", "2026-06-15", nullptr)});
  REQUIRE(all.twice.size() == 1);
  CHECK(all.twice.front().at_one_position());
  REQUIRE((all.twice.front().spare() != nullptr));
  CHECK((all.twice.front().spare()->id == left.id));

  Office other(workshop());
  other.enter({done_at("tyre", "2026-06-14", nullptr, "left")});
  const auto day_after = other.enter({done_at("tyre", "2026-06-15", nullptr)});
  REQUIRE(day_after.twice.size() == 1);
  CHECK((day_after.twice.front().spare() == nullptr));
  const auto again = other.enter({done_at("tyre", "2026-06-15", nullptr, "right")});
  REQUIRE(again.twice.size() == 1);
  CHECK((again.twice.front().spare()->id == again.added.front().id));
}

TEST_CASE("a sign of the task between two services says that these are two") {
  Fact squeal;
  squeal.kind = FactKind::sign;
  squeal.machine = "loader";
  squeal.name = "squeal";
  squeal.on = day("2026-06-15");
  CHECK(said({done_at("belt", "2026-06-15", nullptr), squeal, done_at("belt", "2026-06-15", nullptr)}).empty());
  squeal.name = "rattle";
  CHECK(said({done_at("belt", "2026-06-15", nullptr), squeal, done_at("belt", "2026-06-15", nullptr)}) ==
        "2026-06-15 ");
}
