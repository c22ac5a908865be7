// A line that says that a machine must not run: taken as that too where it is certain, else asked back beside what it
// says, for nobody may be left to run it because that stood among other words.
#pragma once

#include <string>
#include <vector>

#include "entry/message_line.h"
#include "entry/message_words.h"
#include "service/told_signs.h"

namespace service::entry::message {

struct StopSaid {
  StopTold told;
  std::vector<std::string> others;  // of the sign's words those that do not say it, where any are left
};

// `written`: all words behind the machine, of which `own` say what was seen, and `note` more of it. What stands in
// quotes may be what somebody read.
StopSaid stop_said(const Told& told, const Machine& machine, Words written, const std::vector<std::string>& own,
                   const std::string& note);

// Behind the facts of a line that is understood.
void add_stop(Said& said, const StopSaid& stop, std::string why);

}  // namespace service::entry::message

namespace service::entry {

// To what is wrong with a line that is not taken: how to say that its machine must not run, where it may say that.
void tell_how_to_stop(const Fleet& fleet, std::string_view line, std::vector<Diagnostic>& wrong);

}  // namespace service::entry
