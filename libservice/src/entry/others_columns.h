// What the columns of somebody else's spreadsheet hold: as told, else as their headings say in everyday words.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "entry/others_sheet.h"
#include "service/taking_over.h"

namespace service::entry {

// A row whose fields are headings: one of them names the machines, told or guessed.
bool looks_like_header(const SheetRow& row, const std::vector<std::pair<std::string, std::string>>& told);

// Fails with usage where a column that is told is not there, and with bad_data where no column names the machines or
// where two may be the same figure or day.
std::vector<TakenOver::Column> understand_columns(const Sheet& sheet, const TakeOverAsk& ask);

}  // namespace service::entry
