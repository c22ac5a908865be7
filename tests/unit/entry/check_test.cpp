// The whole book looked at again, and what two copies of it say together.
#include <doctest/doctest.h>

#include <algorithm>

#include "office.h"

using namespace entry_test;
using service::CureKind;
using service::FactDiagnostic;

namespace {

std::vector<FactDiagnostic> check(const Office& office, const std::vector<Fact>& facts,
                                  std::string_view today = "2026-06-15", bool day_is_given = true) {
  return service::check_book(office.fleet, facts, day(today), day_is_given);
}

const FactDiagnostic* find(const std::vector<FactDiagnostic>& found, std::string_view code) {
  const auto at = std::find_if(found.begin(), found.end(), [&](const auto& one) { return one.what.code == code; });
  return at == found.end() ? nullptr : &*at;
}

bool tells(const std::vector<FactDiagnostic>& found, std::string_view code) { return find(found, code) != nullptr; }

// A fact as another copy of the book brought it, which this one's judge never saw.
Fact from_elsewhere(Fact fact, std::uint8_t number) {
  fact.id = {service::make_command_id(1'781'000'000'000 + number, {number}), 1};
  fact.entered = 1'781'000'000'000 + number;
  fact.entered_by = "bob";
  fact.origin = "reading";
  if (fact.meter.empty()) fact.meter = "engine";
  return fact;
}

}  // namespace

TEST_CASE("a sound book has nothing to tell") {
  Office office;
  office.enter({reading("loader", "2026-06-01", "400"), done("loader", "oil", "2026-06-01", "400")});
  CHECK(check(office, office.record.facts()).empty());
}

TEST_CASE("a fact that the fleet files no longer allow is told with what strikes it") {
  Office office;
  const auto added = office.enter({done("loader", "oil", "2026-06-01")}).added;
  auto files = estate();
  files.texts["schedules/tractor.yaml"] =
      "schedule: tractor\nmeters: {engine: {unit: h}}\ntasks:\n  hoses: {do: Hoses, every: {years: 6}}\n";
  const Office edited(files);
  const auto found = check(edited, added);
  const FactDiagnostic* wrong = find(found, "unknown-task");
  REQUIRE(wrong != nullptr);
  REQUIRE(wrong->fact.has_value());
  CHECK(wrong->fact->id == added.front().id);
  REQUIRE(wrong->what.cures.size() == 1);
  CHECK(wrong->what.cures.front().kind == CureKind::strike_fact);
  CHECK(wrong->what.cures.front().value("fact") == service::to_text(added.front().id));
}

TEST_CASE("a machine that is no longer listed is told once, and none of its facts need be struck") {
  Office office;
  const auto added = office.enter({reading("pump", "2026-06-01", "9"), reading("pump", "2026-06-02", "10")}).added;
  auto files = estate();
  files.texts["fleet.yaml"] = "fleet: Test\nmachines:\n  loader: {schedule: tractor}\n";
  const auto found = check(Office(files), added);
  REQUIRE(found.size() == 1);
  CHECK(found[0].what.code == "unlisted-machine");
  CHECK_FALSE(found[0].fact.has_value());
  CHECK(found[0].what.cures.empty());
}

TEST_CASE("contradictions, a clock behind and what was written twice are told") {
  Office office;
  std::vector<Fact> facts = office.enter({reading("loader", "2026-06-01", "400")}).added;
  facts.push_back(from_elsewhere(reading("loader", "2026-06-02", "300"), 1));
  const auto found = check(office, facts);
  const FactDiagnostic* contradiction = find(found, "contradiction");
  REQUIRE(contradiction != nullptr);
  CHECK(contradiction->what.severity == service::Severity::error);
  CHECK(contradiction->what.cures.size() == 2);

  CHECK(tells(check(office, {facts[0]}, "2026-05-31", false), "clock"));
  CHECK_FALSE(tells(check(office, {facts[0]}, "2026-05-31", true), "clock"));

  const auto one = office.enter({done("pump", "gland", "2026-06-01")}).added.front();
  const auto twice = check(office, {one, from_elsewhere(done("pump", "gland", "2026-06-01"), 2)});
  const FactDiagnostic* written = find(twice, "written-twice");
  REQUIRE(written != nullptr);
  CHECK(written->what.severity == service::Severity::remark);
  CHECK(written->what.cures.size() == 1);
}

TEST_CASE("damage is told beside what the book says, and alone where the fleet cannot be read") {
  Office office;
  service::Legible book;
  book.facts = office.enter({reading("pump", "2026-06-01", "9")}).added;
  book.facts.push_back(from_elsewhere(reading("pump", "2026-06-02", "3"), 1));
  book.diagnostics = {{"damaged-row", "a row does not agree with its checksum", ""}};
  const auto whole = service::check_all(office.fleet, book, day("2026-06-15"), true, false);
  CHECK(tells(whole, "damaged-row"));
  CHECK(tells(whole, "contradiction"));
  const auto record_alone = service::check_all(nullptr, book, day("2026-06-15"), true, false);
  REQUIRE(record_alone.size() == 1);
  CHECK(record_alone[0].what.code == "damaged-row");
}

TEST_CASE("a strict check remarks on odd intervals of the fleet files, each with its place") {
  auto files = estate();
  files.texts["schedules/pump.yaml"] =
      "schedule: pump\nmeters: {engine: {unit: h}}\ntasks:\n  gland: {do: Gland, every: {hours: 100}, first: {hours: "
      "200}}\n";
  const Office odd(files);
  const auto strict = service::check_all(odd.fleet, {}, day("2026-06-15"), true, true);
  REQUIRE(strict.size() == 1);
  CHECK(strict[0].what.code == "odd-interval");
  CHECK(strict[0].what.place.has_value());
  CHECK(service::check_all(odd.fleet, {}, day("2026-06-15"), true, false).empty());
}

TEST_CASE("a merge tells what the two copies say twice or in contradiction, and nothing older") {
  Office office;
  office.enter({done("pump", "gland", "2026-06-01"), reading("loader", "2026-06-01", "400")});
  const std::vector<Fact> theirs{from_elsewhere(done("pump", "gland", "2026-06-01"), 1),
                                 from_elsewhere(reading("loader", "2026-06-02", "300"), 2)};
  CHECK(service::about_this_fleet(*office.fleet, theirs));
  service::EntryRequest request;
  request.origin = "merge";
  request.today = day("2026-06-15");
  request.day_is_given = true;
  request.propose = [&](const service::Extract&) {
    std::vector<service::Proposal> proposals;
    for (const Fact& fact : theirs) proposals.push_back({fact, true, std::nullopt});
    return proposals;
  };
  const auto merged = office.enter(request);
  CHECK(merged.added.size() == 2);
  CHECK_FALSE(service::command_of(merged).has_value());  // the other copy's commands, not ours to take back
  REQUIRE(merged.twice.size() == 1);
  CHECK(merged.twice[0].later.task == "gland");
  const auto contradicted = service::newly_contradicted(merged);
  REQUIRE(contradicted.size() == 1);
  CHECK(contradicted[0].machine == "loader");

  const auto again = office.enter(request);
  CHECK(again.added.empty());
  CHECK(again.already_there == 2);
  CHECK(again.twice.empty());
  CHECK(service::newly_contradicted(again).empty());
}

TEST_CASE("the book of another fleet is known by its machines") {
  const Office office;
  CHECK_FALSE(service::about_this_fleet(*office.fleet, {reading("crane", "2026-06-01", "9")}));
  CHECK(service::about_this_fleet(*office.fleet,
                                  {reading("crane", "2026-06-01", "9"), reading("pump", "2026-06-01", "9")}));
  CHECK(service::about_this_fleet(*office.fleet, {}));
}
