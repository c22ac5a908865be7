// Handing a message to the program that sends it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace cli {

// The words of `--mailer`: a program and what it is told, with blanks between. No shell reads them. Fails with usage
// where there are none.
std::vector<std::string> mailer_words(std::string_view written);

// Runs it with the message on its standard input, waits for its end and returns when that was 0 and it was given the
// whole message. Fails with io, with its own number, where it was not.
void hand_over(const std::vector<std::string>& words, std::string_view message);

}  // namespace cli
