// register.csv: machines as rows, for fleets that live in a spreadsheet.
#pragma once

#include "fleet/draft.h"

namespace service::fleet {

void read_register(const Source& source, Diagnostics& diagnostics, Draft& draft);

}  // namespace service::fleet
