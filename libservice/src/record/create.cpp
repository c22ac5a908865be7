// A new record.
#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Transaction.h>
#include <fmt/format.h>

#include <chrono>

#include "record/errors.h"
#include "record/files.h"
#include "record/migrations.gen.h"
#include "record/opening.h"
#include "record/tally.h"
#include "service/record.h"

namespace service {
namespace {

namespace fs = std::filesystem;
using namespace record;

void make_empty(const fs::path& file) {
  SQLite::Database database(fs::absolute(file).string(), SQLite::OPEN_READWRITE);
  apply_settings(database, std::chrono::seconds(10));
  apply_journal_mode(database, file, Access::write);
  SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
  for (const std::string_view migration : migrations) database.exec(std::string(migration));
  write_first_book(database);
  database.exec(fmt::format("PRAGMA application_id = {}", application_id));
  database.exec(fmt::format("PRAGMA user_version = {}", migrations.size()));
  transaction.commit();
}

}  // namespace

void Record::create(const std::filesystem::path& file) {
  NewFile made(file);
  guarded(file, Doing::writing, [&] { make_empty(made.path()); });
  made.keep();
}

void Record::create(const std::filesystem::path& file, const std::function<void(Record& record)>& fill) {
  NewFile made(file);
  guarded(file, Doing::writing, [&] { make_empty(made.path()); });
  {
    Record record = open_unnamed(made.path(), file);
    fill(record);
  }
  made.keep();
}

}  // namespace service
