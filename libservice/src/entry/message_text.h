// Pasted text as lines, and what a messenger put around them: when, and by whom a line was sent.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "entry/message_stamps.h"
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

struct Headed {
  std::optional<Stamped> sent;  // none: the line says nothing of it
  bool not_understood = false;  // it begins like a stamp, or is a day alone, and nobody can tell which
  bool looks_like_a_header =
      false;  // a divider, or words with a day or a time among them; the lines below may be of it
  std::string sender;
  std::string rest;  // what was sent; empty: it comes in the lines below
};

// `[27.11.2026, 08:15] NAME: ...`, `27/11/2026, 08:15 - NAME: ...`, `2026-11-27 08:15 NAME: ...`, `NAME, [27.11.2026
// 08:15]`, `NAME, [27.11.2026 08:15]: ...`, `27.11.2026`, `--- 27 November 2026 ---`. A name without a time is none:
// `not yet: ...` looks the same. `says_something`: whether these words can begin what was sent.
Headed headed(std::string_view plain, Day today, const std::function<bool(std::string_view)>& says_something);

}  // namespace service::entry
