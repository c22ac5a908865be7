// Another machine among a worker's own words: what is said of it would be lost in the words about the first.
#pragma once

#include <string>
#include <string_view>

#include "entry/message_line.h"
#include "entry/message_words.h"

namespace service::entry::message {

// Fails with usage where words that are not in quotes name another machine (`Overheard::others`). `words`: all behind
// the machine; `own`: the part of them that is kept as somebody's own words, while the rest are names that are known.
// `form`: what is to be said of each, `saw {} SIGN`.
void insist_on_one_machine(const Told& told, const Machine& machine, Words words, std::string_view own,
                           std::string_view form);

}  // namespace service::entry::message
