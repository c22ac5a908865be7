// Handing a message to the program that sends it.
#pragma once

#include <chrono>
#include <string>
#include <string_view>
#include <vector>

namespace cli {

// The words of `--mailer`: a program and what it is told, with blanks between. No shell reads them. Fails with usage
// where there are none.
std::vector<std::string> mailer_words(std::string_view written);

// A mailer that hangs would keep the next morning's from running. Slow servers are given up by mailers themselves
// within some minutes.
inline constexpr std::chrono::minutes mailer_limit{10};

// Runs it with the message on its standard input, waits for its end and returns when that was 0 and it has read the
// whole message. Fails with io, with its own number, where it was not. At the limit it is stopped, which fails too.
void hand_over(const std::vector<std::string>& words, std::string_view message,
               std::chrono::milliseconds limit = mailer_limit);

}  // namespace cli
