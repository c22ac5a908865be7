// What the database engine says, in our words. Its own words and codes never reach the user.
#pragma once

#include <SQLiteCpp/Exception.h>

#include <filesystem>
#include <string>
#include <string_view>

#include "service/base.h"

namespace service::record {

enum class Doing { opening, reading, writing };

// Never returns. Out of memory stays std::bad_alloc.
[[noreturn]] void fail(const SQLite::Exception& error, const std::filesystem::path& file, Doing doing);

// True where a write was cut short and only somebody who may write can roll it back.
bool needs_recovery(const SQLite::Exception& error);

// Runs it outside of any transaction's scope, so that what it began is rolled back before the error is translated.
template <class Action>
auto guarded(const std::filesystem::path& file, Doing doing, Action&& action) {
  try {
    return action();
  } catch (const SQLite::Exception& error) {
    fail(error, file, doing);
  }
}

// The name of the file as messages give it.
std::string name_of(const std::filesystem::path& file);

extern const char* const backup_hint;  // where nothing can be read

// Of a record of which something can still be read.
Diagnostic damaged(std::string code, std::string message);

// The rows that count, where they do not agree with their seals.
Diagnostic damaged_book();
Diagnostic damaged_machine(std::string_view name);

}  // namespace service::record
