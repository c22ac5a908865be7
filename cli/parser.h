// The words of a command line, sorted by the command table. All values are still text.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "command_table.h"

namespace cli {

struct Arguments {
  const Command* command = nullptr;  // null: none was named
  std::map<std::string, std::vector<std::string>, std::less<>> options;
  std::vector<std::string> words;
  bool help = false;
  bool version = false;

  bool has(std::string_view option) const { return options.contains(option); }
  std::optional<std::string> value(std::string_view option) const;
  std::vector<std::string> values(std::string_view option) const;
};

// Fails with usage: an unknown command or option (with the nearest ones), a missing or a surplus word, a value that is
// missing or given twice.
Arguments parse(const std::vector<std::string>& arguments);

// Whether errors are to be JSON; works on a command line that is wrong elsewhere.
bool wants_json(const std::vector<std::string>& arguments);

// What `--fleet` names; likewise.
std::optional<std::string> fleet_named(const std::vector<std::string>& arguments);

}  // namespace cli
