#include "render/new/new.h"
#include "render/shared/json_parts.h"

namespace cli {

std::string made_as_json(const MadeAnswer& made) { return dumped({{"folder", made.folder}, {"made", made.files}}); }

}  // namespace cli
