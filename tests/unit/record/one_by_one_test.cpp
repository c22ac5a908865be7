// A book read machine after machine.
#include <doctest/doctest.h>

#include "service/kept_state.h"
#include "unit/record/support.h"

using namespace service;
using record_test::Folder;

namespace {

// Says how many facts it was given.
class Counting : public StateKeeper {
 public:
  bool wants(const std::string& machine) const override { return machine == "a"; }
  bool holds(const KeptState& state) const override { return !state.bytes.empty(); }
  std::string work_out(const std::string&, const FactTally&, const std::vector<Fact>& unstruck) const override {
    return std::to_string(unstruck.size());
  }
};

}  // namespace

TEST_CASE("machine after machine there are the facts that nobody struck, and what is kept") {
  const Folder folder;
  auto record = record_test::new_record(folder / "record.db");
  const Counting keeper;
  const std::vector<Fact> facts{
      record_test::reading("b", day_of(2026, 1, 3), 3, 1),    record_test::reading("a", day_of(2026, 1, 2), 2, 1, 2),
      record_test::reading("a", day_of(2026, 1, 1), 1, 1, 3), record_test::strike(record_test::fact_id(1, 1), 2),
      record_test::strike(record_test::fact_id(1, 3), 3),     record_test::strike(record_test::fact_id(3, 1), 4)};
  record.append(
      {}, false, [&](const std::vector<Fact>&) { return facts; }, &keeper);
  bool asked = false;
  record.one_by_one([&](OneByOne& book) {
    asked = true;
    CHECK((book.machines() == std::vector<std::string>{"a", "b"}));
    const auto of_a = book.unstruck("a");
    REQUIRE(of_a.size() == 2);
    CHECK((of_a[0].on.first == day_of(2026, 1, 1)));
    CHECK((of_a[1].on.first == day_of(2026, 1, 2)));
    CHECK(book.unstruck("b").empty());  // struck
    CHECK(book.unstruck("nobody").empty());
    CHECK(book.unstruck("a").size() == 2);  // again
    const auto kept = book.kept("a");
    REQUIRE(kept.has_value());
    CHECK((kept->machine == "a"));
    CHECK((kept->bytes == "2"));
    CHECK(kept->facts.facts == 2);
    const auto of_b = book.kept("b");  // its fact is struck, and nothing is kept of it
    REQUIRE(of_b.has_value());
    CHECK(of_b->facts.facts == 1);
    CHECK(of_b->bytes.empty());
    CHECK_FALSE(book.kept("nobody").has_value());
  });
  CHECK(asked);
}

TEST_CASE("an empty book has no machine") {
  const Folder folder;
  auto record = record_test::new_record(folder / "record.db");
  record.one_by_one([](OneByOne& book) { CHECK(book.machines().empty()); });
}
