// What to write on a new element, in words; with blanks for what is not known before the work is done.
#pragma once

#include <string>
#include <string_view>

#include "service/element_label.h"

namespace cli {

// Ends of an interval that have no value and may have no day, the same before the work and after it.
std::string after_changes_words(int count, const std::string& task);        // `after 3 changes of air-primary`
std::string before_season_words(int lead_days, const std::string& season);  // `14 days before harvest`

inline constexpr std::string_view blank_day = "____-__-__";
inline constexpr std::string_view blank_value = "________";

std::string label_words(const service::ElementLabel& label);  // `2026-06-15 · 1511.4 h`, `____-__-__ · ________ h`

// `+ 250.0 h = ________ h, or + 300.0 h of the separator = ________ h, or 2027-06-15 where done on 2026-06-15, or after
// 3 changes of air-primary, or 14 days before harvest`.
std::string due_again_words(const service::ElementDueAgain& again, service::Day done_on);

}  // namespace cli
