// What is kept of machines beside their facts, by somebody who counts them.
#include <doctest/doctest.h>

#include <map>
#include <stdexcept>

#include "service/kept_state.h"
#include "unit/record/support.h"

using namespace service;
using record_test::Folder;

namespace {

// Keeps how many unstruck facts there are.
class Counting : public StateKeeper {
 public:
  bool wants(const std::string& machine) const override { return machine != "unlisted"; }
  bool holds(const KeptState& state) const override { return !state.bytes.empty() && state.bytes != "stale"; }
  std::string work_out(const std::string& machine, const FactTally& facts,
                       const std::vector<Fact>& unstruck) const override {
    if (machine == "hopeless") throw std::runtime_error("cannot be worked out");
    worked_out.push_back(machine);
    if (machine == "of-old") return "stale";
    return std::to_string(unstruck.size()) + " of " + std::to_string(facts.facts);
  }
  mutable std::vector<std::string> worked_out;
};

std::map<std::string, std::string> kept(const Record& record) {
  KeptBeside beside;
  CHECK(record.legible(&beside).diagnostics.empty());
  std::map<std::string, std::string> by_machine;
  for (const KeptState& state : beside.states) by_machine[state.machine] = state.bytes;
  return by_machine;
}

void add(Record& record, const std::vector<Fact>& facts, const Counting& keeper, bool dry_run = false) {
  record.append(
      {}, dry_run, [&](const std::vector<Fact>&) { return facts; }, &keeper);
}

using Kept = std::map<std::string, std::string>;

}  // namespace

TEST_CASE("what is kept is worked out of all facts of the machines that were written about, and of no others") {
  const Folder folder;
  auto record = record_test::new_record(folder / "record.db");
  const Counting keeper;
  const Day day = day_of(2026, 1, 1);
  add(record, {record_test::reading("a", day, 1, 1), record_test::reading("b", day, 1, 1, 2)}, keeper);
  CHECK((kept(record) == Kept{{"a", "1 of 1"}, {"b", "1 of 1"}}));
  keeper.worked_out.clear();
  add(record, {record_test::reading("a", day, 2, 2), record_test::reading("unlisted", day, 2, 2, 2)}, keeper);
  CHECK((kept(record) == Kept{{"a", "2 of 2"}, {"b", "1 of 1"}}));
  CHECK((keeper.worked_out == std::vector<std::string>{"a"}));
  add(record, {record_test::reading("a", day, 3, 3)}, keeper, true);
  CHECK((kept(record) == Kept{{"a", "2 of 2"}, {"b", "1 of 1"}}));
}

TEST_CASE("a strike, a strike of it, and a strike that was there before its target") {
  const Folder folder;
  auto record = record_test::new_record(folder / "record.db");
  const Counting keeper;
  const Day day = day_of(2026, 1, 1);
  add(record, {record_test::reading("a", day, 1, 1), record_test::reading("b", day, 1, 1, 2)}, keeper);
  keeper.worked_out.clear();
  add(record, {record_test::strike(record_test::fact_id(1, 1), 2)}, keeper);
  CHECK((kept(record) == Kept{{"a", "0 of 1"}, {"b", "1 of 1"}}));
  add(record, {record_test::strike(record_test::fact_id(2, 1), 3)}, keeper);
  CHECK((kept(record) == Kept{{"a", "1 of 1"}, {"b", "1 of 1"}}));
  CHECK((keeper.worked_out == std::vector<std::string>{"a", "a"}));
  add(record, {record_test::strike(record_test::fact_id(4, 1), 5)}, keeper);
  add(record, {record_test::reading("b", day, 1, 4)}, keeper);
  CHECK((kept(record) == Kept{{"a", "1 of 1"}, {"b", "1 of 2"}}));
}

TEST_CASE("a strike of what comes with it, among more facts") {
  const Folder folder;
  auto record = record_test::new_record(folder / "record.db");
  const Counting keeper;
  const Day day = day_of(2026, 1, 1);
  std::vector<Fact> facts{record_test::reading("a", day, 1, 1)};
  for (int i = 2; i < 20; ++i) facts.push_back(record_test::reading("b", day, i, 1, i));
  facts.push_back(record_test::strike(record_test::fact_id(1, 1), 2));
  facts.push_back(record_test::reading("c", day, 1, 3));
  add(record, facts, keeper);
  CHECK((kept(record) == Kept{{"a", "0 of 1"}, {"b", "18 of 18"}, {"c", "1 of 1"}}));
}

TEST_CASE("within a scope, of machines that were there, changed and came new") {
  const Folder folder;
  auto record = record_test::new_record(folder / "record.db");
  const Counting keeper;
  const Day day = day_of(2026, 1, 1);
  const auto write = [&](const std::vector<std::string>& machines, const std::vector<Fact>& facts) {
    record.append(
        {machines}, false, [&](const std::vector<Fact>&) { return facts; }, &keeper);
  };
  write({"b"}, {record_test::reading("b", day, 1, 1)});
  CHECK((kept(record) == Kept{{"b", "1 of 1"}}));
  record_test::add(record, {record_test::reading("c", day, 1, 2)});  // without a keeper
  write({"a", "b"}, {record_test::reading("a", day, 1, 3), record_test::reading("b", day, 2, 3, 2)});
  CHECK((kept(record) == Kept{{"a", "1 of 1"}, {"b", "2 of 2"}, {"c", "1 of 1"}}));
}

TEST_CASE("what does not hold is worked out by the next entry, about whatever machine") {
  const Folder folder;
  auto record = record_test::new_record(folder / "record.db");
  const Counting keeper;
  const Day day = day_of(2026, 1, 1);
  record_test::add(record, {record_test::reading("a", day, 1, 1), record_test::reading("of-old", day, 1, 1, 2)});
  CHECK(kept(record).empty());
  add(record, {record_test::reading("b", day, 1, 2)}, keeper);
  CHECK((kept(record) == Kept{{"a", "1 of 1"}, {"b", "1 of 1"}, {"of-old", "stale"}}));
  keeper.worked_out.clear();
  add(record, {record_test::reading("b", day, 2, 3)}, keeper);
  CHECK((keeper.worked_out == std::vector<std::string>{"of-old", "b"}));
  // Whoever writes without a keeper takes away what is no longer true.
  record_test::add(record, {record_test::reading("a", day, 2, 4)});
  CHECK((kept(record) == Kept{{"b", "2 of 2"}, {"of-old", "stale"}}));
}

TEST_CASE("what is worked out of several states together, once each of them holds") {
  // Keeps of two groups what their seals add up to: of a machine, how many unstruck facts there are.
  class Together : public Counting {
   public:
    std::uint64_t seal_of(const KeptState& state) const override { return std::stoull(state.bytes); }
    std::vector<KeptGroup> groups() const override {
      return {{"ab", {{"a", {}}, {"b", {}}}}, {"c", {{"c", {}}, {"nothing", {}}}}, {"none", {{"nothing", {}}}}};
    }
    bool holds_together(const KeptGroup& group) const override { return group.bytes == sum_of(group); }
    std::string work_out_together(const KeptGroup& group, const std::vector<KeptState>& states) const override {
      worked_out_groups.push_back(group.name + std::to_string(states.size()));
      return sum_of(group);
    }
    static std::string sum_of(const KeptGroup& group) {
      std::uint64_t sum = 0;
      for (const KeptMember& member : group.members) sum += member.seal.value_or(0);
      return std::to_string(sum);
    }
    mutable std::vector<std::string> worked_out_groups;
  };
  const Folder folder;
  auto record = record_test::new_record(folder / "record.db");
  const Together keeper;
  const Day day = day_of(2026, 1, 1);
  add(record, {record_test::reading("a", day, 1, 1), record_test::reading("b", day, 1, 1, 2)}, keeper);
  CHECK((keeper.worked_out_groups == std::vector<std::string>{"ab2"}));
  CHECK(record.kept_of_group("ab") == "2");
  CHECK(record.kept_of_group("c").empty());
  add(record, {record_test::reading("c", day, 2, 2)}, keeper);
  CHECK((keeper.worked_out_groups == std::vector<std::string>{"ab2", "c1"}));
  add(record, {record_test::strike(record_test::fact_id(1, 1), 3)}, keeper);
  CHECK(record.kept_of_group("ab") == "1");
  CHECK((keeper.worked_out_groups.back() == "ab2"));
  CHECK(keeper.worked_out_groups.size() == 3);
  add(record, {record_test::reading("c", day, 3, 4)}, keeper, true);
  CHECK(keeper.worked_out_groups.size() == 3);

  const auto states = record.kept_of({"b", "nothing", "a"});
  REQUIRE(states.size() == 2);
  CHECK(states[0].machine == "b");
  CHECK(states[0].bytes == "1 of 1");
  CHECK(states[1].facts.facts == 1);

  // Another keeper, who wants no groups, leaves none.
  const Counting other;
  add(record, {record_test::reading("c", day, 5, 5)}, other);
  CHECK(record.kept_of_group("ab").empty());
}

TEST_CASE("a group of which a state cannot be worked out is not kept") {
  class Both : public Counting {
   public:
    std::vector<KeptGroup> groups() const override { return {{"both", {{"a", {}}, {"hopeless", {}}}}}; }
    std::string work_out_together(const KeptGroup&, const std::vector<KeptState>&) const override { return "together"; }
  };
  const Folder folder;
  auto record = record_test::new_record(folder / "record.db");
  const Both keeper;
  add(record, {record_test::reading("a", day_of(2026, 1, 1), 1, 1)}, keeper);
  CHECK(record.kept_of_group("both") == "together");
  add(record, {record_test::reading("hopeless", day_of(2026, 1, 1), 1, 2)}, keeper);
  CHECK(record.facts().size() == 2);
  CHECK(record.kept_of_group("both").empty());
}

TEST_CASE("facts are stored where nothing can be worked out of them") {
  const Folder folder;
  auto record = record_test::new_record(folder / "record.db");
  const Counting keeper;
  add(record, {record_test::reading("hopeless", day_of(2026, 1, 1), 1, 1)}, keeper);
  CHECK(record.facts().size() == 1);
  CHECK(kept(record).empty());
}

TEST_CASE("facts beside what is taken: of the others, whether few or most, and of no machine") {
  const Folder folder;
  auto record = record_test::new_record(folder / "record.db");
  const Counting keeper;
  std::vector<Fact> facts;
  for (int i = 1; i <= 20; ++i) {
    facts.push_back(record_test::reading("m-" + std::to_string(i % 10), day_of(2026, 1, 1), i, 1, i));
  }
  add(record, facts, keeper);
  add(record, {record_test::strike(record_test::fact_id(1, 3), 2)}, keeper);
  for (const int others : {0, 1, 5, 10}) {
    CAPTURE(others);
    int given = 0;
    const auto take = [&](const KeptState& state) {
      CHECK(state.facts.facts == 2);
      return ++given > others;
    };
    CHECK(static_cast<int>(record.facts_beside({}, take).size()) == 2 * others + 1);
    CHECK(given == 10);
  }
  const Scope two{{{"m-1", "m-2"}}};
  CHECK(record.facts_beside(two, [](const KeptState& state) { return state.machine == "m-1"; }).size() == 3);
  CHECK(record.facts_beside(two, [](const KeptState&) { return false; }).size() == 5);
}
