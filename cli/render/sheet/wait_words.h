// Words that those of a job sheet share.
#pragma once

#include <fmt/format.h>

#include <string>
#include <string_view>
#include <vector>

#include "render/shared/words.h"
#include "service/job_sheet.h"

namespace cli {

inline std::string joined(const std::vector<std::string>& words, std::string_view between) {
  return fmt::format("{}", fmt::join(words, between));
}

// `2026-07-01`, `4914.3 h on the meter (about 2026-07-01)`: what ends a wait, the same wherever it is told.
inline std::string end_words(const service::SheetWait& wait) {
  if (!wait.by_use) return to_text(wait.from);
  const service::PutOff& put_off = *wait.point->put_off;
  return fmt::format("{} on {} ({})", with_unit(put_off.shown.value_or(*put_off.at), put_off.unit),
                     meter_words(*wait.point->machine, put_off.meter),
                     put_off.by_estimate ? "over by estimate: read it first" : "about " + to_text(wait.from));
}

}  // namespace cli
