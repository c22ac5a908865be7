// What waits to be mended, as JSON: the same keys in every answer. For the files that write JSON alone.
#pragma once

#include <vector>

#include "render/shared/json_parts.h"
#include "service/waiting_to_mend.h"

namespace cli {

// What was seen, how it was found, of which task, and the call that may be for it.
Json to_mend_as_json(const std::vector<service::WaitsToMend>& waiting, const service::Fleet& fleet,
                     const service::NotToRun& stopped);

}  // namespace cli
