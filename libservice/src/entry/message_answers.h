// What a fact raises, and what another one ends of it.
#pragma once

#include "service/fleet.h"
#include "service/record.h"

namespace service::entry {

bool is_bad_look(const Fact& fact);

// What is true of a machine that is not in use, or of a sign, until something else ends it.
bool raises(const Fact& fact);

// Whether a later fact ends what an earlier one raised.
bool answers(const Fleet& fleet, const Machine& machine, const Fact& later, const Fact& raised);

// Of one day, so that it may be an answer to what was raised that day.
bool may_answer(const Fact& fact);

// What takes something off a list, or puts it further down.
bool clears(const Fact& fact);

}  // namespace service::entry
