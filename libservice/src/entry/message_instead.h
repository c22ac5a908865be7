// Which command enters what a line says that is asked back.
#pragma once

#include "entry/message_against.h"
#include "entry/message_beside.h"

namespace service::entry {

// None for one that would answer a sign of which nobody knows that it came before. And whether somebody has to say who.
void tell_how_to_enter(const TextBesideBook& text, const SaidAgainst& against, Draft& draft);

}  // namespace service::entry
