// What each command of a message takes behind its machine, as facts.
#pragma once

#include "entry/message_line.h"
#include "entry/message_words.h"

namespace service::entry::message {

Said reading_in(const Told& told, const Machine& machine, Words words);
Said done_in(const Told& told, const Machine& machine, Words words);
Said saw_in(const Told& told, const Machine& machine, Words words);
Said looked_in(const Told& told, const Machine& machine, Words words);
Said out_of_use_in(const Told& told, const Machine& machine, Words words);

// Of this day, else of that of its line.
Fact fact_about(const Told& told, FactKind kind, const Machine& machine, const std::optional<DaySpan>& on);

}  // namespace service::entry::message
