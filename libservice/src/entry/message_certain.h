// What clears something is asked back where nobody can tell from the text when it was, that it is so, or whether it
// came behind what it would answer.
#pragma once

#include "entry/message_beside.h"
#include "entry/message_clearing.h"

namespace service::entry {

// Of what clears something: when it was, and that it is so, is certain by where it stands.
void insist_on_certainty(const TextBesideBook& text, const Clearing& clearing, Draft& draft);

// Below a line that says that something has not come yet (`Planned for tomorrow:`), of the same message or of the same
// sender on that day, nothing has come for certain: asked back, but for what raises something.
void insist_on_no_plan(TextBesideBook& text, const Clearing& clearing);

// A sign of the same day in the book, of which nobody knows whether it came before.
void insist_on_what_came_first(const TextBesideBook& text, Draft& draft);

}  // namespace service::entry
