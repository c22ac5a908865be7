// Whether the whole of a paste speaks with one voice: the lines that nobody reads, beside those that clear something.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "entry/message_overheard.h"

namespace service::entry {

// A line among those of a text, in the order in which they were sent.
struct LineSent {
  int number = 0;        // in the text
  std::string sender;    // folded; empty: nobody says
  bool heading = false;  // it says only when, or by whom
  bool untaken = false;  // something stands there that nobody reads
  bool clears = false;   // what it says takes something off a list
  bool safety = false;   // and that never waits
};

// Of each line that clears something the untaken one that may take that back, the nearest of several: any of its
// sender, or of nobody (of anybody, where nobody says who sent this); of others, however far, what speaks of the same,
// and right before it or behind it, by the text or by when they were sent, what may speak of anything. None: nothing
// does. What never waits is also taken back by any later line, whoever sent it and whatever stands between, that is no
// plain talk: nobody has a list of the words of all languages, and `not understood` does not mean `agrees`.
// `speaks_of`: what the second line may say of what the first one clears.
std::vector<std::optional<std::size_t>> untaken_of_one_voice(
    const std::vector<LineSent>& lines, const std::function<SpeaksOf(std::size_t, std::size_t)>& speaks_of);

}  // namespace service::entry
