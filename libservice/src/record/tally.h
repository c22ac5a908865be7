// Tallies: how many facts there are, of each machine and in all. A fact that has gone missing has no checksum that
// could disagree; the tally does. Each tally has a seal, a checksum of its own row.
#pragma once

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/record.h"

namespace service::record {

struct Tally {
  std::int64_t facts = 0;
  std::uint64_t checksums = 0;         // the sum of theirs
  std::optional<std::int64_t> newest;  // effective day

  void count(const Fact& fact, std::uint64_t checksum);
  void count(const Tally& other);
  friend bool operator==(const Tally&, const Tally&) = default;
};

// A machine of which something is recorded. The one without a name stands for the facts that have no machine.
struct MachineRow {
  std::int64_t key = 0;
  std::string name;
  Tally tally;
  bool sealed = true;  // false: the row is damaged
};

struct BookRow {
  std::int64_t machines = 0;
  Tally tally;
  bool sealed = true;
};

BookRow read_book(SQLite::Database& database);
std::vector<MachineRow> read_machines(SQLite::Database& database);  // by key

void write_first_book(SQLite::Database& database);
void write_book(SQLite::Database& database, const BookRow& book);

// Single rows of the table of machines, by statements that are prepared once: a fleet has thousands.
class MachineRows {
 public:
  explicit MachineRows(SQLite::Database& database) : database_(database) {}

  std::optional<MachineRow> find(std::string_view name);
  void write(const MachineRow& machine);  // a new one, or one that has changed

 private:
  SQLite::Database& database_;
  std::optional<SQLite::Statement> find_;
  std::optional<SQLite::Statement> write_;
};

}  // namespace service::record
