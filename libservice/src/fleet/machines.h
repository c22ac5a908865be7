// The machines of fleet.yaml.
#pragma once

#include "fleet/reader.h"

namespace service::fleet {

// The map under `machines:`, into the draft.
void read_machines(const Reader& reader, const Field& field);

}  // namespace service::fleet
