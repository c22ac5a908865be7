#include "record/copying.h"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/Exception.h>
#include <sqlite3.h>

#include <chrono>
#include <system_error>

#include "record/errors.h"
#include "record/files.h"
#include "record/opening.h"
#include "service/record.h"

namespace service::record {
namespace {

namespace fs = std::filesystem;

void copy_pages(SQLite::Database& from, const fs::path& part) {
  SQLite::Database copy(fs::absolute(part).string(), SQLite::OPEN_READWRITE);
  apply_settings(copy, std::chrono::seconds(10));
  SQLite::Backup backup(copy, from);
  // All pages in one step, which holds writers off: the copy is of one moment.
  if (const int result = backup.executeStep(-1); result != SQLITE_DONE)
    throw SQLite::Exception(copy.getHandle(), result);
}

}  // namespace

void copy_database(SQLite::Database& from, const fs::path& from_file, const fs::path& target) {
  NewFile made(target);
  const fs::path& part = made.path();
  guarded(from_file, Doing::reading, [&] { copy_pages(from, part); });
  const Legible copied = Record::open(part, Access::read).legible();
  if (!copied.diagnostics.empty()) throw Failure(FailureKind::bad_data, copied.diagnostics);
  // Whoever may read the record may read its copy, and nobody else.
  std::error_code error;
  const fs::file_status mode = fs::status(from_file, error);
  if (!error) fs::permissions(part, mode.permissions() & fs::perms::all, error);
  if (error) {
    throw Failure(FailureKind::io, {"cannot-create", "the copy cannot be given the mode of the record",
                                    "look at the permissions of its folder"});
  }
  made.keep();
}

}  // namespace service::record
