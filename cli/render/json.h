// Answers that are no list, as JSON. Keys keep their order and are only ever added to; text that is not UTF-8 is made
// so.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "service/base.h"
#include "service/record.h"
#include "service/standing.h"

namespace cli {

struct Book;
struct Written;
struct Checked;
struct Command;

// One object a line, for standard error.
std::string errors_as_json(std::span<const service::Diagnostic> diagnostics);

std::string written_as_json(const Written& written);
std::string history_as_json(const Book& book);
std::string check_as_json(const Checked& checked);
std::string backup_as_json(const std::string& file, int facts);
std::string script_as_json(const std::string& shell, const std::string& script);

// The command table: all of it, or one command.
std::string commands_as_json(const Command* one);
std::string made_as_json(const std::string& folder, const std::vector<std::string>& files);

}  // namespace cli
