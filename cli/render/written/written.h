// What a command that writes did, or would do.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "render/shared/formats.h"
#include "service/entry.h"

namespace cli {

struct Written {
  std::string command;
  service::Entered entered;
  std::size_t left_out = 0;              // rows of a file that were skipped, those that could not be read among them
  std::string rejects;                   // the file that holds them now; empty: none
  std::vector<std::string> understood;   // how a file was read
  std::vector<std::string> what;         // one line a fact
  std::vector<std::string> write_on_it;  // for the new element: day and meter value
  std::optional<service::MachineUse> ended;        // of a machine that is back: what it was until then
  std::optional<service::BeforeWork> before_work;  // and what is to be seen to
  std::vector<std::string> next;                   // what follows from it for people
  bool undo_again = false;                         // of `undo`: once more would take back another command
};

// The command line that takes back what was written, `whichever undo`; empty where there is none. `command`: how
// printed commands begin.
std::string undo_of(const Written& written, const std::string& command);

std::string written_as_text(const Written& written, const Look& look);
std::string written_as_json(const Written& written, const std::string& command);

inline constexpr Format<Written> written_formats[] = {{"text", written_as_text}, {"json", written_as_json}};

}  // namespace cli
