// Schedules: what a kind of machine needs.
#pragma once

#include "fleet/reader.h"

namespace service::fleet {

// One file; `stem` is its name without the suffix.
ScheduleDraft read_schedule(const Reader& reader, const Node& root, const std::string& stem);

// Parts and fluids of a task, or of a machine's change to one.
std::vector<std::pair<std::string, PartAmount>> read_part_counts(const Reader& reader, const Field& field);
std::vector<std::pair<std::string, Quantity>> read_fluids(const Reader& reader, const Field& field);
std::vector<std::string> read_positions(const Reader& reader, const Field& field);

}  // namespace service::fleet
