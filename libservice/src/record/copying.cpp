#include "record/copying.h"

#include <SQLiteCpp/Backup.h>

#include <chrono>

#include "record/errors.h"
#include "record/files.h"
#include "record/opening.h"
#include "service/record.h"

namespace service::record {
namespace {

namespace fs = std::filesystem;

void copy_pages(SQLite::Database& from, const fs::path& part) {
  SQLite::Database copy(fs::absolute(part).string(), SQLite::OPEN_READWRITE);
  settle(copy, std::chrono::seconds(10));
  SQLite::Backup backup(copy, from);
  // All pages in one step, which holds writers off: the copy is of one moment.
  backup.executeStep(-1);
}

}  // namespace

void copy_database(SQLite::Database& from, const fs::path& from_file, const fs::path& target) {
  refuse_existing(target);
  const fs::path part = fs::path(target) += ".part";
  NewFile made(part);
  guarded(from_file, Doing::reading, [&] { copy_pages(from, part); });
  const Legible copied = Record::open(part, Access::read).legible();
  if (!copied.damage.empty()) throw Failure(Trouble::bad_data, copied.damage);
  made.keep_as(target);
}

}  // namespace service::record
