// The store: what is stored is read again, whole or not at all.
#include <doctest/doctest.h>

#include <algorithm>

#include "unit/record/support.h"

using namespace service;
using record_test::add;
using record_test::csv_of;
using record_test::fact_id;
using record_test::failure_of;
using record_test::Folder;
using record_test::new_record;
using record_test::reading;
using record_test::strike;

namespace {

const Day day = day_of(2026, 1, 1);

Fact count_of(const std::string& part, std::int64_t later) {
  Fact fact = reading("", day, 0, later);
  fact.kind = FactKind::count;
  fact.at.reset();
  fact.part = part;
  fact.value = Measure{1'000'000};
  return fact;
}

}  // namespace

TEST_CASE("what was stored is read again, by this and by the next who opens the record") {
  const Folder folder;
  const std::vector<Fact> facts = record_test::hard_facts();
  std::vector<Fact> in_order = facts;
  std::sort(in_order.begin(), in_order.end(), before);
  {
    auto record = new_record(folder / "record.db");
    CHECK(facts_to_csv(add(record, facts)) == facts_to_csv(facts));
    CHECK(csv_of(record) == facts_to_csv(in_order));
  }
  CHECK(csv_of(Record::open(folder / "record.db", Access::read)) == facts_to_csv(in_order));
}

TEST_CASE("of however many facts each is stored with what is its own") {
  for (const int many : {1, 15, 16, 17, 33}) {
    CAPTURE(many);
    const Folder folder;
    auto record = new_record(folder / "record.db");
    std::vector<Fact> facts;
    for (int i = 0; i < many; ++i) {
      const Day on = day + std::chrono::days{i};
      facts.push_back(reading(i % 3 == 0 ? "loader" : "pump", on, i, 1, i + 1));
      if (i % 2 != 0) facts.back().at.reset();
      if (i % 2 == 0) facts.back().sure = i % 4 == 0;
      facts.back().kind = i % 2 == 0 ? FactKind::reading : FactKind::sign;
      if (i % 2 != 0) facts.back().name = "leak " + std::to_string(i);
      if (i % 2 != 0 && i % 3 == 0) facts.back().note = "seen on the " + to_text(on);
    }
    add(record, facts);
    CHECK(csv_of(record) == facts_to_csv(facts));
    CHECK(record.legible().diagnostics.empty());
  }
}

TEST_CASE("facts come in the order of effective day, entered, id") {
  const Folder folder;
  auto record = new_record(folder / "record.db");
  add(record, {reading("b", day + std::chrono::days{1}, 1, 1), reading("a", day, 2, 3), reading("c", day, 3, 2, 2),
               reading("b", day, 4, 2, 1)});
  std::string order;
  for (const Fact& fact : record.facts()) order += to_text(*fact.at);
  CHECK(order == "4321");
}

TEST_CASE("a scope gives its machines and the facts that have none") {
  const Folder folder;
  auto record = new_record(folder / "record.db");
  add(record, {reading("loader", day, 1, 1), reading("pump", day, 2, 2), reading("load", day, 3, 3),
               count_of("filter", 4), strike(fact_id(2, 1), 5)});
  const auto machines = [&](const Scope& scope) {
    std::string all;
    for (const Fact& fact : record.facts(scope)) {
      all += fact.machine.empty() ? to_text(fact.kind) : std::string_view(fact.machine);
      all += ' ';
    }
    return all;
  };
  CHECK(machines({}) == "strike loader pump load count ");
  CHECK(machines({{{"loader"}}}) == "strike loader count ");
  CHECK(machines({{{"pump", "loader", "pump"}}}) == "strike loader pump count ");
  CHECK(machines({{{"nobody"}}}) == "strike count ");
  CHECK(machines({std::vector<std::string>{}}) == "strike count ");
  CHECK((record.machines() == std::vector<std::string>{"load", "loader", "pump"}));
}

TEST_CASE("the newest day is that of any fact, struck or not, and a strike without a day has none") {
  const Folder folder;
  auto record = new_record(folder / "record.db");
  add(record, {strike(fact_id(0, 1), 1)});
  CHECK_FALSE(record.newest_day().has_value());
  Fact early = reading("loader", day_of(1950, 6, 1), 1, 2);
  add(record, {early});
  CHECK(to_text(*record.newest_day()) == "1950-06-01");
  add(record, {reading("loader", day, 1, 3), reading("pump", day_of(2025, 1, 1), 1, 4)});
  add(record, {strike(fact_id(3, 1), 5)});
  CHECK(to_text(*record.newest_day()) == "2026-01-01");
}

TEST_CASE("decide sees the facts of the scope, and what it answers is what is stored") {
  const Folder folder;
  auto record = new_record(folder / "record.db");
  add(record, {reading("loader", day, 1, 1), reading("pump", day, 2, 2)});
  const auto added = record.append({{{"pump"}}}, false, [&](const std::vector<Fact>& known) {
    CHECK(known.size() == 1);
    CHECK(record.facts().size() == 2);  // asking inside is allowed
    CHECK(record.machines().size() == 2);
    return std::vector<Fact>{reading("pump", day, 3, 3)};
  });
  CHECK(added.size() == 1);
  CHECK(record.facts().size() == 3);
}

TEST_CASE("where decide throws, nothing is stored and the record can be used on") {
  const Folder folder;
  auto record = new_record(folder / "record.db");
  add(record, {reading("loader", day, 1, 1)});
  const std::string before = csv_of(record);
  CHECK_THROWS_AS(
      record.append({}, false, [](const std::vector<Fact>&) -> std::vector<Fact> { throw std::range_error("no"); }),
      std::range_error);
  CHECK(failure_of([&] {
          record.append({}, false, [](const std::vector<Fact>&) -> std::vector<Fact> {
            throw Failure(FailureKind::usage, {"refused", "refused", ""});
          });
        }) == "64 refused");
  CHECK(csv_of(record) == before);
  CHECK(csv_of(Record::open(folder / "record.db", Access::read)) == before);
  CHECK(add(record, {reading("loader", day, 2, 2)}).size() == 1);
}

TEST_CASE("where one fact of many cannot be stored, none is") {
  const Folder folder;
  auto record = new_record(folder / "record.db");
  std::vector<Fact> facts;
  for (int i = 1; i <= 100; ++i) facts.push_back(reading("loader", day, i, 1, i));
  facts[98].at.reset();
  facts[99].note = "a reading has no note";
  try {
    add(record, facts);
    FAIL("stored");
  } catch (const Failure& failure) {
    CHECK(failure.diagnostics().size() == 2);
  }
  CHECK(record.facts().empty());
  CHECK(record.machines().empty());
}

TEST_CASE("the store takes nothing that a file could not carry") {
  const Folder folder;
  auto record = new_record(folder / "record.db");
  const auto refused = [&](auto change) {
    Fact fact = reading("loader", day, 1, 1);
    change(fact);
    return failure_of([&] { add(record, {fact}); });
  };
  CHECK(refused([](Fact& f) { f.machine = "a\nb"; }) == "65 bad-text");
  CHECK(refused([](Fact& f) { f.entered_by = "\xff"; }) == "65 bad-text");
  CHECK(refused([](Fact& f) { f.machine = std::string(10'001, 'x'); }) == "65 bad-text");
  CHECK(refused([](Fact& f) { f.machine.clear(); }) == "65 missing-value");
  CHECK(refused([](Fact& f) { f.at = Amount{-1}; }) == "65 out-of-bounds");
  CHECK(refused([](Fact& f) { f.at = Amount{100'000'000'001}; }) == "65 out-of-bounds");
  CHECK(refused([](Fact& f) { f.id.number = 0; }) == "65 out-of-bounds");
  CHECK(refused([](Fact& f) { f.entered = -1; }) == "65 out-of-bounds");
  CHECK(refused([](Fact& f) { f.entered = 7'258'118'400'000; }) == "65 out-of-bounds");
  CHECK(refused([](Fact& f) { f.on = day_of(1899, 12, 31); }) == "65 out-of-bounds");
  CHECK(refused([](Fact& f) { f.on = day_of(2200, 1, 1); }) == "65 out-of-bounds");
  CHECK(refused([](Fact& f) { f = strike(f.id, 0); }) == "65 early-strike");
  CHECK(refused([](Fact& f) {
          f = strike(f.id, 2);
          f.on = {day_of(2026, 1, 1), day_of(2026, 1, 2)};  // neither a day nor a month nor a year
        }) == "65 out-of-bounds");
  CHECK(refused([](Fact&) {}) == "none");
}

TEST_CASE("a dry run answers the same and changes no byte") {
  const Folder folder;
  const std::filesystem::path file = folder / "record.db";
  {
    auto record = new_record(file);
    add(record, {reading("loader", day, 1, 1)});
  }
  const std::string before = record_test::bytes_of(file);
  const std::vector<Fact> facts = {reading("pump", day, 2, 2), reading("loader", day, 1, 1), reading("new", day, 3, 3)};
  const auto decide = [&](const std::vector<Fact>&) { return std::vector(facts); };
  std::string dry;
  {
    auto record = Record::open(file, Access::write);
    dry = facts_to_csv(record.append({}, true, decide));
    CHECK(record.facts().size() == 1);
  }
  CHECK(record_test::bytes_of(file) == before);
  CHECK(folder.files() == 1);
  auto record = Record::open(file, Access::write);
  CHECK(facts_to_csv(record.append({}, false, decide)) == dry);
  CHECK(record.facts().size() == 3);
}
