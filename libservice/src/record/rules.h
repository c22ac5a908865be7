// What each kind of fact needs and may have, and what a fact's values must be. The reader of files and the store ask
// here, so what was stored can always be written to a file and read again.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "record/columns.h"

namespace service::record {

enum class Use { unused, optional, needed };

// Columns that say how a fact came into the book are optional in every kind.
Use use_of(FactKind kind, Column column);

// One thing that is wrong with a fact. `message` is a whole sentence.
struct ColumnDiagnostic {
  Column column;
  std::string code;
  std::string message;
  std::string hint;
};

// What a text of that column must not be: too long, not UTF-8, with control characters. One clause, or empty.
std::string text_problem(Column column, std::string_view text);

// Missing and unused columns, and values that do not suit the kind. Texts are not looked at.
std::vector<ColumnDiagnostic> column_diagnostics(const Fact& fact);

// All of the above for a fact that is about to be stored, its id included; a diagnostic each, naming the fact.
std::vector<Diagnostic> wrong_with(const Fact& fact);

}  // namespace service::record
