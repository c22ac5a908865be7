// Bit rot: whatever single bit of a record is flipped, the answers stay the same or the damage is told.
#include <doctest/doctest.h>
#include <sqlite3.h>

#include <algorithm>
#include <map>

#include "unit/record/support.h"

using namespace service;
using record_test::Folder;

namespace {

#ifndef FLIP_STEP
#define FLIP_STEP 97  // a prime, so that every bit of a byte and every field has its turn; 1 tries all of them
#endif

// A record of small pages, so that few facts make trees of several levels.
std::filesystem::path small_record(const Folder& folder) {
  const std::filesystem::path file = folder / "record.db";
  Record::create(file);
  {
    auto record = Record::open(file, Access::write);
    record_test::add(record, record_test::hard_facts());
    for (int i = 0; i < 12; ++i) {
      record_test::add(record, {record_test::reading("m-" + std::to_string(i % 3),
                                                     day_of(2026, 1, 1 + static_cast<unsigned>(i)), i, 10 + i)});
    }
  }
  sqlite3* database = nullptr;
  REQUIRE(sqlite3_open(file.c_str(), &database) == SQLITE_OK);
  REQUIRE(sqlite3_exec(database, "PRAGMA page_size = 512; VACUUM", nullptr, nullptr, nullptr) == SQLITE_OK);
  sqlite3_close(database);
  return file;
}

// All that a record answers, in one text.
std::string answers(const std::filesystem::path& file) {
  const auto record = Record::open(file, Access::read, std::chrono::milliseconds(0));
  std::string all = facts_to_csv(record.facts());
  for (const std::string& machine : record.machines()) {
    all += machine + "\n" + facts_to_csv(record.facts(Scope{{{machine}}}));
  }
  all += facts_to_csv(record.facts(Scope{{{"m-1", "loader", "nobody"}}}));
  const auto newest = record.newest_day();
  all += newest ? to_text(*newest) : "none";
  return all;
}

// "same", "told", or what went wrong.
std::string outcome(const std::filesystem::path& file, const std::string& expected) {
  try {
    return answers(file) == expected ? "same" : "a wrong answer";
  } catch (const Failure& failure) {
    const bool is_fitting = failure.kind() == FailureKind::bad_data || failure.kind() == FailureKind::io;
    return is_fitting ? "told" : "told as " + std::to_string(static_cast<int>(failure.kind()));
  } catch (const std::exception& error) {
    return std::string("thrown: ") + error.what();
  }
}

void flip(const std::filesystem::path& file, std::size_t bit, const std::string& bytes) {
  std::fstream out(file, std::ios::binary | std::ios::in | std::ios::out);
  out.seekp(static_cast<std::streamoff>(bit / 8));
  out.put(static_cast<char>(bytes[bit / 8] ^ (1 << bit % 8)));
}

void restore(const std::filesystem::path& file, std::size_t bit, const std::string& bytes) {
  std::fstream out(file, std::ios::binary | std::ios::in | std::ios::out);
  out.seekp(static_cast<std::streamoff>(bit / 8));
  out.put(bytes[bit / 8]);
}

void run_sql(const std::filesystem::path& file, const std::string& sql) {
  sqlite3* database = nullptr;
  REQUIRE(sqlite3_open(file.c_str(), &database) == SQLITE_OK);
  const int result = sqlite3_exec(database, sql.c_str(), nullptr, nullptr, nullptr);
  sqlite3_close(database);
  REQUIRE(result == SQLITE_OK);
}

}  // namespace

TEST_CASE("a flipped bit changes no answer or is told") {
  const Folder folder;
  const std::filesystem::path file = small_record(folder);
  const std::string bytes = record_test::bytes_of(file);
  const std::string expected = answers(file);
  std::map<std::string, int> outcomes;
  constexpr std::size_t file_header = 100 * 8;  // whose every bit is tried
  for (std::size_t bit = 0; bit < bytes.size() * 8; bit += bit < file_header ? 1 : FLIP_STEP) {
    flip(file, bit, bytes);
    const std::string found = outcome(file, expected);
    ++outcomes[found];
    if (found != "same" && found != "told") {
      CAPTURE(bit);
      CHECK(found == "same or told");
    }
    restore(file, bit, bytes);
  }
  REQUIRE(record_test::bytes_of(file) == bytes);
  CHECK(outcomes["told"] > outcomes["same"] / 4);  // most of the file matters, or the test would show nothing
}

TEST_CASE("a changed value, a lost row and a swapped name are each told") {
  const Folder folder;
  const std::filesystem::path file = small_record(folder);
  const std::string bytes = record_test::bytes_of(file);
  for (const std::string change : {"UPDATE fact SET at = at + 1 WHERE at = 100",
                                   "UPDATE fact SET first_day = first_day - 1 WHERE at = 100",
                                   "UPDATE fact SET note = note || ' ' WHERE kind = 8",
                                   "UPDATE fact SET unit = 'mm' WHERE kind = 4",
                                   "UPDATE fact SET kind = 9 WHERE kind = 8",
                                   "UPDATE fact SET strikes_n = 2 WHERE strikes_n = 1",
                                   "UPDATE fact SET machine = (SELECT max(key) FROM machine) WHERE at = 100",
                                   "UPDATE fact SET task = (SELECT max(key) FROM task) WHERE at = 100",
                                   "UPDATE fact SET checksum = checksum + 1 WHERE at = 100",
                                   "DELETE FROM fact WHERE at = 100",
                                   "DELETE FROM fact WHERE machine = (SELECT key FROM machine WHERE name = '')",
                                   "UPDATE machine SET name = 'm-x' WHERE name = 'm-1'",
                                   "UPDATE machine SET facts = facts - 1 WHERE name = 'm-1'",
                                   "UPDATE task SET name = 'oil' WHERE name = 'oil/check'",
                                   "UPDATE command SET entered = entered + 1",
                                   "UPDATE command SET entered_by = 'bob'",
                                   "UPDATE command SET origin = 'import' WHERE key = 3",
                                   "UPDATE command SET id = zeroblob(16) WHERE key = 3",
                                   "UPDATE book SET facts = 0",
                                   "UPDATE book SET newest = 1",
                                   "DELETE FROM book",
                                   "DELETE FROM fact WHERE machine = (SELECT key FROM machine WHERE name = 'm-1');"
                                   "DELETE FROM machine WHERE name = 'm-1'",
                                   "DELETE FROM fact; DELETE FROM command; DELETE FROM machine; DELETE FROM task"}) {
    CAPTURE(change);
    run_sql(file, change);
    CHECK(record_test::failure_of([&] { answers(file); }).substr(0, 3) == "65 ");
    record_test::write_bytes(file, bytes);
  }
}

TEST_CASE("damage names the fact and the machine, and says what to do") {
  const Folder folder;
  const std::filesystem::path file = small_record(folder);
  run_sql(file, "UPDATE fact SET at = at + 1 WHERE at = 100");
  try {
    (void)Record::open(file, Access::read).facts();
    FAIL("the damage went unseen");
  } catch (const Failure& failure) {
    REQUIRE(failure.diagnostics().size() == 2);
    const Diagnostic& told = failure.diagnostics().front();
    CHECK(told.code == "damaged-fact");
    CHECK(told.message.find(to_text(record_test::fact_id(11, 1))) != std::string::npos);
    CHECK(told.message.find("m-1") != std::string::npos);
    CHECK(told.hint.find("backup") != std::string::npos);
    CHECK(failure.diagnostics()[1].message == "the record holds 3 facts about m-1, and 4 were stored");
  }
}

TEST_CASE("damage to one machine leaves the answers about another, and is told by whoever asks about all") {
  const Folder folder;
  const std::filesystem::path file = small_record(folder);
  run_sql(file, "UPDATE fact SET at = at + 1 WHERE at = 100");
  auto record = Record::open(file, Access::write);
  CHECK(record.facts(Scope{{{"m-2"}}}).size() == 4 + 3);
  CHECK(record_test::failure_of([&] { (void)record.facts(Scope{{{"m-1"}}}); }) == "65 damaged-fact");
  // New facts about the sound one do not hide it.
  record.append(Scope{{{"m-2"}}}, false, [](const std::vector<Fact>&) {
    return std::vector<Fact>{record_test::reading("m-2", day_of(2026, 2, 1), 500, 500)};
  });
  CHECK(record_test::failure_of([&] { (void)record.facts(); }) == "65 damaged-fact");
}

TEST_CASE("what is still legible can be had beside the damage") {
  const Folder folder;
  const std::filesystem::path file = small_record(folder);
  const auto before = Record::open(file, Access::read).facts().size();
  run_sql(file, "UPDATE fact SET at = at + 1 WHERE at = 100");
  const Legible legible = Record::open(file, Access::read).legible();
  CHECK(legible.facts.size() == before - 1);
  CHECK(legible.diagnostics.size() == 2);
}

TEST_CASE("a torn page in the middle still leaves facts on both sides of it legible") {
  const Folder folder;
  const std::filesystem::path file = folder / "record.db";
  Record::create(file);
  {
    auto record = Record::open(file, Access::write);
    for (int i = 1; i <= 40; ++i) {
      std::vector<Fact> facts;
      for (int n = 1; n <= 20; ++n) facts.push_back(record_test::reading("loader", day_of(2026, 1, 1), i, i, n));
      record_test::add(record, facts);
    }
  }
  std::string bytes = record_test::bytes_of(file);
  // The page that holds a fact of the twentieth command, found by what it holds: its kind of page, and its checksum.
  std::size_t torn = 0;
  sqlite3* database = nullptr;
  REQUIRE(sqlite3_open(file.c_str(), &database) == SQLITE_OK);
  sqlite3_stmt* statement = nullptr;
  REQUIRE(sqlite3_prepare_v2(database, "SELECT checksum FROM fact WHERE command = 20 AND n = 10", -1, &statement,
                             nullptr) == SQLITE_OK);
  REQUIRE(sqlite3_step(statement) == SQLITE_ROW);
  const auto checksum = static_cast<std::uint64_t>(sqlite3_column_int64(statement, 0));
  sqlite3_finalize(statement);
  sqlite3_close(database);
  std::string big_endian;
  for (int shift = 56; shift >= 0; shift -= 8) big_endian += static_cast<char>(checksum >> shift & 0xffU);
  torn = bytes.find(big_endian) / 4096 * 4096;
  REQUIRE(torn > 0);
  std::fill_n(bytes.begin() + static_cast<std::ptrdiff_t>(torn), 4096, '\xa5');
  record_test::write_bytes(file, bytes);

  const auto record = Record::open(file, Access::read);
  CHECK(record_test::failure_of([&] { (void)record.facts(); }).substr(0, 3) == "65 ");
  const Legible legible = record.legible();
  CHECK_FALSE(legible.diagnostics.empty());
  bool has_first = false;
  bool has_last = false;
  for (const Fact& fact : legible.facts) {
    has_first = has_first || fact.at == Amount::units(1);
    has_last = has_last || fact.at == Amount::units(40);
  }
  CHECK(has_first);
  CHECK(has_last);
  CHECK(legible.facts.size() > 600);
  CHECK(legible.facts.size() < 800);
}

TEST_CASE("each question by itself tells the damage that it meets") {
  const Folder folder;
  const std::filesystem::path file = small_record(folder);
  const std::string bytes = record_test::bytes_of(file);
  run_sql(file, "UPDATE machine SET name = 'm-x' WHERE name = 'm-1'");
  CHECK(record_test::failure_of([&] { (void)Record::open(file, Access::read).machines(); }) == "65 damaged-machine");
  CHECK(record_test::failure_of([&] { (void)Record::open(file, Access::read).facts(Scope{{{"m-1"}}}); }) ==
        "65 damaged-machine");
  record_test::write_bytes(file, bytes);
  run_sql(file, "UPDATE book SET newest = newest - 1");
  CHECK(record_test::failure_of([&] { (void)Record::open(file, Access::read).newest_day(); }) == "65 damaged-book");
  CHECK(record_test::failure_of([&] {
          auto record = Record::open(file, Access::write);
          record.append(Scope{{{"m-1"}}}, false, [](const auto&) { return std::vector<Fact>{}; });
        }) == "65 damaged-book");
}

TEST_CASE("a machine whose rows went back to an older state is told") {
  const Folder folder;
  const std::filesystem::path file = small_record(folder);
  std::filesystem::copy_file(file, folder / "older.db");
  {
    auto record = Record::open(file, Access::write);
    record_test::add(record, {record_test::reading("m-1", day_of(2026, 2, 1), 500, 500)});
  }
  // Row and facts of the machine agree with each other again, and the row with its seal.
  run_sql(file, "ATTACH '" + (folder / "older.db").string() +
                    "' AS older;"
                    "DELETE FROM fact WHERE at = 50000;"
                    "UPDATE main.machine SET (facts, checksums, newest, seal) ="
                    " (SELECT facts, checksums, newest, seal FROM older.machine WHERE name = 'm-1')"
                    " WHERE name = 'm-1'");
  CHECK(record_test::failure_of([&] { (void)Record::open(file, Access::read).facts(); }) == "65 missing-facts");
}
