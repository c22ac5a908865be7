#include "record/opening.h"

#include <SQLiteCpp/Statement.h>
#include <SQLiteCpp/Transaction.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include <string>

#include "record/errors.h"
#include "record/migrations.gen.h"
#include "record/schema.h"

namespace service::record {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void refuse(FailureKind kind, const char* code, std::string message, std::string hint) {
  throw Failure(kind, {code, std::move(message), std::move(hint)});
}

// Looks at the file without opening it: a file descriptor of our own on it, once closed, would drop the engine's locks.
void check_file(const fs::path& file) {
  const std::string name = name_of(file);
  std::error_code error;
  const fs::file_status status = fs::status(file, error);
  if (status.type() == fs::file_type::not_found) {
    refuse(FailureKind::not_found, "no-record", fmt::format("there is no record {}", name),
           "look at the path of the fleet folder; `new` makes a record");
  }
  if (status.type() == fs::file_type::directory) {
    refuse(FailureKind::bad_data, "record-is-folder", fmt::format("{} is a folder, not a record", name),
           "give the record itself, mostly record.db in the fleet folder");
  }
  if (error || status.type() == fs::file_type::none || status.type() == fs::file_type::unknown) {
    refuse(FailureKind::io, "record-unreadable", fmt::format("the record {} cannot be reached", name),
           "look at the permissions of its folders");
  }
  if (status.type() != fs::file_type::regular) {
    refuse(FailureKind::bad_data, "record-is-no-file", fmt::format("{} is not a regular file", name),
           "give the record itself, mostly record.db in the fleet folder");
  }
  if (fs::file_size(file, error) == 0 && !error) {
    refuse(FailureKind::bad_data, "record-empty", fmt::format("{} is an empty file, not a record", name),
           "restore a backup; or remove the empty file and make a record with `new`");
  }
}

// Sets it, and refuses to go on where it did not take.
void insist(SQLite::Database& database, const char* pragma, std::int64_t value) {
  database.exec(fmt::format("PRAGMA {} = {}", pragma, value));
  if (number_from(database, fmt::format("PRAGMA {}", pragma).c_str()) != value) {
    refuse(FailureKind::internal, "record-setting", fmt::format("the setting {} of the record did not take", pragma),
           "please report this with the version of the system");
  }
}

void insist_option(SQLite::Database& database, int option, int value) {
  int now = -1;
  const int result = sqlite3_db_config(database.getHandle(), option, value, &now);
  if (result != SQLITE_OK || now != value) {
    refuse(FailureKind::internal, "record-setting", "a safety setting of the record did not take",
           "please report this with the version of the system");
  }
}

void check_identity(SQLite::Database& database, const fs::path& file) {
  const std::string name = name_of(file);
  if (number_from(database, "PRAGMA application_id") != application_id) {
    refuse(FailureKind::bad_data, "foreign-database", fmt::format("{} is a database of another program", name),
           "give the record itself, mostly record.db in the fleet folder");
  }
  const std::int64_t version = number_from(database, "PRAGMA user_version");
  const auto newest = static_cast<std::int64_t>(migrations.size());
  if (version > newest) {
    refuse(FailureKind::bad_data, "newer-record",
           fmt::format("{} was written by a newer version (layout {}, and this one knows {})", name, version, newest),
           "use that version here too");
  }
  if (version != newest) {
    refuse(FailureKind::bad_data, "unknown-layout",
           fmt::format("{} has a layout that was never made ({})", name, version), backup_hint);
  }
}

void check_schema(SQLite::Database& database, const fs::path& file) {
  if (has_our_schema(database)) return;
  refuse(FailureKind::bad_data, "altered-record",
         fmt::format("the tables of {} are not as they were made; another tool has changed them", name_of(file)),
         backup_hint);
}

SQLite::Database connect(const fs::path& file, Access access, std::chrono::milliseconds patience) {
  // An absolute path can be neither `:memory:` nor a URI.
  // One thread at a time uses a Record, so the engine need not lock its own memory.
  SQLite::Database database(
      fs::absolute(file).string(),
      (access == Access::read ? SQLite::OPEN_READONLY : SQLite::OPEN_READWRITE) | SQLite::OPEN_NOMUTEX);
  apply_settings(database, patience);
  {
    const SQLite::Transaction view(database);  // one lock for all that is looked at
    check_identity(database, file);
    check_schema(database, file);
  }
  if (access == Access::write && sqlite3_db_readonly(database.getHandle(), "main") != 0) {
    refuse(FailureKind::io, "record-read-only", fmt::format("the record {} may not be written", name_of(file)),
           "look at the permissions of the file and of its folder");
  }
  apply_journal_mode(database, file, access);
  return database;
}

// A reader cannot roll back a write that was cut short; where the file may be written, it is done for him here.
SQLite::Database connect_for_reading(const fs::path& file, std::chrono::milliseconds patience) {
  try {
    return connect(file, Access::read, patience);
  } catch (const SQLite::Exception& error) {
    if (!needs_recovery(error)) throw;
  }
  { const SQLite::Database rolled_back = connect(file, Access::write, patience); }
  return connect(file, Access::read, patience);
}

}  // namespace

std::int64_t number_from(SQLite::Database& database, const char* query) {
  SQLite::Statement statement(database, query);
  return statement.executeStep() ? statement.getColumn(0).getInt64() : 0;
}

void apply_settings(SQLite::Database& database, std::chrono::milliseconds patience) {
  sqlite3_extended_result_codes(database.getHandle(), 1);
  insist_option(database, SQLITE_DBCONFIG_DEFENSIVE, 1);
  insist_option(database, SQLITE_DBCONFIG_DQS_DML, 0);
  insist_option(database, SQLITE_DBCONFIG_DQS_DDL, 0);
  insist_option(database, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0);
  insist(database, "busy_timeout", patience.count());
  insist(database, "trusted_schema", 0);
  insist(database, "cell_size_check", 1);
  insist(database, "mmap_size", 0);
  insist(database, "foreign_keys", 1);
  insist(database, "synchronous", 3);
  database.exec("PRAGMA cache_size = -131072");  // an upper limit, for imports
}

void apply_journal_mode(SQLite::Database& database, const fs::path& file, Access access) {
  SQLite::Statement journal(database, access == Access::read ? "PRAGMA journal_mode" : "PRAGMA journal_mode = DELETE");
  if (journal.executeStep() && journal.getColumn(0).getString() == "delete") return;
  refuse(FailureKind::bad_data, "other-journal",
         fmt::format("another tool has switched {} to another way of writing", name_of(file)),
         "record something once as the owner of the record, which switches it back");
}

SQLite::Database open_database(const fs::path& file, Access access, std::chrono::milliseconds patience) {
  check_file(file);
  return guarded(file, Doing::opening, [&] {
    return access == Access::read ? connect_for_reading(file, patience) : connect(file, access, patience);
  });
}

}  // namespace service::record
