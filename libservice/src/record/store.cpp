// The record as the rest of the library sees it.
#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <SQLiteCpp/Transaction.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>

#include "record/copying.h"
#include "record/errors.h"
#include "record/kept.h"
#include "record/one_by_one.h"
#include "record/opening.h"
#include "record/reading.h"
#include "record/rows.h"
#include "record/writing.h"
#include "service/kept_state.h"
#include "service/record.h"

namespace service {
namespace {

using namespace record;

// One consistent view for several queries. Within a transaction of ours (inside of `decide`) that one holds already.
class View {
 public:
  explicit View(SQLite::Database& database) {
    if (sqlite3_get_autocommit(database.getHandle()) != 0) transaction_.emplace(database);
  }

 private:
  std::optional<SQLite::Transaction> transaction_;
};

void read(FactReader& reader, const Scope& scope) {
  if (!scope.machines) {
    reader.read_all();
  } else {
    std::vector<std::string> names = *scope.machines;
    names.emplace_back();  // what has no machine is in every scope
    std::sort(names.begin(), names.end());
    names.erase(std::unique(names.begin(), names.end()), names.end());
    for (const std::string& name : names) reader.read_machine(name);
  }
  reader.sort();
}

void insist_on_no_damage(std::vector<Diagnostic> diagnostics) {
  if (!diagnostics.empty()) throw Failure(FailureKind::bad_data, std::move(diagnostics));
}

std::vector<Fact> read_facts_of(FactReader& reader, const Scope& scope) {
  read(reader, scope);
  insist_on_no_damage(reader.diagnostics);
  return std::move(reader.facts);
}

// The last steps of a commit can fail when all is in the file already. Whether it is tells only a fresh look, and who
// is told "nothing was stored" wrongly would enter it twice.
[[noreturn]] void fail_at_commit(const SQLite::Exception& error, const std::filesystem::path& file,
                                 const CommandId& command) {
  bool stored = false;
  try {
    SQLite::Database database = open_database(file, Access::read, std::chrono::seconds(10));
    SQLite::Statement query(database, "SELECT 1 FROM command WHERE id = ?");
    bind_command_id(query, 1, command);
    stored = query.executeStep();
  } catch (const std::exception&) {
    throw Failure(FailureKind::io,
                  {"unconfirmed",
                   fmt::format("the disk reported an error at the record {}, and it cannot be read now: "
                               "whether this was stored is not known",
                               name_of(file)),
                   "look at the disk",
                   std::nullopt,
                   Severity::error,
                   {{CureKind::look_before_again}}});
  }
  if (!stored) fail(error, file, Doing::writing);
  throw Failure(FailureKind::io,
                {"unconfirmed",
                 fmt::format("it is stored, but the disk would not confirm that it holds the record {}", name_of(file)),
                 "do not enter it again; look at the disk, and make a backup elsewhere"});
}

}  // namespace

struct Record::Impl {
  std::filesystem::path file;
  SQLite::Database database;
  Access access;
  bool named = true;  // else it is still being made: where that fails there is no record
  RecordProgress watch = {};

  // Runs a question in one view of the book.
  template <class Question>
  auto ask(Question&& question) {
    return guarded(file, Doing::reading, [&] {
      const View view(database);
      return question();
    });
  }
};

Record::Record(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
Record::Record(Record&&) noexcept = default;
Record& Record::operator=(Record&&) noexcept = default;
Record::~Record() = default;

Record Record::open(const std::filesystem::path& file, Access access, std::chrono::milliseconds patience) {
  return Record(std::make_unique<Impl>(Impl{file, open_database(file, access, patience), access}));
}

Record Record::open_unnamed(const std::filesystem::path& made, const std::filesystem::path& file) {
  return Record(std::make_unique<Impl>(
      Impl{file, open_database(made, Access::write, std::chrono::seconds(10)), Access::write, false}));
}

void Record::watch(RecordProgress progress) { impl_->watch = std::move(progress); }

std::vector<Fact> Record::facts(const Scope& scope) const {
  return impl_->ask([&] {
    FactReader reader(impl_->database, &impl_->watch);
    return read_facts_of(reader, scope);
  });
}

std::vector<Fact> Record::facts_beside(const Scope& scope,
                                       const std::function<bool(const KeptState& state)>& take) const {
  return impl_->ask([&] {
    FactReader reader(impl_->database, &impl_->watch);
    read_beside(impl_->database, reader, scope, take);
    reader.sort();
    insist_on_no_damage(reader.diagnostics);
    return std::move(reader.facts);
  });
}

void Record::one_by_one(const std::function<void(OneByOne& book)>& use) const {
  impl_->ask([&] {
    MachineByMachine book(impl_->database);
    use(book);
  });
}

void Record::in_one_view(const std::function<void()>& questions) const {
  impl_->ask([&] { questions(); });
}

std::vector<KeptState> Record::kept_of(const std::vector<std::string>& machines) const {
  return impl_->ask([&] { return read_kept_of(impl_->database, machines); });
}

std::string Record::kept_of_group(const std::string& name) const {
  return impl_->ask([&] { return read_group(impl_->database, name); });
}

std::vector<std::string> Record::machines() const {
  return impl_->ask([&] {
    FactReader reader(impl_->database);
    std::vector<std::string> names;
    for (MachineRow& row : reader.machines()) {
      if (!row.name.empty()) names.push_back(std::move(row.name));
    }
    insist_on_no_damage(reader.diagnostics);
    std::sort(names.begin(), names.end());
    return names;
  });
}

std::optional<Day> Record::newest_day() const {
  return impl_->ask([&]() -> std::optional<Day> {
    const BookRow book = read_book(impl_->database);
    if (!book.sealed) throw Failure(FailureKind::bad_data, damaged_book());
    if (!book.tally.newest) return std::nullopt;
    return Day{std::chrono::days{static_cast<int>(*book.tally.newest)}};
  });
}

Legible Record::legible(KeptBeside* kept) const {
  return impl_->ask([&] {
    FactReader reader(impl_->database, &impl_->watch);
    reader.read_legible();
    reader.sort();
    if (kept != nullptr) *kept = reader.read_beside();
    return Legible{std::move(reader.facts), std::move(reader.diagnostics)};
  });
}

void Record::backup(const std::filesystem::path& target) const {
  insist_on_no_damage(legible().diagnostics);
  copy_database(impl_->database, impl_->file, target);
}

std::vector<Fact> Record::append(const Scope& scope, bool dry_run,
                                 const std::function<std::vector<Fact>(const std::vector<Fact>& known)>& decide,
                                 const StateKeeper* keeper) {
  if (impl_->access != Access::write) {
    throw Failure(FailureKind::internal,
                  {"record-read-only", "the record was opened for reading only; nothing was stored",
                   "please report this with the command you gave"});
  }
  std::optional<SQLite::Exception> commit_error;
  std::vector<Fact> added = guarded(impl_->file, Doing::writing, [&] {
    // Nothing is caught between here and the commit: a statement that failed must never leave a part to be committed.
    SQLite::Transaction transaction(impl_->database, SQLite::TransactionBehavior::IMMEDIATE);
    FactWriter writer(impl_->database, &impl_->watch);
    FactReader reader(impl_->database, &impl_->watch);
    std::vector<Fact> written = writer.add(decide(read_facts_of(reader, scope)));
    if (dry_run) return written;
    if (keeper != nullptr && !written.empty()) {
      renew_kept(impl_->database, *keeper, reader, writer, written, &impl_->watch);
    }
    try {
      transaction.commit();
    } catch (const SQLite::Exception& error) {
      commit_error = error;
    }
    // The pages of many facts are not asked for again, and whoever wrote them may need the memory.
    constexpr std::size_t many = 10'000;
    if (written.size() >= many) sqlite3_db_release_memory(impl_->database.getHandle());
    return written;
  });
  if (commit_error && !impl_->named) fail(*commit_error, impl_->file, Doing::writing);
  if (commit_error && !added.empty()) fail_at_commit(*commit_error, impl_->file, added.front().id.command);
  return added;
}

}  // namespace service
