// A fact as a row: the one place that knows which column of the table holds what.
#pragma once

#include <SQLiteCpp/Statement.h>

#include <cstdint>
#include <optional>
#include <string>

#include "service/record.h"

namespace service::record {

// Selects what fact_at() reads, with `rest` (WHERE, ORDER BY) behind it.
std::string select_facts(const char* rest);

// What a row says besides the fact: keys of other tables, and the checksum over it all.
struct RowKeys {
  std::int64_t command = 0;
  std::int64_t machine = 0;
  std::int64_t task = 0;
  std::uint64_t checksum = 0;
};

struct RawFact {
  RowKeys keys;
  Fact fact;             // without what other tables say
  bool readable = true;  // false: a value is outside of what could have been stored
};

RawFact fact_at(const SQLite::Statement& row);

// Inserts what bind_fact() binds: the texts stay where they are, so the fact must be there until it is executed.
std::string insert_fact();
void bind_fact(SQLite::Statement& insert, const RowKeys& keys, const Fact& fact);

// A 16-byte id from a column, or nothing where it holds something else.
std::optional<CommandId> command_id_at(const SQLite::Statement& row, int column);
void bind_command_id(SQLite::Statement& statement, int index, const CommandId& id);

}  // namespace service::record
