// Figures and days as people write them into fields of a spreadsheet.
#pragma once

#include <string>
#include <string_view>

#include "service/spreadsheet.h"

namespace service::entry {

// A figure as it is written, the unit behind it taken off.
struct Figure {
  std::string number;  // all of the text where it begins with no figure
  std::string unit;
};

Figure figure_of(std::string_view text);

// Somebody was not sure of it, or meant something by a mark that nobody else knows: `1200?`, `1200*`, `1200 h (!)`.
bool leaves_a_doubt(const Figure& figure);

// Spreadsheets write a time behind a day, mostly midnight.
// Marks between its thousands, where this is the decimal mark: `1'250.5`.
bool has_thousands(std::string_view number, DecimalMark decimal);

// By its looks the decimal mark may as well part thousands: `1.250`.
bool may_be_thousands(std::string_view number, DecimalMark decimal);

std::string without_time(std::string_view text);

}  // namespace service::entry
