// A message as RFC 5322 has it, with a text and an HTML form of the same (RFC 2046), and what may stand in its head
// (RFC 2047). Lines end with CR LF. Nothing that is put in can begin a header of its own.
#pragma once

#include <chrono>
#include <string>
#include <string_view>
#include <vector>

#include "service/days.h"

namespace cli {

struct Message {
  std::string from;  // plain addresses
  std::vector<std::string> to;
  std::string subject;
  service::Day on;                         // what it says is of that day,
  service::Day written_on;                 // and it was written then,
  std::chrono::seconds since_midnight{0};  // at that time,
  std::chrono::minutes ahead_of_utc{0};    // by clocks that are so far ahead
  std::string text;                        // both UTF-8, with plain line ends
  std::string html;
};

// It is named after what it says and the day of that, not after the moment: the same again has the same `Message-ID`.
std::string message_bytes(const Message& message);

// --- Its parts ---

// Text that is not plain ASCII as encoded words: `=?UTF-8?B?w5Zsd2VjaHNlbCBmw6RsbGln?=`. The first line has room for so
// many characters; those behind it go on with a blank.
std::string encoded_words(std::string_view text, std::size_t first_room);

// Quoted-printable (RFC 2045), lines of at most 76 characters that end with CR LF. No line is a lone dot, or begins
// with a dot or with "From ", which some programs on the way take for more than text.
std::string quoted_printable(std::string_view text);

std::string base64(std::string_view bytes);

// `Mon, 15 Jun 2026 06:00:02 +0100`
std::string date_header(service::Day on, std::chrono::seconds since_midnight, std::chrono::minutes ahead_of_utc);

// FNV-1a, 64 bits: names a message after what it says.
std::uint64_t fnv1a(std::string_view bytes);

}  // namespace cli
