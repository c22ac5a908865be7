// Words that people write in their spreadsheets.
#pragma once

#include <string>
#include <string_view>

namespace service::entry {

// In plain letters, with one blank for all that is neither letter nor digit: `Betr.-Std.` is `betr std`.
std::string as_words(std::string_view text);

// The same without what stands in brackets, mostly a unit: `Stunden (h)`.
std::string heading_words(std::string_view heading);

// A total, a sum: `Summe`, `Grand total`.
bool is_total_word(std::string_view words);

// A number by which people tell machines apart: `Nr.`, `ID`, `Inventory no`.
bool is_number_of_machines(std::string_view words);

// Hours, however written: `h`, `Std.`, `heures`; with `per_year` also `h/Jahr`.
bool is_hours(std::string_view words, bool per_year);

// What people put where they know nothing: `-`, `?`, `n/a`.
bool stands_for_nothing(std::string_view text);

}  // namespace service::entry
