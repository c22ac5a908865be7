// Under which numbers the events of calendars were handed out, kept beside the record.
#pragma once

#include <filesystem>

#include "run.h"
#include "service/calendar.h"

namespace cli {

// As it would be handed out now, and is not.
void number_as_remembered(service::Calendar& calendar, Context& context, const std::filesystem::path& folder);

// Before the calendar is handed out. Where that cannot be kept, it is said beside the answer: the calendar stands, and
// its numbers are those of the day and the book.
void number_and_remember(service::Calendar& calendar, Context& context, const std::filesystem::path& folder);

}  // namespace cli
