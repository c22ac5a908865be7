// New facts into the database, within one transaction.
#pragma once

#include <SQLiteCpp/Database.h>

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <unordered_map>
#include <vector>

#include "record/reading.h"

namespace service::record {

// Adds those whose id is not there yet, and returns them in the given order. Throws without having cleaned up: whoever
// owns the transaction lets it roll back.
class FactWriter {
 public:
  // `watch`: to be told how far storing is.
  explicit FactWriter(SQLite::Database& database, const RecordProgress* watch = nullptr);

  std::vector<Fact> add(std::vector<Fact> wanted);

  // All machines, of which `before` are those there were before: their table need not be read again.
  std::vector<MachineRow> machines_after(const std::vector<MachineRow>& before) const;

 private:
  struct Command {
    std::int64_t key = 0;
    bool is_new = false;
  };

  Command command_of(const Fact& fact);
  bool is_stored(const Command& command, const Fact& fact, std::uint64_t checksum);
  MachineRow& machine_of(const std::string& name);
  std::int64_t task_of(const std::string& name);
  void store(const Command& command, const Fact& fact, std::uint64_t checksum);
  void touch_struck(FactId strike, std::optional<FactId> target);
  void finish();

  SQLite::Database& database_;
  const RecordProgress* watch_;
  SQLite::Statement insert_fact_;
  SQLite::Statement find_fact_;
  MachineRows machine_rows_;
  std::unordered_map<std::string, MachineRow> machines_;  // those touched
  std::set<std::int64_t> touched_;                        // machines of which something else is known now
  std::unordered_map<std::string, std::int64_t> tasks_;
  BookRow book_;
  std::int64_t next_machine_ = 0;
};

}  // namespace service::record
