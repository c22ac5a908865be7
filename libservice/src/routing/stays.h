// When a stay can start, whose whole length has to lie in one span.
#pragma once

#include <optional>
#include <vector>

#include "routing/problem.h"

namespace service::routing {

// Not before `from`. It never falls when `from` rises, so what comes earlier is never worse.
inline std::optional<Minute> earliest_start(const std::vector<Span>& spans, Minute from, Minute length) {
  for (const Span& span : spans) {
    const Minute start = from > span.from ? from : span.from;
    if (start + length <= span.to) return start;
  }
  return std::nullopt;
}

// Not after `until`.
inline std::optional<Minute> latest_start(const std::vector<Span>& spans, Minute until, Minute length) {
  for (auto span = spans.rbegin(); span != spans.rend(); ++span) {
    const Minute start = span->to - length < until ? span->to - length : until;
    if (start >= span->from) return start;
  }
  return std::nullopt;
}

}  // namespace service::routing
