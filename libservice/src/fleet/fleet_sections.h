// Everything in fleet.yaml around the machines: sites, seasons, parts, crews, travel, costs and calls.
// Each reads the map under its key into the draft.
#pragma once

#include "fleet/reader.h"

namespace service::fleet {

void read_sites(const Reader& reader, const Field& field);
void read_seasons(const Reader& reader, const Field& field);
void read_parts(const Reader& reader, const Field& field);
void read_crews(const Reader& reader, const Field& field);
void read_travel(const Reader& reader, const Field& field);
void read_costs(const Reader& reader, const Field& field);
void read_calls(const Reader& reader, const Field& field);

// The file that fleet.yaml names as its travel table; empty where there is none.
std::string travel_table_in(const Reader& reader, const Node& root);

}  // namespace service::fleet
