// Books that are kept in the record: lists made with them are lists made of all facts, to the byte.
#include "service/kept_books.h"

#include <doctest/doctest.h>
#include <sqlite3.h>

#include <algorithm>
#include <random>
#include <string>

#include "property/one_by_one.h"
#include "property/twin_compare.h"
#include "render/due/due.h"
#include "service/due_list.h"
#include "support/temporary_folder.h"
#include "twin/worlds.h"

namespace {

using service::Access;
using service::Fact;
using service::Record;

std::string answer(const service::Snapshot& snapshot) {
  cli::DueAnswer due;
  due.list = service::due_list(snapshot, snapshot.as_of() + std::chrono::days{60});
  due.newest_fact = snapshot.newest_fact();
  return cli::due_as_json(due);
}

// How many machines were answered by their kept book.
int used(const service::Snapshot& snapshot) {
  const auto& machines = snapshot.fleet().machines;
  return static_cast<int>(std::count_if(machines.begin(), machines.end(), [&](const service::Machine& machine) {
    return snapshot.derived_of(machine.key) != nullptr;
  }));
}

// The list by kept books, after it was found to be the one of all facts.
service::Snapshot the_same(const std::shared_ptr<const service::Fleet>& fleet, const Record& record, service::Day as_of,
                           const service::Scope& scope = {}) {
  auto by_books = service::take_list_snapshot(fleet, record, as_of, true, scope);
  const auto by_facts = service::take_snapshot(fleet, record, as_of, true, scope);
  REQUIRE((answer(by_books) == answer(by_facts)));
  test::hold_one_by_one(fleet, record, as_of, scope);
  REQUIRE((answer(service::take_learnt_snapshot(fleet, record, as_of, true, scope)) == answer(by_facts)));
  return by_books;
}

std::vector<service::OddBook> odd(const service::Fleet& fleet, const Record& record) {
  service::KeptBeside kept;
  const auto book = record.legible(&kept);
  REQUIRE(book.diagnostics.empty());
  auto books = service::odd_books(fleet, book.facts, kept.states);
  const auto kinds = service::odd_kinds(fleet, book.facts, kept);
  REQUIRE((kinds.empty() || !books.empty()));
  return books;
}

void store(Record& record, const service::Fleet& fleet, const std::vector<Fact>& facts) {
  const service::BookKeeper keeper(fleet);
  record.append(
      {}, false, [&](const std::vector<Fact>&) { return facts; }, &keeper);
}

void run_sql(const std::filesystem::path& file, const std::string& sql) {
  sqlite3* database = nullptr;
  REQUIRE(sqlite3_open(file.c_str(), &database) == SQLITE_OK);
  const int result = sqlite3_exec(database, sql.c_str(), nullptr, nullptr, nullptr);
  sqlite3_close(database);
  REQUIRE(result == SQLITE_OK);
}

// Another byte in the middle of the first book.
void spoil_first(const std::filesystem::path& file) {
  sqlite3* database = nullptr;
  REQUIRE(sqlite3_open(file.c_str(), &database) == SQLITE_OK);
  sqlite3_blob* book = nullptr;
  sqlite3_stmt* first = nullptr;
  REQUIRE(sqlite3_prepare_v2(database, "SELECT min(machine) FROM derived", -1, &first, nullptr) == SQLITE_OK);
  REQUIRE(sqlite3_step(first) == SQLITE_ROW);
  const sqlite3_int64 machine = sqlite3_column_int64(first, 0);
  sqlite3_finalize(first);
  REQUIRE(sqlite3_blob_open(database, "main", "derived", "state", machine, 1, &book) == SQLITE_OK);
  const int middle = sqlite3_blob_bytes(book) / 2;
  char byte = 0;
  REQUIRE(sqlite3_blob_read(book, &byte, 1, middle) == SQLITE_OK);
  byte = static_cast<char>(byte ^ 16);
  REQUIRE(sqlite3_blob_write(book, &byte, 1, middle) == SQLITE_OK);
  sqlite3_blob_close(book);
  sqlite3_close(database);
}

// Facts as they come: some of them in any order, strikes before what they strike among them.
std::vector<std::vector<Fact>> portions(std::vector<Fact> facts, std::mt19937_64& luck) {
  std::shuffle(facts.begin(), facts.end(), luck);
  std::vector<std::vector<Fact>> all(3);
  for (std::size_t i = 0; i < facts.size(); ++i) all[luck() % all.size()].push_back(std::move(facts[i]));
  std::erase_if(all, [](const auto& some) { return some.empty(); });
  return all;
}

// Random worlds of which facts were entered.
template <class Use>
void each_world(std::uint64_t first, std::uint64_t count, Use use) {
  for (std::uint64_t seed = first; seed < first + count; ++seed) {
    CAPTURE(seed);
    auto world = test::build(twin::random_world(seed));
    for (Fact& fact : world.facts) {
      if (fact.entered_by.empty()) fact.entered_by = "ann";
      if (fact.origin.empty()) fact.origin = "test";
    }
    REQUIRE(world.fleet->files_checksum.has_value());
    const test::TemporaryFolder folder;
    Record::create(folder / "record.db");
    use(world, folder / "record.db");
  }
}

}  // namespace

TEST_CASE("kept books answer as the facts do, in whatever order the facts came") {
  std::mt19937_64 luck(20'260'301);
  int by_books = 0;
  int by_facts = 0;
  each_world(15'000'001, 150, [&](const test::Built& world, const std::filesystem::path& file) {
    auto record = Record::open(file, Access::write);
    for (const auto& some : portions(world.facts, luck)) {
      store(record, *world.fleet, some);
      for (const int days : {0, 500, -300}) {
        const auto snapshot = the_same(world.fleet, record, world.as_of + std::chrono::days{days});
        by_books += used(snapshot);
        by_facts += static_cast<int>(world.fleet->machines.size()) - used(snapshot);
      }
      const auto& machine = world.fleet->machines[luck() % world.fleet->machines.size()];
      the_same(world.fleet, record, world.as_of, service::Scope{{{machine.key}}});
    }
    CHECK(odd(*world.fleet, record).empty());
  });
  CHECK(by_books > 300);
  CHECK(by_facts > 100);  // facts after the day that is asked about
}

TEST_CASE("what an entry works out of all facts of its machines answers beside them as they do") {
  std::mt19937_64 luck(20'260'304);
  int beside = 0;
  each_world(21'000'001, 80, [&](const test::Built& world, const std::filesystem::path& file) {
    auto record = Record::open(file, Access::write);
    for (const auto& some : portions(world.facts, luck)) {
      service::BookKeeper keeper(*world.fleet, service::BookKeeper::Hold::what_is_worked_out);
      record.append(
          {}, false, [&](const std::vector<Fact>&) { return some; }, &keeper);
      const service::Day as_of = world.as_of + std::chrono::days{luck() % 2 == 0 ? 0 : 500};
      service::Extract extract = service::whole_book(record.facts({}));
      extract.derived_beside = keeper.take_worked_out_on(as_of);
      const service::Snapshot snapshot(world.fleet, std::move(extract), as_of, true);
      REQUIRE(answer(snapshot) == answer(service::take_snapshot(world.fleet, record, as_of, true)));
      CHECK(snapshot.holds_all());
      for (const auto& machine : world.fleet->machines) {
        const auto derived = snapshot.derived_of(machine.key);
        if (derived == nullptr) continue;
        ++beside;
        CHECK(derived->recorded == !snapshot.facts_of(machine.key).empty());
      }
      CHECK(keeper.take_worked_out_on(as_of).empty());
    }
  });
  CHECK(beside > 150);
}

TEST_CASE("a strike, and a strike of it, change what is kept of the machine of the struck fact") {
  std::mt19937_64 luck(20'260'302);
  int struck = 0;
  each_world(16'000'001, 60, [&](const test::Built& world, const std::filesystem::path& file) {
    auto record = Record::open(file, Access::write);
    store(record, *world.fleet, world.facts);
    std::vector<Fact> targets;
    for (const Fact& fact : world.facts) {
      if (fact.kind != service::FactKind::strike) targets.push_back(fact);
    }
    if (targets.empty()) return;
    Fact strike;
    strike.kind = service::FactKind::strike;
    strike.strikes = targets[luck() % targets.size()].id;
    strike.entered = 4'000'000'000'000;
    strike.entered_by = "ann";
    strike.origin = "strike";
    for (int i = 1; i <= 3; ++i) {
      strike.id = {service::make_command_id(4'000'000'000'000 + i, {}), 1};
      store(record, *world.fleet, {strike});
      strike.strikes = strike.id;
      the_same(world.fleet, record, world.as_of + std::chrono::days{900});
      REQUIRE(odd(*world.fleet, record).empty());
      ++struck;
    }
  });
  CHECK(struck > 100);
}

TEST_CASE("books of other fleet files are not used, and the next entry makes them anew") {
  int stale = 0;
  each_world(17'000'001, 30, [&](const test::Built& world, const std::filesystem::path& file) {
    if (world.facts.size() < 2) return;
    auto record = Record::open(file, Access::write);
    auto facts = world.facts;
    const Fact last = facts.back();
    facts.pop_back();
    store(record, *world.fleet, facts);
    auto edited = *world.fleet;
    edited.files_checksum = *edited.files_checksum + 1;
    const auto other = std::make_shared<const service::Fleet>(std::move(edited));
    const service::Day as_of = world.as_of + std::chrono::days{900};
    CHECK(used(the_same(other, record, as_of)) == 0);
    for (const auto& book : odd(*other, record)) {
      CHECK((book.why == service::OddBook::Why::stale));
      ++stale;
    }
    store(record, *other, {last});
    CHECK(odd(*other, record).empty());
    the_same(other, record, as_of);

    // Of a fleet that a program put together nothing is known to hold.
    auto made = *world.fleet;
    made.files_checksum.reset();
    CHECK(used(the_same(std::make_shared<const service::Fleet>(std::move(made)), record, as_of)) == 0);
  });
  CHECK(stale > 30);
}

TEST_CASE("a spoilt book is noticed and not used, and the next entry makes it anew") {
  int spoilt = 0;
  each_world(18'000'001, 30, [&](const test::Built& world, const std::filesystem::path& file) {
    if (world.facts.size() < 2) return;
    auto facts = world.facts;
    const Fact last = facts.back();
    facts.pop_back();
    const service::Day as_of = world.as_of + std::chrono::days{900};
    {
      auto record = Record::open(file, Access::write);
      store(record, *world.fleet, facts);
      if (used(the_same(world.fleet, record, as_of)) == 0) return;
    }
    spoil_first(file);
    {
      auto record = Record::open(file, Access::write);
      the_same(world.fleet, record, as_of);
      const auto found = odd(*world.fleet, record);
      REQUIRE(found.size() == 1);
      CHECK((found.front().why == service::OddBook::Why::spoilt));
      CHECK(service::remarks_on(found).size() == 1);
      CHECK(service::take_list_snapshot(world.fleet, record, as_of, true).derived_of(found.front().machine) == nullptr);
      ++spoilt;
      store(record, *world.fleet, {last});
      CHECK(odd(*world.fleet, record).empty());
    }
    run_sql(file, "UPDATE derived SET state = (SELECT state FROM derived ORDER BY machine DESC LIMIT 1)");
    auto record = Record::open(file, Access::write);
    the_same(world.fleet, record, as_of);
    run_sql(file, "DELETE FROM derived");
    CHECK(used(the_same(world.fleet, record, as_of)) == 0);
    for (const auto& book : odd(*world.fleet, record)) CHECK((book.why == service::OddBook::Why::missing));
  });
  CHECK(spoilt > 10);
}

TEST_CASE("a book that is whole and says something else than the facts is told") {
  class Forgetting : public service::BookKeeper {
   public:
    using BookKeeper::BookKeeper;
    std::string work_out(const std::string& machine, const service::FactTally& facts,
                         const std::vector<Fact>&) const override {
      return BookKeeper::work_out(machine, facts, {});
    }
  };
  int told = 0;
  each_world(20'000'001, 20, [&](const test::Built& world, const std::filesystem::path& file) {
    auto record = Record::open(file, Access::write);
    const Forgetting keeper(*world.fleet);
    record.append(
        {}, false, [&](const std::vector<Fact>&) { return world.facts; }, &keeper);
    const auto found = odd(*world.fleet, record);
    for (const auto& book : found) CHECK((book.why == service::OddBook::Why::differs));
    CHECK(service::remarks_on(found).size() == found.size());
    told += static_cast<int>(found.size());
  });
  CHECK(told > 10);
}

TEST_CASE("who asks a list's snapshot for all facts of a machine is told that they are not there") {
  int asked = 0;
  each_world(19'000'001, 10, [&](const test::Built& world, const std::filesystem::path& file) {
    auto record = Record::open(file, Access::write);
    store(record, *world.fleet, world.facts);
    const auto snapshot = service::take_list_snapshot(world.fleet, record, world.as_of + std::chrono::days{900}, true);
    for (const auto& machine : world.fleet->machines) {
      if (snapshot.derived_of(machine.key) == nullptr) continue;
      ++asked;
      CHECK_FALSE(snapshot.holds_all());
      try {
        (void)snapshot.facts_of(machine.key);
        FAIL("facts that were not read were handed out");
      } catch (const service::Failure& failure) {
        CHECK((failure.kind() == service::FailureKind::internal));
      }
    }
  });
  CHECK(asked > 5);
}
