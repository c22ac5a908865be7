// Whether words behind `by` can only be somebody's name, and whether a note says that the work is not done.
#pragma once

#include "entry/message_line.h"
#include "service/fleet.h"

namespace service::entry::message {

// `by friday`, `by M.T. not yet` and `by who?` are no names. Fails with usage.
void insist_on_a_name(const Fleet& fleet, Words words);

// `half done, the rest tomorrow` is no service. Fails with usage.
void insist_on_all_done(std::string_view note);

// A word of which nobody can tell the day: `tomorrow`, `friday`, `soon`.
bool names_no_certain_day(const Word& word);

}  // namespace service::entry::message
