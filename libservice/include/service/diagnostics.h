// The one way to report what is wrong.
#pragma once

#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "service/cures.h"

#pragma GCC visibility push(default)

namespace service {

// Where in a file. Lines and columns count from 1, columns in characters. `text` is that source line as it was written.
struct Place {
  std::string file;
  int line = 0;
  int column = 0;
  int width = 1;
  std::string text;
};

enum class Severity { error, remark };

struct Diagnostic {
  std::string code;     // stable name of what is wrong, such as `unknown-key`: the same in tests and documents
  std::string message;  // what is wrong, one sentence without a full stop
  std::string hint;     // what to do about it, as far as that is said without a cure
  std::optional<Place> place = std::nullopt;
  Severity severity = Severity::error;
  std::vector<Cure> cures = {};  // what could be done, the likeliest first
};

// What kind of failure it was. The values are the exit statuses of the command (sysexits).
enum class FailureKind {
  usage = 64,
  bad_data = 65,
  not_found = 66,
  internal = 70,
  io = 74,
  busy = 75,
  bad_fleet = 78,
};

class Failure : public std::runtime_error {
 public:
  Failure(FailureKind kind, std::vector<Diagnostic> diagnostics);
  Failure(FailureKind kind, Diagnostic diagnostic);

  FailureKind kind() const { return kind_; }
  const std::vector<Diagnostic>& diagnostics() const { return diagnostics_; }

 private:
  FailureKind kind_;
  std::vector<Diagnostic> diagnostics_;
};

}  // namespace service

#pragma GCC visibility pop
