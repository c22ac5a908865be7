// A record that is open for reading, or that another program holds.
#include <doctest/doctest.h>
#include <sqlite3.h>

#include "unit/record/support.h"

using namespace service;
using record_test::add;
using record_test::failure_of;
using record_test::Folder;
using record_test::new_record;
using record_test::reading;

namespace {

const Day day = day_of(2026, 1, 1);

}  // namespace

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
