// The one list of commands: what the parser accepts, what --help says, and what runs.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace cli {

struct Context;

struct Option {
  std::string_view name;   // without dashes
  std::string_view value;  // what its value is called; empty: it takes none
  std::string_view does;   // under 60 characters
  bool repeats = false;
};

struct Word {  // a positional argument
  std::string_view name;
  bool required = true;
  bool repeats = false;  // only the last one may
};

struct Example {
  std::string_view arguments;  // without the name of the program
  std::string_view does;
};

struct ExitStatus {
  int status;
  std::string_view when;
};

struct Command {
  std::string_view name;
  std::string_view summary;  // one line in the list of commands
  std::string_view about;    // a few sentences
  std::vector<Word> words;
  std::vector<Option> options;
  std::vector<std::string_view> formats;  // the first is what it writes unless told; none: it has one form, and no name
  std::vector<Example> examples;
  std::vector<ExitStatus> statuses;  // beside those that all commands share
  int (*action)(Context&);
  bool about_a_fleet = true;  // takes --fleet and --as-of
  bool hidden = false;        // for other programs: not in lists for people
};

std::span<const Command> commands();
std::span<const Option> global_options();
bool takes(const Command& command, const Option& global);  // some are not about a fleet, or have one form
std::span<const ExitStatus> shared_statuses();
std::vector<std::string> command_names();            // those for people
const Command* find_command(std::string_view name);  // null where there is none

}  // namespace cli
