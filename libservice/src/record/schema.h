// The tables as the migrations make them, and as a file has them.
#pragma once

#include <SQLiteCpp/Database.h>

namespace service::record {

// True where the file has our tables and indexes to the letter, and nothing else: no trigger, no view, no other table.
bool has_our_schema(SQLite::Database& database);

}  // namespace service::record
