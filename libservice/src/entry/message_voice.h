// Whether the whole of a paste speaks with one voice: the lines that nobody reads, beside those that clear something.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace service::entry {

// A line among those of a text, in the order in which they were sent.
struct LineSent {
  int number = 0;        // in the text
  std::string sender;    // folded; empty: nobody says
  bool heading = false;  // it says only when, or by whom
  bool untaken = false;  // something stands there that nobody reads
};

// Of each line the untaken one that may take back what it says: the nearest one of its sender, of nobody (or of
// anybody, where nobody says who sent this), or of anybody right before it or behind it, by the text or by when they
// were sent. None: nothing does.
std::vector<std::optional<std::size_t>> untaken_of_one_voice(const std::vector<LineSent>& lines);

}  // namespace service::entry
