// The travel table: how long and how far it is from one site to another, as rows of a CSV file beside fleet.yaml.
#pragma once

#include <string>
#include <string_view>

#include "fleet/draft.h"

namespace service::fleet {

// A CSV file in the folder itself, and none of those that mean something else.
bool is_table_name(std::string_view name);

// What the text of fleet.yaml names as the travel table, as far as that can be made out; else empty.
std::string travel_table_of(std::string_view fleet_yaml);

void read_travel_table(const Source& source, Diagnostics& diagnostics, Draft& draft);

// In the order of `from`, then `to`, by which ways are looked up.
void put_in_order(Travel& travel);

}  // namespace service::fleet
