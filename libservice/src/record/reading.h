// Facts out of the database, with every row and every tally verified.
#pragma once

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <utility>
#include <vector>

#include "record/rows.h"
#include "record/tally.h"
#include "service/kept_state.h"
#include "service/progress.h"

namespace service::record {

// Lives within one transaction. Damage is collected rather than thrown, so that `legible` can go on past it.
class FactReader {
 public:
  // `watch`: to be told how far reading all of them is.
  explicit FactReader(SQLite::Database& database, const RecordProgress* watch = nullptr);

  void read_all();
  void read_legible();  // as far as the file can be read, from both ends
  void read_machine(std::string_view name);
  KeptBeside read_beside();  // as far as it can be read

  // All machines, verified against the book.
  std::vector<MachineRow> machines();

  // The same as they were when a name was looked for among them; null: none was.
  const std::vector<MachineRow>* listed() const;

  void sort();
  std::vector<Fact> facts;  // in the one order after sort()
  std::vector<Diagnostic> diagnostics;

 private:
  struct Seen {
    MachineRow row;
    Tally tally;
  };
  struct Listed {
    std::vector<MachineRow> rows;
    std::unordered_set<std::string_view> names;  // of the rows
  };

  void note(std::string code, std::string message);
  void load_machines();
  void scan(SQLite::Statement& query);
  void scan_forwards();
  void scan_backwards();
  void compare_all();
  template <class Action>
  bool past_damage(Action&& action);
  void compare(const Tally& stored, const Tally& seen, const std::string& machine);
  // The whole fact of a row, with the names and the command it refers to; nothing (and damage noted) where the row does
  // not agree with its checksum.
  std::optional<Fact> whole(RawFact raw, const std::string& machine);
  const std::string& task_name(std::int64_t key);
  bool is_listed(std::string_view machine);
  bool add_command(std::int64_t key, Fact& fact);

  SQLite::Database& database_;
  const RecordProgress* watch_;
  SQLite::Statement command_query_;
  SQLite::Statement task_query_;
  std::optional<SQLite::Statement> machine_query_;
  std::optional<MachineRows> machine_rows_;
  std::optional<Listed> listed_;
  std::unordered_map<std::int64_t, std::string> task_names_;
  std::int64_t command_key_ = 0;  // facts of one command mostly come together
  Fact command_;
  bool verified_machines_ = false;
  std::vector<Seen> seen_;                   // by key, for reading all
  std::pair<std::int64_t, int> last_{0, 0};  // command and number of the last row scanned
};

}  // namespace service::record
