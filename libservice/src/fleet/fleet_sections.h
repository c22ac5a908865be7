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

}  // namespace service::fleet
