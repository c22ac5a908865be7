// What a text must be before any reader looks at it.
#pragma once

#include <cstddef>
#include <optional>

#include "fleet/diagnostics.h"

namespace service::fleet {

inline constexpr std::size_t yaml_limit = std::size_t{8} << 20U;
inline constexpr std::size_t compiled_limit = std::size_t{64} << 20U;
inline constexpr std::size_t register_limit = std::size_t{64} << 20U;

struct ControlCharacter {
  std::size_t offset = 0;
  unsigned value = 0;
};

// The first one that is neither a tab nor part of a line end.
std::optional<ControlCharacter> first_control_character(std::string_view text);

// Not too large, well-formed UTF-8, no control characters, no endless line. Reports the first thing that is wrong.
bool fit_to_read(const Source& source, std::size_t limit, Diagnostics& diagnostics);

}  // namespace service::fleet
