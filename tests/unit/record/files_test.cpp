// Which files are records, and what is said of those that are not.
#include <doctest/doctest.h>
#include <sqlite3.h>
#include <sys/stat.h>

#include <algorithm>

#include "unit/record/support.h"

using namespace service;
using record_test::add;
using record_test::failure_of;
using record_test::Folder;
using record_test::reading;

namespace {

void run_sql(const std::filesystem::path& file, const std::string& sql) {
  sqlite3* database = nullptr;
  REQUIRE(sqlite3_open(file.c_str(), &database) == SQLITE_OK);
  const int result = sqlite3_exec(database, sql.c_str(), nullptr, nullptr, nullptr);
  sqlite3_close(database);
  REQUIRE(result == SQLITE_OK);
}

std::string opened(const std::filesystem::path& file, Access access = Access::read) {
  return failure_of([&] { Record::open(file, access); });
}

unsigned mode_of(const std::filesystem::path& file) {
  struct stat status {};
  REQUIRE(::stat(file.c_str(), &status) == 0);
  return status.st_mode & 0777U;
}

std::filesystem::path made(const Folder& folder) {
  const std::filesystem::path file = folder / "record.db";
  Record::create(file);
  auto record = Record::open(file, Access::write);
  add(record, {reading("loader", day_of(2026, 1, 1), 10, 1)});
  return file;
}

}  // namespace

TEST_CASE("a new record is empty, for its owner alone, and the only new file") {
  const Folder folder;
  for (const mode_t mask : {mode_t{022}, mode_t{0}, mode_t{0277}}) {
    const std::filesystem::path file = folder / "record.db";
    const mode_t before = ::umask(mask);
    Record::create(file);
    ::umask(before);
    CHECK(mode_of(file) == 0600);
    CHECK(folder.files() == 1);
    const auto record = Record::open(file, Access::read);
    CHECK(record.facts().empty());
    CHECK(record.machines().empty());
    CHECK_FALSE(record.newest_day().has_value());
    std::filesystem::remove(file);
  }
}

TEST_CASE("what is there already is never made anew") {
  const Folder folder;
  const std::filesystem::path file = made(folder);
  const std::string before = record_test::bytes_of(file);
  CHECK(failure_of([&] { Record::create(file); }) == "65 file-exists");
  CHECK(record_test::bytes_of(file) == before);

  record_test::write_bytes(folder / "empty", "");
  CHECK(failure_of([&] { Record::create(folder / "empty"); }) == "65 file-exists");
  CHECK(failure_of([&] { Record::create(folder.path()); }) == "65 file-exists");
  std::filesystem::create_symlink("nowhere", folder / "link");
  CHECK(failure_of([&] { Record::create(folder / "link"); }) == "65 file-exists");
  CHECK(folder.files() == 3);
}

TEST_CASE("a record cannot be made where there is no folder") {
  const Folder folder;
  CHECK(failure_of([&] { Record::create(folder / "no" / "record.db"); }) == "66 no-folder");
  record_test::write_bytes(folder / "file", "x");
  CHECK(failure_of([&] { Record::create(folder / "file" / "record.db"); }) == "66 no-folder");
  CHECK(folder.files() == 1);
}

TEST_CASE("each wrong file is refused with words of its own, and nothing is made or changed") {
  const Folder folder;
  record_test::write_bytes(folder / "empty.db", "");
  record_test::write_bytes(folder / "text.db", std::string(100, 'x') + "\nthis is a letter, and no record at all\n");
  run_sql(folder / "foreign.db", "CREATE TABLE t (a); INSERT INTO t VALUES (1)");
  std::filesystem::create_directory(folder / "folder.db");
  std::filesystem::create_symlink("nowhere", folder / "dangling.db");
  REQUIRE(::mkfifo((folder / "pipe.db").c_str(), 0600) == 0);
  std::filesystem::copy_file(made(folder), folder / "newer.db");
  run_sql(folder / "newer.db", "PRAGMA user_version = 3");
  std::filesystem::copy_file(folder / "record.db", folder / "older.db");
  run_sql(folder / "older.db", "PRAGMA user_version = 0");
  std::filesystem::copy_file(folder / "record.db", folder / "cut.db");
  std::filesystem::resize_file(folder / "cut.db", std::filesystem::file_size(folder / "cut.db") / 2);
  const int files = folder.files();
  const std::string text = record_test::bytes_of(folder / "text.db");
  const std::string foreign = record_test::bytes_of(folder / "foreign.db");

  for (const Access access : {Access::read, Access::write}) {
    CHECK(opened(folder / "missing.db", access) == "66 no-record");
    CHECK(opened(folder / "no" / "record.db", access) == "66 no-record");
    CHECK(opened(folder / "dangling.db", access) == "66 no-record");
    CHECK(opened(folder / "folder.db", access) == "65 record-is-folder");
    CHECK(opened(folder / "pipe.db", access) == "65 record-is-no-file");
    CHECK(opened(folder / "empty.db", access) == "65 record-empty");
    CHECK(opened(folder / "text.db", access) == "65 not-a-record");
    CHECK(opened(folder / "foreign.db", access) == "65 foreign-database");
    CHECK(opened(folder / "newer.db", access) == "65 newer-record");
    CHECK(opened(folder / "older.db", access) == "65 unknown-layout");
    CHECK(opened(folder / "cut.db", access) == "65 record-damaged");
    CHECK(opened(folder / "record.db", access) == "none");
  }
  CHECK(folder.files() == files);
  CHECK(record_test::bytes_of(folder / "empty.db") == "");
  CHECK(record_test::bytes_of(folder / "text.db") == text);
  CHECK(record_test::bytes_of(folder / "foreign.db") == foreign);
}

TEST_CASE("no words of the database engine reach the message") {
  const Folder folder;
  record_test::write_bytes(folder / "text.db", std::string(200, 'x'));
  try {
    Record::open(folder / "text.db", Access::read);
    FAIL("opened");
  } catch (const Failure& failure) {
    const Diagnostic& told = failure.diagnostics().front();
    for (const std::string word : {"SQL", "sql", "database", "malformed", "encrypted"}) {
      CHECK(told.message.find(word) == std::string::npos);
      CHECK(told.hint.find(word) == std::string::npos);
    }
  }
}

TEST_CASE("a record in which another tool made or dropped something is refused") {
  const Folder folder;
  const std::filesystem::path file = made(folder);
  for (const std::string change :
       {"CREATE TRIGGER t AFTER INSERT ON fact BEGIN DELETE FROM fact; END", "CREATE VIEW v AS SELECT * FROM fact",
        "CREATE TABLE other (a)", "DROP INDEX fact_of_machine", "ALTER TABLE task RENAME COLUMN name TO title",
        "CREATE INDEX more ON fact (note)", "ANALYZE"}) {
    CAPTURE(change);
    std::filesystem::copy_file(file, folder / "changed.db");
    run_sql(folder / "changed.db", change);
    CHECK(opened(folder / "changed.db") == "65 altered-record");
    std::filesystem::remove(folder / "changed.db");
  }
}

TEST_CASE("a record switched to another journal is refused to readers and switched back by a writer") {
  const Folder folder;
  const std::filesystem::path file = made(folder);
  run_sql(file, "PRAGMA journal_mode = WAL");
  CHECK(opened(file, Access::read) == "65 other-journal");
  CHECK(opened(file, Access::write) == "none");
  CHECK(opened(file, Access::read) == "none");
  CHECK(folder.files() == 1);
}

TEST_CASE("a writer sees to it that the file may be written") {
  if (::geteuid() == 0) {
    MESSAGE("the superuser may write everything; only the reader was tried");
  }
  const Folder folder;
  const std::filesystem::path file = made(folder);
  std::filesystem::permissions(file, std::filesystem::perms::owner_read);
  CHECK(opened(file, Access::read) == "none");
  if (::geteuid() != 0) CHECK(opened(file, Access::write) == "74 record-read-only");
}

TEST_CASE("a relative path and a name that means something to the engine are files like others") {
  const Folder folder;
  const auto before = std::filesystem::current_path();
  std::filesystem::current_path(folder.path());
  for (const char* name : {"record.db", ":memory:", "file:x?mode=memory"}) {
    CAPTURE(std::string(name));
    Record::create(name);
    {
      auto record = Record::open(name, Access::write);
      add(record, {reading("loader", day_of(2026, 1, 1), 10, 1)});
    }
    CHECK(Record::open(name, Access::read).facts().size() == 1);
  }
  CHECK(folder.files() == 3);
  std::filesystem::current_path(before);
}

TEST_CASE("a write that was cut short is rolled back by the next reader") {
  const Folder folder;
  const std::filesystem::path file = made(folder);
  // A journal as a killed writer leaves it: spilt to disk in the middle of a transaction, and copied from there.
  sqlite3* database = nullptr;
  REQUIRE(sqlite3_open(file.c_str(), &database) == SQLITE_OK);
  const std::string sql =
      "PRAGMA cache_size = 1; PRAGMA cache_spill = 1; BEGIN IMMEDIATE;"
      "WITH RECURSIVE c(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM c WHERE i < 2000)"
      " INSERT INTO task (name) SELECT 'task number ' || i FROM c;"
      "UPDATE book SET facts = 99";
  REQUIRE(sqlite3_exec(database, sql.c_str(), nullptr, nullptr, nullptr) == SQLITE_OK);
  const Folder copy;
  std::filesystem::copy_file(file, copy / "record.db");
  std::filesystem::copy_file(folder / "record.db-journal", copy / "record.db-journal");
  sqlite3_exec(database, "ROLLBACK", nullptr, nullptr, nullptr);
  sqlite3_close(database);
  REQUIRE(std::filesystem::file_size(copy / "record.db") > std::filesystem::file_size(file));

  CHECK(Record::open(copy / "record.db", Access::read).facts().size() == 1);
  CHECK(copy.files() == 1);
  CHECK(std::filesystem::file_size(copy / "record.db") == std::filesystem::file_size(file));
}

TEST_CASE("a backup is the same record, for its owner alone, and never written over another file") {
  const Folder folder;
  const std::filesystem::path file = made(folder);
  const auto record = Record::open(file, Access::read);
  record.backup(folder / "copy.db");
  CHECK(folder.files() == 2);
  CHECK(mode_of(folder / "copy.db") == 0600);
  CHECK(facts_to_csv(Record::open(folder / "copy.db", Access::write).facts()) == facts_to_csv(record.facts()));
  CHECK(failure_of([&] { record.backup(folder / "copy.db"); }) == "65 file-exists");
  CHECK(failure_of([&] { record.backup(file); }) == "65 file-exists");
  CHECK(failure_of([&] { record.backup(folder / "no" / "copy.db"); }) == "66 no-folder");
  CHECK(folder.files() == 2);
}

TEST_CASE("a damaged record is not backed up in silence") {
  const Folder folder;
  const std::filesystem::path file = made(folder);
  run_sql(file, "UPDATE fact SET at = at + 1");
  const auto record = Record::open(file, Access::read);
  CHECK(failure_of([&] { record.backup(folder / "copy.db"); }) == "65 damaged-fact");
  CHECK(folder.files() == 1);
}
