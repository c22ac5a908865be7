// fleet.yaml as a whole.
#pragma once

#include "fleet/reader.h"

namespace service::fleet {

void read_fleet_file(const Reader& reader, const Node& root);

// Its part about mail alone.
Mail read_mail(const Reader& reader, const Node& root);

}  // namespace service::fleet
