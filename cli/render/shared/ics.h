// A calendar as RFC 5545 has it: the only writer of it. Texts are escaped, control characters dropped, and lines folded
// at 75 octets, never inside a character.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/base.h"

namespace cli {

struct IcsTimes {  // milliseconds since 1970, UTC
  std::int64_t from = 0;
  std::int64_t to = 0;
};

// A whole day, which nobody is kept from using otherwise; or a span of it, which is taken.
struct IcsEvent {
  std::string uid;
  service::Day on;
  std::int64_t sequence = 0;
  std::int64_t changed = 0;  // milliseconds since 1970, UTC
  std::string summary;
  std::string description = {};
  std::string location = {};
  std::vector<std::string> categories = {};
  std::optional<IcsTimes> times = {};
  bool cancelled = false;  // it stood in an earlier calendar: who took that over takes it out
};

std::string ics_calendar(std::string_view name, const std::vector<IcsEvent>& events);

// A value of type TEXT: `a\,b`. Carriage returns alone end a line as well; other control characters are left out.
std::string ics_text(std::string_view text);

// `NAME:VALUE` with its line end, folded.
std::string ics_line(std::string_view name, std::string_view value);

}  // namespace cli
