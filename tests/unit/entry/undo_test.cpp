// What `undo` takes back, and which fact somebody means by a short id.
#include <doctest/doctest.h>

#include "office.h"

using namespace entry_test;
using service::UndoReason;
using service::UndoVerdict;

namespace {

constexpr std::int64_t a_day = 86'400'000;

service::Undo asked(Office& office, std::string who = "ann", std::int64_t later = 0) {
  return service::decide_undo(office.record.facts(), {std::move(who), office.now + later, std::nullopt});
}

void enter_as(Office& office, std::string_view origin, const std::vector<Fact>& facts) {
  office.enter(service::entry_of(std::string(origin), facts, day("2026-06-15"), true));
}

void take_back(Office& office) {
  std::vector<Fact> strikes;
  const auto undo = asked(office);
  for (const Fact& fact : undo.command->standing) strikes.push_back(service::strike_of(fact.id, day("2026-06-15")));
  enter_as(office, service::undo_origin, strikes);
}

}  // namespace

TEST_CASE("the newest command is taken back whole, and then the one before it") {
  Office office;
  CHECK(asked(office).verdict == UndoVerdict::nothing_there);
  enter_as(office, "reading", {reading("loader", "2026-06-01", "400")});
  enter_as(office, "done", {done("loader", "oil", "2026-06-02"), done("loader", "hoses", "2026-06-02")});
  REQUIRE(asked(office).verdict == UndoVerdict::take_back);
  CHECK(asked(office).command->origin == "done");
  CHECK(asked(office).command->standing.size() == 2);
  take_back(office);
  CHECK(asked(office).command->origin == "reading");
  take_back(office);
  CHECK(asked(office).verdict == UndoVerdict::nothing_there);
  CHECK(service::unstruck(office.record.facts()).size() == 3);  // the strikes, legible
}

TEST_CASE("of a command of which something was struck, the rest is taken back") {
  Office office;
  enter_as(office, "done", {done("loader", "oil", "2026-06-02"), done("loader", "hoses", "2026-06-02")});
  const auto first = office.record.facts().front().id;
  enter_as(office, service::undo_origin, {service::strike_of(first, day("2026-06-15"))});
  REQUIRE(asked(office).command.has_value());
  CHECK(asked(office).command->standing.size() == 1);
  CHECK(asked(office).command->standing.front().id != first);
}

TEST_CASE("somebody else's command is asked about first") {
  Office office;
  enter_as(office, "reading", {reading("loader", "2026-06-01", "400")});
  office.who = "bob";
  enter_as(office, "reading", {reading("loader", "2026-06-02", "401")});
  const auto undo = asked(office);
  CHECK(undo.verdict == UndoVerdict::ask_first);
  CHECK(undo.reason == UndoReason::someone_elses);
  CHECK(undo.command->entered_by == "bob");
  REQUIRE(undo.own.has_value());
  CHECK(undo.own->entered_by == "ann");
  CHECK_FALSE(asked(office, "bob").own.has_value());
  CHECK(asked(office, "carl").verdict == UndoVerdict::none_of_ones_own);
  CHECK_FALSE(asked(office, "carl").command.has_value());  // nothing of others is laid out for him to void
  CHECK(asked(office, "bob").verdict == UndoVerdict::take_back);
}

TEST_CASE("entries without a name count as one person's") {
  Office office;
  office.who = "";
  enter_as(office, "reading", {reading("loader", "2026-06-01", "400")});
  CHECK(asked(office, "").verdict == UndoVerdict::take_back);
  CHECK(asked(office, "ann").verdict == UndoVerdict::none_of_ones_own);
}

TEST_CASE("a command older than a day is asked about first") {
  Office office;
  enter_as(office, "reading", {reading("loader", "2026-06-01", "400")});
  const std::int64_t entered = office.record.facts().front().entered;
  const auto after = [&](std::int64_t milliseconds) {
    return service::decide_undo(office.record.facts(), {"ann", entered + milliseconds, std::nullopt});
  };
  CHECK(after(a_day).verdict == UndoVerdict::take_back);
  CHECK(after(a_day + 1).verdict == UndoVerdict::ask_first);
  CHECK(after(a_day + 1).reason == UndoReason::old);
  CHECK(after(-a_day).verdict == UndoVerdict::take_back);  // a clock that went back makes nothing old
}

TEST_CASE("a file of more than one fact is asked about first, a file of one is not") {
  Office office;
  enter_as(office, "import one.csv", {reading("loader", "2026-06-01", "400")});
  CHECK(asked(office).verdict == UndoVerdict::take_back);
  enter_as(office, "import two.csv", {reading("loader", "2026-06-02", "401"), reading("pump", "2026-06-02", "9")});
  CHECK(asked(office).verdict == UndoVerdict::ask_first);
  CHECK(asked(office).reason == UndoReason::file);
}

TEST_CASE("a command that is named is taken back, whosever and however old it is") {
  Office office;
  office.who = "bob";
  enter_as(office, "import two.csv", {reading("loader", "2026-06-02", "401"), reading("pump", "2026-06-02", "9")});
  const auto id = office.record.facts().front().id.command;
  const auto named = [&](const service::CommandId& command) {
    return service::decide_undo(office.record.facts(), {"ann", office.now + 10 * a_day, command});
  };
  CHECK(named(id).verdict == UndoVerdict::take_back);
  CHECK(named(id).command->standing.size() == 2);
  CHECK(named({}).verdict == UndoVerdict::unknown_command);
  CHECK_FALSE(named({}).command.has_value());
}

TEST_CASE("a fact is meant by its full id or by the short form where one answers to it") {
  Office office;
  const auto entered = office.enter({reading("loader", "2026-06-01", "400"), reading("pump", "2026-06-01", "9")});
  const auto book = office.record.facts();
  const auto& id = entered.added[1].id;
  CHECK((service::fact_named(service::to_text(id), book).id == id));
  CHECK((service::fact_named(service::short_text(id), book).id == id));
  const auto nobody = service::fact_named(service::short_text({id.command, 7}), book);
  CHECK_FALSE(nobody.id.has_value());
  CHECK(nobody.several.empty());
  CHECK_FALSE(nobody.near.empty());  // only the number is another

  auto twins = book;
  twins.push_back(book.front());
  twins.back().id.command.bytes[0] ^= 1;  // the same last characters
  const auto several = service::fact_named(service::short_text(book.front().id), twins);
  CHECK_FALSE(several.id.has_value());
  CHECK(several.several.size() == 2);
}

TEST_CASE("what came with another copy of the book is passed over, for it was given elsewhere") {
  Office office;
  enter_as(office, "reading", {reading("loader", "2026-06-01", "400")});
  Fact theirs = reading("loader", "2026-06-02", "401");
  theirs.id = {service::make_command_id(office.now + 5000, {}), 1};
  theirs.entered = office.now + 5000;
  theirs.entered_by = "ann";
  theirs.origin = "reading";
  service::EntryRequest merge = service::entry_of("merge van.db", {}, day("2026-06-15"), true);
  merge.scope.machines = {"loader"};
  merge.propose = [&](const service::Extract&) { return std::vector<service::Proposal>{{theirs, true, {}}}; };
  office.enter(merge);
  REQUIRE(office.record.facts().size() == 2);
  REQUIRE(asked(office).verdict == UndoVerdict::take_back);
  CHECK((asked(office).command->id != theirs.id.command));
  take_back(office);
  CHECK(asked(office).verdict == UndoVerdict::nothing_there);
}
