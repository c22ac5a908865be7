// A moment, as `entered` is written: 2026-01-01T00:00:00.000Z, milliseconds since 1970 (UTC).
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "service/base.h"

namespace service::record {

inline constexpr std::int64_t last_moment = 7'258'118'399'999;  // 2199-12-31T23:59:59.999Z

std::string time_text(std::int64_t milliseconds);
Parsed<std::int64_t> parse_time(std::string_view text);

}  // namespace service::record
