// A copy of a whole record.
#pragma once

#include <SQLiteCpp/Database.h>

#include <filesystem>

namespace service::record {

// Copies to a new file beside the target, verifies it there, and gives it its name when it is whole and on the disk.
void copy_database(SQLite::Database& from, const std::filesystem::path& from_file, const std::filesystem::path& target);

}  // namespace service::record
