// Facts that come with ids: two records become one, and the same twice changes nothing.
#include <doctest/doctest.h>

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

}  // namespace

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

TEST_CASE("struck facts and strikes of strikes are kept") {
  const Folder folder;
  auto record = new_record(folder / "record.db");
  add(record, {reading("loader", day, 1, 1)});
  add(record, {reading("pump", day, 2, 2)});
  add(record, {strike(fact_id(2, 1), 3, "undo")});
  CHECK(record.facts().size() == 3);
  REQUIRE(unstruck(record.facts()).size() == 2);
  CHECK(unstruck(record.facts()).back().machine == "loader");
  add(record, {strike(fact_id(3, 1), 4)});
  CHECK(unstruck(record.facts()).size() == 3);
}
