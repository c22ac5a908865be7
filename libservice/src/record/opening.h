// How a record is opened: the settings that durability rests on are set and read back, and a file that is not a record
// of ours, or not as we made it, is refused.
#pragma once

#include <SQLiteCpp/Database.h>

#include <chrono>
#include <cstdint>
#include <filesystem>

#include "service/record.h"

namespace service::record {

inline constexpr std::int32_t application_id = 0x77686376;

SQLite::Database open_database(const std::filesystem::path& file, Access access, std::chrono::milliseconds patience);

// The settings of a connection, for a file that need not be a record yet.
void apply_settings(SQLite::Database& database, std::chrono::milliseconds patience);

// The rollback journal, which is a property of the file. Refused where a reader meets another and cannot change it.
void apply_journal_mode(SQLite::Database& database, const std::filesystem::path& file, Access access);

// The first column of the first row, or 0.
std::int64_t number_from(SQLite::Database& database, const char* query);

}  // namespace service::record
