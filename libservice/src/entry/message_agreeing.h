// Values of one meter that lines of a text tell of, beside each other.
#pragma once

#include "entry/message_beside.h"

namespace service::entry {

// Of two values of a meter that cannot both be right nobody can tell which is wrong, so both are asked back.
void insist_on_values_that_agree(TextBesideBook& text);

}  // namespace service::entry
