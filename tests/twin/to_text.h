// A world as the files that a user would have: fleet files in YAML, facts in CSV.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "twin.h"

namespace twin {

struct FleetFiles {
  std::string fleet;                                           // fleet.yaml
  std::vector<std::pair<std::string, std::string>> schedules;  // file name (`schedules/<name>.yaml`), text
};

FleetFiles fleet_files(const World& world);

enum class Rows {
  plain,     // as a user would type them: the order of the rows is the order of entry; no strikes
  exported,  // with ids, times of entry and strikes, as a whole record is written out
};

// Roll-overs that entering the readings must find by itself.
enum class RollOvers { written, left_out };

// Throws std::logic_error where the world cannot be said in that form (strikes in plain rows, found roll-overs in
// exported ones, a span that is no year and no month).
std::string facts_csv(const World& world, Rows rows, RollOvers roll_overs = RollOvers::written);

bool needs_ids(const World& world);
bool has_found_roll_overs(const World& world);

// The id that an exported row of this entry number has: each entry is a command of its own.
std::string batch_id(int entry);
std::string fact_id(int entry);
std::string entered_at(int entry);

}  // namespace twin
