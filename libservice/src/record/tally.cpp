#include "record/tally.h"

#include <algorithm>
#include <bit>

#include "base/checksum.h"

namespace service::record {
namespace {

void add(Checksum& seal, const Tally& tally) {
  seal.add(tally.facts);
  seal.add(tally.checksums);
  seal.add(tally.newest);
}

std::int64_t seal_of(const BookRow& book) {
  Checksum seal;
  seal.add(book.machines);
  add(seal, book.tally);
  return std::bit_cast<std::int64_t>(seal.value());
}

std::int64_t seal_of(const MachineRow& machine) {
  Checksum seal;
  seal.add(machine.key);
  seal.add(machine.name);
  add(seal, machine.tally);
  return std::bit_cast<std::int64_t>(seal.value());
}

Tally tally_at(const SQLite::Statement& row, int column) {
  Tally tally;
  tally.facts = row.getColumn(column).getInt64();
  tally.checksums = std::bit_cast<std::uint64_t>(row.getColumn(column + 1).getInt64());
  if (!row.getColumn(column + 2).isNull()) tally.newest = row.getColumn(column + 2).getInt64();
  return tally;
}

void bind(SQLite::Statement& statement, int at, const Tally& tally) {
  statement.bind(at, tally.facts);
  statement.bind(at + 1, std::bit_cast<std::int64_t>(tally.checksums));
  if (tally.newest) {
    statement.bind(at + 2, *tally.newest);
  } else {
    statement.bind(at + 2);
  }
}

MachineRow machine_at(const SQLite::Statement& row) {
  MachineRow machine;
  machine.key = row.getColumn(0).getInt64();
  machine.name = row.getColumn(1).getString();
  machine.tally = tally_at(row, 2);
  machine.sealed = seal_of(machine) == row.getColumn(5).getInt64();
  return machine;
}

}  // namespace

void Tally::count(const Fact& fact, std::uint64_t checksum) {
  ++facts;
  checksums += checksum;
  if (!has_day(fact)) return;
  const std::int64_t day = fact.on.first.time_since_epoch().count();
  newest = newest ? std::max(*newest, day) : day;
}

void Tally::count(const Tally& other) {
  facts += other.facts;
  checksums += other.checksums;
  if (other.newest) newest = newest ? std::max(*newest, *other.newest) : *other.newest;
}

BookRow read_book(SQLite::Database& database) {
  SQLite::Statement query(database, "SELECT machines, facts, checksums, newest, seal FROM book WHERE one = 1");
  BookRow book;
  book.sealed = false;
  if (query.executeStep()) {
    book.machines = query.getColumn(0).getInt64();
    book.tally = tally_at(query, 1);
    book.sealed = seal_of(book) == query.getColumn(4).getInt64();
  }
  return book;
}

std::vector<MachineRow> read_machines(SQLite::Database& database) {
  SQLite::Statement query(database,
                          "SELECT key, name, facts, checksums, newest, seal FROM machine NOT INDEXED ORDER BY key");
  std::vector<MachineRow> machines;
  while (query.executeStep()) machines.push_back(machine_at(query));
  return machines;
}

std::optional<MachineRow> MachineRows::find(std::string_view name) {
  if (!find_) find_.emplace(database_, "SELECT key, name, facts, checksums, newest, seal FROM machine WHERE name = ?");
  find_->reset();
  find_->bind(1, std::string(name));
  std::optional<MachineRow> found;
  if (find_->executeStep()) found = machine_at(*find_);
  find_->reset();
  return found;
}

void write_first_book(SQLite::Database& database) {
  SQLite::Statement insert(database,
                           "INSERT INTO book (one, machines, facts, checksums, newest, seal) "
                           "VALUES (1, 0, 0, 0, NULL, ?)");
  insert.bind(1, seal_of(BookRow{}));
  insert.exec();
}

void write_book(SQLite::Database& database, const BookRow& book) {
  SQLite::Statement update(database, "UPDATE book SET machines = ?, facts = ?, checksums = ?, newest = ?, seal = ?");
  update.bind(1, book.machines);
  bind(update, 2, book.tally);
  update.bind(5, seal_of(book));
  update.exec();
}

void MachineRows::write(const MachineRow& machine) {
  if (!write_) {
    write_.emplace(database_,
                   "INSERT INTO machine (key, name, facts, checksums, newest, seal) VALUES (?, ?, ?, ?, ?, ?) "
                   "ON CONFLICT (key) DO UPDATE SET facts = excluded.facts, checksums = excluded.checksums, "
                   "newest = excluded.newest, seal = excluded.seal");
  }
  write_->reset();
  write_->bind(1, machine.key);
  write_->bind(2, machine.name);
  bind(*write_, 3, machine.tally);
  write_->bind(6, seal_of(machine));
  write_->exec();
}

}  // namespace service::record
