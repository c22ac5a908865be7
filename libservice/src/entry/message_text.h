// Pasted text as lines, and what a messenger put around them: when, and by whom a line was sent.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/days.h"

namespace service::entry {

struct PastedLine {
  int number = 0;
  std::string text;     // as it was written
  std::string plain;    // any kind of blank as one blank, marks that cannot be seen taken out; empty: nothing is said
  std::string problem;  // why it cannot be read at all
};

// Ends of lines of every kind.
std::vector<PastedLine> pasted_lines(std::string_view text);

// When a line was sent.
struct Sent {
  std::optional<Day> day;
  std::string problem;  // a day is written, and this is why it is none
};

struct Headed {
  std::optional<Sent> sent;  // none: the line says nothing of it
  std::string sender;
  std::string rest;  // what was sent; empty: it comes in the lines below
};

// `[27.11.2026, 08:15] NAME: ...`, `27/11/2026, 08:15 - NAME: ...`, `NAME, [27.11.2026 08:15]`, `27.11.2026`. A name
// without a time is none: `not yet: ...` looks the same. `says_something`: whether these words can begin what was sent.
Headed headed(std::string_view plain, Day today, const std::function<bool(std::string_view)>& says_something);

}  // namespace service::entry
