// What waits to be mended and has no place in a plan, in every format of a plan.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "render/shared/csv_rows.h"
#include "render/shared/point_rows.h"
#include "service/waiting_to_mend.h"

namespace cli {

// `waits to be mended here: combine: fork@left found failed, seen 2026-06-02; no call says how long it takes`. `own`:
// the machine at which that is said, which is not named again; null: none.
std::string mend_words(const service::WaitsToMend& one, const service::Machine* own);

// What it is: `fork@left found failed, seen 2026-06-02`, `tyre@front-right, tread-depth 15 mm, limit 15 mm, measured
// 2026-06-09`; and that its machine is not run before.
std::string words_of(const service::WaitsToMend& one);

// `tread-depth 15 mm`: what was measured, where a sign would stand.
std::string measured_words(const service::LimbStanding& limb);

// A heading and the lines below it: of what no call is for, and of what one may be for. Either may be missing.
struct MendBlock {
  std::string heading;
  SaidLines lines;
};
std::vector<MendBlock> mend_blocks(const std::vector<const service::WaitsToMend*>& waiting);

// A row `to-mend`.
CsvColumns columns_of_to_mend();
void add_to_mend(CsvTable& table, const service::WaitsToMend& one, const service::Fleet& fleet);

}  // namespace cli
