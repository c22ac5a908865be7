// The signs that a line tells of: listed ones, with what is usually said around them, or somebody's own words.
#pragma once

#include <string>
#include <vector>

#include "entry/message_line.h"
#include "entry/message_words.h"
#include "service/told_signs.h"

namespace service::entry::message {

std::vector<std::string> sign_names(const Fleet& fleet, const Machine& machine);

// Fails with usage where there are no words.
SignsTold signs_in(const Told& told, const Machine& machine, const std::vector<std::string>& words);

}  // namespace service::entry::message
