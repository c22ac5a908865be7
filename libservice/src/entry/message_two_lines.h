// A value, and behind it what belongs into a line of its own: `pump-north 6970, pump-south 7803`, `2390.5, tyre flat`.
#pragma once

#include <string>

#include "entry/message_line.h"
#include "entry/message_words.h"

namespace service::entry::message {

// `6970,`: the first of several words.
bool value_ends_at_comma(Words words);

// Fails with usage where the words begin with a value and what stands behind it is none of a reading; returns where
// there is more to tell of them.
void ask_for_two_lines(const Told& told, const Machine& machine, Words words);

// What is said of a machine in no known words: most likely what somebody saw, and somebody else may run into.
[[noreturn]] void ask_what_it_is(const Machine& machine, const std::string& words, const std::string& value);

}  // namespace service::entry::message
