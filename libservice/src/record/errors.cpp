#include "record/errors.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <new>

namespace service::record {

const char* const backup_hint = "put back a backup of the record; this one was not changed";

Diagnostic damaged(std::string code, std::string message) {
  return {std::move(code), std::move(message), "put back a backup of the record",
          std::nullopt,    Severity::error,    {{CureKind::save_legible}}};
}

Diagnostic damaged_book() {
  return damaged("damaged-book", "the row that counts the whole book does not agree with its checksum");
}

Diagnostic damaged_machine(std::string_view name) {
  return damaged("damaged-machine",
                 fmt::format("the row of machine {} does not agree with its checksum", cleaned(name)));
}

std::string name_of(const std::filesystem::path& file) { return cleaned(file.string()); }

void fail(const SQLite::Exception& error, const std::filesystem::path& file, Doing doing) {
  const std::string name = name_of(file);
  const std::string outcome = doing == Doing::writing ? "; nothing was stored" : "";
  const auto failure = [&](FailureKind kind, const char* code, const std::string& what, const std::string& hint) {
    return Failure(kind, {code, what + outcome, hint});
  };
  if (needs_recovery(error)) {
    throw failure(FailureKind::io, "unfinished-write",
                  fmt::format("{} holds a write that was cut short, and only who may write can clear it", name),
                  "run a command once as the owner of the record");
  }
  // Our statements are fixed and tried, so before the file has proved to be ours it is the file that makes them fail.
  const int code = error.getErrorCode() & 0xff;
  switch (code == SQLITE_ERROR && doing == Doing::opening ? SQLITE_CORRUPT : code) {
    case SQLITE_NOMEM:
      throw std::bad_alloc();
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
    case SQLITE_PROTOCOL:
      throw failure(FailureKind::busy, "record-busy", fmt::format("another program is using the record {}", name),
                    "wait until it has ended, then try again");
    case SQLITE_CORRUPT:
      if (doing == Doing::opening) {
        throw failure(FailureKind::bad_data, "record-damaged", fmt::format("the record {} is damaged", name),
                      backup_hint);
      }
      throw Failure(FailureKind::bad_data,
                    damaged("record-damaged", fmt::format("the record {} is damaged", name) + outcome));
    case SQLITE_NOTADB:
      throw failure(FailureKind::bad_data, "not-a-record", fmt::format("{} is not a record", name),
                    "give the folder of a fleet, whose record is record.db; `new` makes one");
    case SQLITE_FULL:
      throw failure(FailureKind::io, "disk-full", fmt::format("there is no room left on the disk of {}", name),
                    "make room, then try again");
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_AUTH:
      throw failure(FailureKind::io, "record-read-only", fmt::format("the record {} may not be written", name),
                    "look at the permissions of the file and of its folder");
    case SQLITE_CANTOPEN:
      throw failure(FailureKind::io, "record-unreadable", fmt::format("the record {} cannot be opened", name),
                    "look at the permissions of the file and of its folder");
    case SQLITE_IOERR:
      throw failure(FailureKind::io, "disk-error", fmt::format("the disk reported an error at the record {}", name),
                    "look at the disk, then try again");
    default:
      throw failure(FailureKind::internal, "record-internal",
                    fmt::format("the record {} could not be used, for a reason that should not arise", name),
                    "please report this with the command you gave");
  }
}

bool needs_recovery(const SQLite::Exception& error) {
  const int code = error.getExtendedErrorCode();
  return code == SQLITE_READONLY_ROLLBACK || code == SQLITE_READONLY_RECOVERY;
}

}  // namespace service::record
