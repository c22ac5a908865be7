// The words that deny, in one list for whoever reads messages.
#pragma once

#include <string_view>

namespace service::entry {

// Whether a word, in small letters, says that something is not so, or not yet, or takes back what was said: `not`,
// `didn't`, `still`, `cancelled`, `sorry`. What goes against a message without denying it stands with whoever asks:
// what goes on beyond it (`message_overheard.cpp`), and what is only planned, asked or quoted (`message_who.cpp`).
bool is_denial(std::string_view word);

// The usual ones of other languages, in plain small letters: `ikke`, `ohne`, `sans`. From memory, and not whole. Some
// of them are words or names in another language, so they are asked for hints alone.
bool is_foreign_denial(std::string_view word);

}  // namespace service::entry
