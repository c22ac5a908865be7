// What kinds of machines have taught, kept in the record: it is used only where it is of these very facts and files,
// and then it is what would be learnt now, bit for bit.
#include <doctest/doctest.h>
#include <sqlite3.h>

#include <functional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "service/due_list.h"
#include "service/kept_books.h"
#include "service/learnt_kind.h"
#include "support/temporary_folder.h"
#include "support/world.h"

using namespace service;
using test::day;

namespace {

constexpr const char* last_day = "2026-03-20";

std::shared_ptr<const Fleet> fleet_of(const std::vector<std::string>& machines, const std::string& more = "") {
  FleetFiles files;
  std::string& text = files.texts["fleet.yaml"] = "fleet: Test\n" + more + "machines:\n";
  for (const std::string& machine : machines) {
    text += "  " + machine + ": {schedule: " + (machine.starts_with("p") ? "pump" : "drill") + "}\n";
  }
  const std::string tasks =
      "tasks:\n  oil: {do: Oil, every: {hours: 250, months: 12}}\n  look: {do: Look, every: {months: 3}}\n";
  files.texts["schedules/drill.yaml"] = "schedule: drill\n" + tasks;
  files.texts["schedules/pump.yaml"] = "schedule: pump\nmeters: {engine: {unit: h}, strokes: {unit: k}}\n" + tasks;
  return std::make_shared<const Fleet>(read_fleet(files));
}

const std::vector<std::string> all_machines{"d-1", "d-2", "d-3", "p-1", "p-2"};

// Facts, each with a command of its own.
class Entering {
 public:
  explicit Entering(Record& record) : record_(record) {}

  Fact reading(const std::string& machine, Day on, int at) {
    Fact fact = next(FactKind::reading, machine, on);
    fact.at = Amount::units(at);
    return fact;
  }
  Fact service(const std::string& machine, Day on, int at) {
    Fact fact = next(FactKind::service, machine, on);
    fact.task = "oil";
    fact.at = Amount::units(at);
    return fact;
  }
  Fact next(FactKind kind, const std::string& machine, Day on) {
    Fact fact;
    fact.kind = kind;
    fact.machine = machine;
    fact.on = on;
    fact.entered = ++entered_;
    fact.id = {make_command_id(entered_, {}), 1};
    fact.entered_by = "ann";
    fact.origin = "test";
    return fact;
  }
  Fact strike(const Fact& target) {
    Fact fact = next(FactKind::strike, "", {});
    fact.on = {};
    fact.strikes = target.id;
    return fact;
  }

  void add(const Fleet* fleet, const std::vector<Fact>& facts) {
    const auto decide = [&](const std::vector<Fact>&) { return facts; };
    if (fleet == nullptr) {
      record_.append({}, false, decide);
    } else {
      const BookKeeper keeper(*fleet);
      record_.append({}, false, decide, &keeper);
    }
  }

  // Two years of them, uneven, of each machine; one of them stood for a while, and one is laid up with no end.
  void add_two_years(const Fleet& fleet) {
    std::vector<Fact> facts;
    int which = 0;
    for (const std::string& machine : all_machines) {
      ++which;
      int at = 10 * which;
      Day on = day("2024-03-01") + std::chrono::days{which};
      for (int i = 0; on < day(last_day); ++i) {
        facts.push_back(reading(machine, on, at));
        if (i % 5 == 4) facts.push_back(service(machine, on, at));
        const int days = 11 + (i * 7 + which * 5) % 23;
        on += std::chrono::days{days};
        at += days * (2 + which) * (i % 12 < 6 ? 3 : 1) / 3;
      }
    }
    Fact out = next(FactKind::out_of_use, "d-2", day("2025-02-10"));
    Fact back = next(FactKind::back, "d-2", day("2025-04-10"));
    Fact laid_up = next(FactKind::laid_up, "d-3", day("2025-11-20"));
    facts.push_back(out);
    facts.push_back(back);
    facts.push_back(laid_up);
    facts.push_back(reading("p-1", day(last_day), 2000));
    facts.push_back(reading("d-1", day(last_day), 1900));
    add(&fleet, facts);
  }

 private:
  Record& record_;
  std::int64_t entered_ = 1'800'000'000'000;
};

struct Keeping {
  test::TemporaryFolder folder;
  std::filesystem::path file = folder / "record.db";
  std::shared_ptr<const Fleet> fleet = fleet_of(all_machines);
  Record record = made(file);
  Entering entering{record};

  static Record made(const std::filesystem::path& file) {
    Record::create(file);
    return Record::open(file, Access::write);
  }
  Keeping() { entering.add_two_years(*fleet); }

  LearntKinds kept(const char* on = last_day) const { return kept_kinds(*fleet, record, {}, day(on)); }

  // What is kept, after it was found to be what comes out of all facts; and that `check` has nothing to say.
  LearntKinds kept_and_right(const char* on = last_day) const {
    const Snapshot whole = take_snapshot(fleet, record, day(on), true);
    LearntKinds kinds = kept(on);
    for (const auto& [schedule, kind] : kinds) {
      CHECK((kind->bytes() == learnt_now(whole, schedule)));
    }
    KeptBeside beside;
    const Legible book = record.legible(&beside);
    CHECK(odd_kinds(*fleet, book.facts, beside).empty());
    return kinds;
  }

  static std::string learnt_now(const Snapshot& snapshot, const std::string& schedule) {
    const auto kind = LearntKind::from(snapshot.fleet(), schedule,
                                       [&](const Machine& machine) { return book_of(snapshot, machine); });
    REQUIRE(kind != nullptr);
    return kind->bytes();
  }

  std::vector<OddKind> odd() const {
    KeptBeside beside;
    const Legible book = record.legible(&beside);
    return odd_kinds(*fleet, book.facts, beside);
  }

  void run(const std::string& sql) const {
    sqlite3* database = nullptr;
    REQUIRE(sqlite3_open(file.c_str(), &database) == SQLITE_OK);
    const int result = sqlite3_exec(database, sql.c_str(), nullptr, nullptr, nullptr);
    sqlite3_close(database);
    REQUIRE(result == SQLITE_OK);
  }

  // What is kept of the drills is whole, and of the first of them alone.
  void learn_drills_of_one() {
    class Forgetting : public BookKeeper {
     public:
      using BookKeeper::BookKeeper;
      std::string work_out_together(const KeptGroup& group, const std::vector<KeptState>& states) const override {
        return BookKeeper::work_out_together(group, {states.front()});
      }
    };
    const Forgetting keeper(*fleet);
    const std::vector<Fact> more{entering.reading("d-1", day(last_day), 1900)};
    record.append(
        {}, false, [&](const std::vector<Fact>&) { return more; }, &keeper);
  }

  // Another bit at a place of what is kept of a kind.
  void spoil(const std::string& schedule, int at) const {
    sqlite3* database = nullptr;
    REQUIRE(sqlite3_open(file.c_str(), &database) == SQLITE_OK);
    sqlite3_stmt* find = nullptr;
    const std::string sql = "SELECT rowid FROM derived_together WHERE name = '" + schedule + "'";
    REQUIRE(sqlite3_prepare_v2(database, sql.c_str(), -1, &find, nullptr) == SQLITE_OK);
    REQUIRE(sqlite3_step(find) == SQLITE_ROW);
    const sqlite3_int64 row = sqlite3_column_int64(find, 0);
    sqlite3_finalize(find);
    sqlite3_blob* kind = nullptr;
    REQUIRE(sqlite3_blob_open(database, "main", "derived_together", "state", row, 1, &kind) == SQLITE_OK);
    char byte = 0;
    REQUIRE(sqlite3_blob_read(kind, &byte, 1, at) == SQLITE_OK);
    byte = static_cast<char>(byte ^ 4);
    REQUIRE(sqlite3_blob_write(kind, &byte, 1, at) == SQLITE_OK);
    sqlite3_blob_close(kind);
    sqlite3_close(database);
  }
};

// Of each point when it comes due, and when that is expected.
std::vector<std::string> days_of(const DueList& list) {
  std::vector<std::string> days;
  for (const Point& point : list.points) {
    days.push_back(point.machine->key + ' ' + point.task->name + ' ' +
                   (point.due_on ? to_text(*point.due_on) : "never"));
    for (const auto& end : {point.due_span.p10, point.due_span.p50, point.due_span.p90}) {
      days.back() += ' ' + (end ? to_text(*end) : std::string("open"));
    }
  }
  return days;
}

}  // namespace

TEST_CASE("what a kind has taught depends on no day, once that is not before the newest fact") {
  const Keeping keeping;
  const std::string then =
      Keeping::learnt_now(take_snapshot(keeping.fleet, keeping.record, day(last_day), true), "drill");
  for (const char* on : {"2026-03-21", "2026-11-01", "2029-01-01"}) {
    CAPTURE(on);
    CHECK((Keeping::learnt_now(take_snapshot(keeping.fleet, keeping.record, day(on), true), "drill") == then));
    CHECK((Keeping::learnt_now(take_list_snapshot(keeping.fleet, keeping.record, day(on), true), "drill") == then));
  }
  CHECK((Keeping::learnt_now(take_snapshot(keeping.fleet, keeping.record, day("2026-03-19"), true), "drill") != then));
}

TEST_CASE("an open standstill ends with the last reading, for what is learnt") {
  const auto fleet = fleet_of({"d-1"});
  test::TemporaryFolder folder;
  Record::create(folder / "record.db");
  Record record = Record::open(folder / "record.db", Access::write);
  Entering entering(record);
  std::vector<Fact> facts;
  for (int month = 0; month < 20; ++month) {
    facts.push_back(entering.reading("d-1", day("2024-01-10") + std::chrono::days{30 * month}, 40 * month));
  }
  entering.add(nullptr, facts);
  const Day last = facts.back().on.first;
  const auto learnt = [&](Day on) { return Keeping::learnt_now(take_snapshot(fleet, record, on, true), "drill"); };
  const std::string running = learnt(last);
  entering.add(nullptr, {entering.next(FactKind::laid_up, "d-1", last - std::chrono::days{45})});
  const std::string laid_up = learnt(last);
  CHECK((laid_up != running));  // it stood in part of the last two gaps
  CHECK((learnt(last + std::chrono::days{1}) == laid_up));
  CHECK((learnt(last + std::chrono::days{300}) == laid_up));
}

TEST_CASE("kinds are kept by the transaction that adds facts, and hold from the day of the newest fact on") {
  Keeping keeping;
  CHECK(keeping.kept_and_right().size() == 2);
  CHECK(keeping.kept_and_right("2027-01-01").size() == 2);
  // Of the pumps nothing later is known than on their own last day; both kinds have that one.
  CHECK(keeping.kept("2026-03-19").empty());
  keeping.entering.add(keeping.fleet.get(), {keeping.entering.reading("d-1", day("2026-03-25"), 1910)});
  CHECK((keeping.kept().size() == 1));
  CHECK(keeping.kept().contains("pump"));
  CHECK(keeping.kept_and_right("2026-03-25").size() == 2);
  keeping.entering.add(keeping.fleet.get(),
                       {keeping.entering.reading("p-2", day("2024-12-24"), 600)});  // of a day before
  CHECK(keeping.kept_and_right("2026-03-25").size() == 2);
}

TEST_CASE("a strike, a strike of it, and facts that somebody adds who keeps nothing") {
  Keeping keeping;
  const Fact wrong = keeping.entering.reading("p-2", day("2026-03-18"), 9000);
  const std::string before = keeping.kept().at("pump")->bytes();
  keeping.entering.add(keeping.fleet.get(), {wrong});
  CHECK((keeping.kept_and_right().at("pump")->bytes() != before));
  const Fact strike = keeping.entering.strike(wrong);
  keeping.entering.add(keeping.fleet.get(), {strike});
  CHECK((keeping.kept_and_right().at("pump")->bytes() == before));
  keeping.entering.add(nullptr, {keeping.entering.strike(strike)});
  CHECK_FALSE(keeping.kept().contains("pump"));
  CHECK(keeping.kept().contains("drill"));
  keeping.entering.add(keeping.fleet.get(), {keeping.entering.next(FactKind::back, "d-3", day("2026-03-20"))});
  CHECK((keeping.kept_and_right().at("pump")->bytes() != before));
}

TEST_CASE("of other fleet files nothing is used, and the next entry learns anew; so where a machine joins or leaves") {
  Keeping keeping;
  for (const auto& machines : {std::vector<std::string>{"d-1", "d-2", "d-3", "d-4", "p-1", "p-2"},
                               std::vector<std::string>{"d-1", "d-3", "p-1", "p-2"}, all_machines}) {
    const std::string before = keeping.kept().at("drill")->bytes();
    keeping.fleet = fleet_of(machines);
    CHECK(keeping.kept().empty());
    const auto odd = keeping.odd();
    CHECK(odd.size() == 2);
    for (const OddKind& kind : odd) CHECK((kind.why == OddBook::Why::stale));
    keeping.entering.add(keeping.fleet.get(), {keeping.entering.reading("p-1", day(last_day), 2000)});
    CHECK(keeping.kept_and_right().size() == 2);
    CHECK((keeping.kept().at("drill")->bytes() != before));
  }
  // Of a schedule that no machine has any more nothing is left.
  keeping.fleet = fleet_of({"d-1", "d-2", "d-3"});
  keeping.entering.add(keeping.fleet.get(), {keeping.entering.reading("d-1", day(last_day), 1900)});
  KeptBeside beside;
  keeping.record.legible(&beside);
  CHECK(beside.groups.size() == 1);
}

TEST_CASE("what is kept of a kind from before, of another kind or with another bit is noticed and not used") {
  Keeping keeping;
  keeping.run("CREATE TABLE aside AS SELECT * FROM derived_together");
  keeping.entering.add(keeping.fleet.get(), {keeping.entering.reading("d-2", day(last_day), 1500)});
  const std::string before =
      "UPDATE derived_together SET state = (SELECT state FROM aside WHERE aside.name = derived_together.name)";
  keeping.run(before);
  CHECK_FALSE(keeping.kept().contains("drill"));  // whole, and of other facts
  CHECK(keeping.kept().contains("pump"));
  REQUIRE(keeping.odd().size() == 1);
  CHECK((keeping.odd().front().why == OddBook::Why::stale));
  CHECK(remarks_on(keeping.odd()).empty());
  keeping.run("UPDATE derived_together SET state = (SELECT state FROM aside WHERE name = 'drill')");
  CHECK(keeping.kept().empty());
  keeping.run("DELETE FROM derived_together WHERE name = 'drill'");
  CHECK((keeping.odd().front().why == OddBook::Why::missing));
  keeping.entering.add(keeping.fleet.get(), {keeping.entering.reading("p-1", day(last_day), 2000)});
  CHECK(keeping.kept_and_right().size() == 2);
  for (const int at : {0, 7, 8, 15, 16, 40, 3000}) {
    CAPTURE(at);
    keeping.spoil("drill", at);
    CHECK(keeping.kept().size() == 1);
    const auto odd = keeping.odd();
    REQUIRE(odd.size() == 1);
    CHECK((odd.front().why == OddBook::Why::spoilt));
    CHECK(remarks_on(odd).size() == 1);
    keeping.entering.add(keeping.fleet.get(), {keeping.entering.reading("p-1", day(last_day), 2000)});
    CHECK(keeping.kept_and_right().size() == 2);
  }
}

TEST_CASE("a kind that is whole and says something else than the books is told") {
  Keeping keeping;
  keeping.learn_drills_of_one();
  const auto odd = keeping.odd();
  REQUIRE(odd.size() == 1);
  CHECK((odd.front().why == OddBook::Why::differs));
  CHECK(remarks_on(odd).size() == 1);
}

TEST_CASE("of a machine of a kept kind nothing is read of its kin") {
  Keeping keeping;
  const Scope one{{{"d-1"}}};
  const Day on = day("2026-04-10");
  const auto by_kind = take_learnt_snapshot(keeping.fleet, keeping.record, on, true, one);
  const auto by_facts = take_snapshot(keeping.fleet, keeping.record, on, true, one);
  CHECK(by_kind.facts_of("d-2").empty());
  CHECK_FALSE(by_facts.facts_of("d-2").empty());
  CHECK((by_kind.facts_of("d-1").size() == by_facts.facts_of("d-1").size()));
  const auto expected = [&](const Snapshot& snapshot) {
    return days_of(due_list(snapshot, on + std::chrono::days{400}));
  };
  CHECK((expected(by_kind) == expected(by_facts)));
  // Of others of its kind nobody was asked: that would be answered as if nothing were recorded of them.
  CHECK_THROWS_AS(by_kind.within(Scope{{{"d-2"}}}), Failure);
  CHECK_THROWS_AS(by_kind.within(Scope{{{"p-1"}}}), Failure);
}

// Of a kind that says something else than the books, so that it is seen which of them was asked.
TEST_CASE("a list read machine by machine goes by the kept kind, on days on which it holds and on no others") {
  Keeping keeping;
  keeping.learn_drills_of_one();
  const auto lists = [&](const char* on, const Scope& scope) {
    const DueAsk ask{day(on) + std::chrono::days{400}};
    return std::pair{days_of(due_list_of(keeping.record, keeping.fleet, day(on), true, scope, ask)),
                     days_of(due_list(take_snapshot(keeping.fleet, keeping.record, day(on), true, scope), ask))};
  };
  const Scope all;
  for (const Scope& scope : {all, Scope{{{"d-2"}}}}) {
    const auto [held, learnt] = lists(last_day, scope);
    CHECK_FALSE((held == learnt));
    const auto [before, learnt_before] = lists("2026-03-19", scope);
    CHECK((before == learnt_before));
  }
  const auto [pump, learnt_pump] = lists(last_day, Scope{{{"p-2"}}});
  CHECK((pump == learnt_pump));
  // Something recorded without its book, of a machine that nobody asks about.
  keeping.entering.add(nullptr, {keeping.entering.reading("d-3", day(last_day), 4000)});
  const auto [lost, learnt_anew] = lists(last_day, Scope{{{"d-2"}}});
  CHECK((lost == learnt_anew));
}

TEST_CASE("bytes of any kind are read, or are none") {
  const Keeping keeping;
  const std::string bytes = keeping.kept().at("pump")->bytes();
  REQUIRE(LearntKind::read(bytes) != nullptr);
  CHECK((LearntKind::read(bytes)->bytes() == bytes));
  for (std::size_t size = 0; size < bytes.size(); size += size < 400 ? 1 : 97) {
    CAPTURE(size);
    CHECK((LearntKind::read(bytes.substr(0, size)) == nullptr));
  }
  CHECK((LearntKind::read(bytes + '\0') == nullptr));
  // Numbers of anything, in all places: it is read as something or as nothing, and goes nowhere beyond its end.
  for (std::size_t at = 0; at < 400; ++at) {
    std::string other = bytes;
    other[at] = static_cast<char>(other[at] ^ 0x81);
    const auto read = LearntKind::read(other);
    if (read != nullptr) CHECK((read->bytes() == other));
  }
}
