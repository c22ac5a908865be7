#include "render/shared/trip_csv.h"

#include "render/shared/figures.h"

namespace cli {

void add_what_was_said(CsvCells& cells, const service::NotPlanned& row) {
  if (row.put_off != nullptr) {
    cells.insert(cells.end(), {{"until", figure(row.put_off->until)},
                               {"by", csv_text(row.put_off->by)},
                               {"note", csv_text(row.put_off->why)}});
  } else if (row.use != nullptr) {
    cells.insert(cells.end(), {{"until", figure(row.use->until)}, {"note", csv_text(row.use->note)}});
  }
}

}  // namespace cli
