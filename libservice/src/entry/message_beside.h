// What stands beside a line of a paste: the lines of the same message, and what the same sender sent next.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace service::entry {

// A line among those of a text, in the order in which they were sent.
struct LineSent {
  std::size_t message = 0;  // of which message it is: what one stamp that is understood stands before
  std::string sender;       // empty: nobody says
  bool untaken = false;     // nothing of it is stored
  bool announces = false;   // it ends with a colon
};

// An untaken line that may change what the line at `at` says: one of its own message, one of the next message of its
// sender, or the end of the one before, where that announces what follows. None: nothing does.
std::optional<std::size_t> untaken_beside(const std::vector<LineSent>& lines, std::size_t at);

}  // namespace service::entry
