// A row of texts, one a column, becomes a fact; or all that is wrong with it is told. CSV and JSON Lines both end here.
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "base/places.h"
#include "record/columns.h"

namespace service::record {

struct Cell {
  std::string text;      // empty: not there
  std::size_t from = 0;  // offset in the file
};

struct CellRow {
  std::array<Cell, column_count> cells;
  std::size_t from = 0;
};

// Adds the fact to the rows, or counts a blank, or adds diagnostics and returns false.
bool take_row(const CellRow& row, const Places& places, FactsRead& read);

}  // namespace service::record
