// What can stand next on a command line, from the command table and the fleet that is there.
#pragma once

#include <string>
#include <vector>

namespace cli {

struct Context;

// `words` are those after the name of the program; the last one, maybe empty, is being typed. Nothing where only the
// shell knows (names of files) or nobody does. `context` lends its world alone.
std::vector<std::string> candidates(const Context& context, std::vector<std::string> words);

// The script that a shell reads to ask the program for candidates; empty for a shell that is not known.
std::string completion_script(const std::string& shell);

}  // namespace cli
