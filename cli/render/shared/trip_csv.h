// What plans of trips have in common as CSV.
#pragma once

#include "render/shared/csv_rows.h"
#include "service/rounds.h"

namespace cli {

// Of what is in no plan: columns until, by, note, of whoever put it off or laid its machine up.
void add_what_was_said(CsvCells& cells, const service::NotPlanned& row);

}  // namespace cli
