// What of a text the book holds already, or an earlier line says.
#pragma once

#include "entry/message_beside.h"

namespace service::entry {

// Marks which facts of the lines are new; a line with none is there already, or was said before.
void find_what_is_there(TextBesideBook& text);

// The same words a day later: an old message pasted again, or news. Where the line names no day, that is asked back.
void insist_on_days(TextBesideBook& text);

}  // namespace service::entry
