// Who did it: only somebody of whom that is certain.
#pragma once

#include "entry/message_line.h"
#include "entry/message_words.h"

namespace service::entry::message {

// Two or three capital letters with a point behind each: `M.T.`. Not those that may be a time of day: `P.M.`.
bool are_initials(std::string_view text);

// A name as it stands before what somebody sent: initials, a telephone number, or up to three words that begin with a
// capital letter and go on in small ones, or are of a script without case, and do not say that it is not so, or not yet
// (`Planned`, `To do`). Anything else may be part of what was said.
bool is_plain_name(std::string_view text);

// Somebody whom the book knows, as it has the name, or initials. Nothing for all else: `summer` and `M.T. hopefully`
// look like names too.
std::optional<std::string> who_if_certain(const Told& told, Words words);

// The same; fails with usage.
std::string who_told(const Told& told, Words words);

// A word of which nobody can tell the day: `tomorrow`, `friday`, `soon`.
bool names_no_certain_day(const Word& word);

// Whether the words say that something has not come yet: `Planned for tomorrow`, `Still to do`.
bool says_not_yet(std::string_view text);

// A word on which it hangs whether something is so: `if`, `unless`.
bool makes_a_condition(const Word& word);

}  // namespace service::entry::message
