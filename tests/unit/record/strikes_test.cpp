#include <doctest/doctest.h>

#include <algorithm>

#include "unit/record/support.h"

using namespace service;
using record_test::fact_id;
using record_test::reading;
using record_test::strike;

namespace {

// One letter a fact: x for struck, . for not.
std::string picture(const std::vector<Fact>& facts) {
  std::string all;
  for (const bool is_struck : struck(facts)) all += is_struck ? 'x' : '.';
  return all;
}

const Day day = day_of(2026, 1, 1);

}  // namespace

TEST_CASE("a strike voids its fact and nothing else") {
  const std::vector<Fact> facts = {reading("loader", day, 10, 1), reading("loader", day, 20, 2),
                                   strike(fact_id(1, 1), 3)};
  CHECK(picture(facts) == "x..");
}

TEST_CASE("a strike that is struck no longer counts, and a third strike makes it count again") {
  std::vector<Fact> facts = {reading("loader", day, 10, 1), strike(fact_id(1, 1), 2)};
  CHECK(picture(facts) == "x.");
  facts.push_back(strike(fact_id(2, 1), 3));
  CHECK(picture(facts) == ".x.");
  facts.push_back(strike(fact_id(3, 1), 4));
  CHECK(picture(facts) == "x.x.");
}

TEST_CASE("of two strikes of a fact one is enough") {
  const std::vector<Fact> facts = {reading("loader", day, 10, 1), strike(fact_id(1, 1), 2), strike(fact_id(1, 1), 3),
                                   strike(fact_id(2, 1), 4)};
  CHECK(picture(facts) == "xx..");
}

TEST_CASE("the order in which facts are held does not matter to strikes") {
  const std::vector<Fact> facts = {strike(fact_id(3, 1), 4), strike(fact_id(2, 1), 3), strike(fact_id(1, 1), 2),
                                   reading("loader", day, 10, 1)};
  CHECK(picture(facts) == ".x.x");
}

TEST_CASE("strikes that form a ring, or come before their target, end and strike by time alone") {
  CHECK(picture({strike(fact_id(2, 1), 1), strike(fact_id(1, 1), 2)}) == "x.");
  CHECK(picture({strike(fact_id(1, 1), 1)}) == ".");
  CHECK(picture({reading("loader", day, 10, 5), strike(fact_id(5, 1), 4)}) == "..");
}

TEST_CASE("a strike of a fact that is not there strikes nothing") {
  CHECK(picture({reading("loader", day, 10, 1), strike(fact_id(9, 1), 10)}) == "..");
}

TEST_CASE("unstruck facts come in the one order") {
  const auto kept = unstruck({reading("loader", day_of(2026, 1, 3), 1, 1), reading("loader", day_of(2026, 1, 2), 2, 3),
                              reading("loader", day_of(2026, 1, 2), 3, 2), strike(fact_id(1, 1), 4)});
  std::string order;
  for (const Fact& fact : kept) order += fact.at ? to_text(*fact.at) : "strike";
  CHECK(order == "strike32");  // the strike names no day
}

TEST_CASE("a hundred thousand facts can be taken back at once") {
  std::vector<Fact> facts;
  constexpr int many = 100'000;
  for (int i = 1; i <= many; ++i) facts.push_back(reading("loader", day, i, 1, i));
  for (int i = 1; i <= many; ++i) facts.push_back(strike(fact_id(1, i), 2, "undo", i));
  const auto voided = struck(facts);
  CHECK(std::count(voided.begin(), voided.end(), true) == many);
}

TEST_CASE("equal content is equal whoever entered it when") {
  const Fact a = reading("loader", day, 10, 1);
  Fact b = reading("loader", day, 10, 2);
  b.entered_by = "bob";
  b.origin = "import";
  CHECK(same_content(a, b));
  b.at = Amount{1001};
  CHECK_FALSE(same_content(a, b));
}

TEST_CASE("a scope holds its machines and what has none") {
  CHECK(Scope{}.holds("loader"));
  const Scope scope{{{"loader"}}};
  CHECK(scope.holds("loader"));
  CHECK(scope.holds(""));
  CHECK_FALSE(scope.holds("load"));
}
