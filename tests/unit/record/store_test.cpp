#include <doctest/doctest.h>
#include <sqlite3.h>

#include <algorithm>
#include <stdexcept>

#include "unit/record/support.h"

using namespace service;
using record_test::add;
using record_test::fact_id;
using record_test::failure_of;
using record_test::Folder;
using record_test::reading;
using record_test::strike;

namespace {

const Day day = day_of(2026, 1, 1);

Record new_record(const std::filesystem::path& file) {
  Record::create(file);
  return Record::open(file, Access::write);
}

std::string csv_of(const Record& record) { return facts_to_csv(record.facts()); }

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
    CHECK(record.last_command().size() == 1);
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
            throw Failure(Trouble::usage, {"refused", "refused", ""});
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
  const auto decide = [&](const std::vector<Fact>&) { return facts; };
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

TEST_CASE("facts whose ids are there already are left out") {
  const Folder folder;
  auto record = new_record(folder / "record.db");
  const std::vector<Fact> facts = record_test::hard_facts();
  CHECK(add(record, facts).size() == facts.size());
  const std::string before = csv_of(record);
  CHECK(add(record, facts).empty());
  CHECK(csv_of(record) == before);

  // A further fact of a command that is there, and the same fact twice at once.
  Fact further = facts.front();
  further.id.number = 99;
  CHECK(add(record, {facts[1], further, further}).size() == 1);
  CHECK(record.facts().size() == facts.size() + 1);
}

TEST_CASE("a known fact or command with other content is refused, whatever else the file holds") {
  const Folder folder;
  auto record = new_record(folder / "record.db");
  const Fact known = reading("loader", day, 1, 1);
  add(record, {known});
  const auto refused = [&](Fact changed) {
    return failure_of([&] { add(record, {reading("pump", day, 7, 7), changed}); });
  };
  Fact changed = known;
  changed.at = Amount{101};
  CHECK(refused(changed) == "65 contradicting-fact");
  changed = known;
  changed.machine = "pump";
  CHECK(refused(changed) == "65 contradicting-fact");
  for (const int n : {1, 2}) {
    changed = known;
    changed.id.number = n;
    ++changed.entered;
    CHECK(refused(changed) == "65 contradicting-fact");
    changed.entered = known.entered;
    changed.entered_by = "bob";
    CHECK(refused(changed) == "65 contradicting-fact");
    changed.entered_by = known.entered_by;
    changed.origin = "import";
    CHECK(refused(changed) == "65 contradicting-fact");
  }
  Fact first = reading("pump", day, 1, 2, 1);
  Fact second = reading("pump", day, 1, 2, 2);
  second.origin = "other";
  CHECK(failure_of([&] { add(record, {first, second}); }) == "65 contradicting-fact");
  second = first;
  second.at = Amount{5};
  CHECK(failure_of([&] { add(record, {first, second}); }) == "65 contradicting-fact");
  CHECK(record.facts().size() == 1);
}

TEST_CASE("two records become the same by union, in either order and any number of times") {
  const Folder folder;
  std::vector<Fact> office;
  std::vector<Fact> van;
  for (int i = 1; i <= 40; ++i) {
    (i % 2 == 0 ? office : van)
        .push_back(reading("machine-" + std::to_string(i % 7), day + std::chrono::days{i * 37 % 11}, i, 100 + i / 5, i,
                           static_cast<std::uint8_t>(i % 2)));
  }
  const std::vector<Fact> shared = record_test::hard_facts();
  office.insert(office.end(), shared.begin(), shared.end());
  van.insert(van.begin(), shared.begin(), shared.end());
  van.push_back(strike(office.front().id, 500));

  auto one = new_record(folder / "one.db");
  add(one, office);
  auto two = new_record(folder / "two.db");
  add(two, van);
  CHECK(csv_of(one) != csv_of(two));
  add(one, two.facts());
  add(two, one.facts());
  add(one, two.facts());
  CHECK(csv_of(one) == csv_of(two));
  CHECK(facts_to_json_lines(one.facts()) == facts_to_json_lines(two.facts()));
  CHECK(one.facts().size() == 40 + shared.size() + 1);

  auto other_way = new_record(folder / "other-way.db");
  add(other_way, van);
  add(other_way, office);
  CHECK(csv_of(other_way) == csv_of(one));
}

TEST_CASE("an export read into an empty record gives the same record") {
  const Folder folder;
  auto record = new_record(folder / "record.db");
  add(record, record_test::hard_facts());
  add(record, {reading("loader", day, 7, 900)});
  for (const std::string& text : {csv_of(record), facts_to_json_lines(record.facts())}) {
    auto copy = new_record(folder / "copy.db");
    add(copy, record_test::facts_of(read_facts(text, "export")));
    CHECK(csv_of(copy) == csv_of(record));
    std::filesystem::remove(folder / "copy.db");
  }
}

TEST_CASE("struck facts and strikes of strikes are kept, and undo finds the command before") {
  const Folder folder;
  auto record = new_record(folder / "record.db");
  add(record, {reading("loader", day, 1, 1)});
  add(record, {reading("pump", day, 2, 2)});
  add(record, {strike(fact_id(2, 1), 3, "undo")});
  CHECK(record.facts().size() == 3);
  REQUIRE(record.last_command().size() == 1);
  CHECK(record.last_command()[0].machine == "loader");
  add(record, {strike(fact_id(3, 1), 4)});
  CHECK(unstruck(record.facts()).size() == 3);
  CHECK(record.last_command()[0].origin == "strike");
}

TEST_CASE("a record opened for reading takes nothing") {
  const Folder folder;
  new_record(folder / "record.db");
  auto record = Record::open(folder / "record.db", Access::read);
  CHECK(failure_of([&] { add(record, {reading("loader", day, 1, 1)}); }) == "70 record-read-only");
}

TEST_CASE("a record that another program holds is busy after the patience given, for writers and readers") {
  const Folder folder;
  const std::filesystem::path file = folder / "record.db";
  new_record(file);
  auto writer = Record::open(file, Access::write, std::chrono::milliseconds(50));
  const auto reader = Record::open(file, Access::read, std::chrono::milliseconds(50));
  sqlite3* other = nullptr;
  REQUIRE(sqlite3_open(file.c_str(), &other) == SQLITE_OK);
  REQUIRE(sqlite3_exec(other, "BEGIN EXCLUSIVE", nullptr, nullptr, nullptr) == SQLITE_OK);
  CHECK(failure_of([&] { add(writer, {reading("loader", day, 1, 1)}); }) == "75 record-busy");
  CHECK(failure_of([&] { (void)reader.facts(); }) == "75 record-busy");
  CHECK(failure_of([&] { Record::open(file, Access::read, std::chrono::milliseconds(50)); }) == "75 record-busy");
  REQUIRE(sqlite3_exec(other, "ROLLBACK", nullptr, nullptr, nullptr) == SQLITE_OK);
  sqlite3_close(other);
  CHECK(add(writer, {reading("loader", day, 1, 1)}).size() == 1);
  CHECK(reader.facts().size() == 1);
}

TEST_CASE("a commit that a reader holds up stores nothing and can be repeated") {
  const Folder folder;
  const std::filesystem::path file = folder / "record.db";
  new_record(file);
  auto writer = Record::open(file, Access::write, std::chrono::milliseconds(50));
  sqlite3* other = nullptr;
  REQUIRE(sqlite3_open(file.c_str(), &other) == SQLITE_OK);
  REQUIRE(sqlite3_exec(other, "BEGIN; SELECT * FROM book", nullptr, nullptr, nullptr) == SQLITE_OK);
  CHECK(failure_of([&] { add(writer, {reading("loader", day, 1, 1)}); }) == "75 record-busy");
  sqlite3_exec(other, "ROLLBACK", nullptr, nullptr, nullptr);
  sqlite3_close(other);
  CHECK(writer.facts().empty());
  CHECK(add(writer, {reading("loader", day, 1, 1)}).size() == 1);
}
