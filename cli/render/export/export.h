// The whole record, in the forms in which facts travel. The library writes them, for it reads them too.
#pragma once

#include <vector>

#include "render/shared/formats.h"
#include "service/record.h"

namespace cli {

inline constexpr Format<std::vector<service::Fact>> export_formats[] = {
    {"csv", service::facts_to_csv}, {"jsonl", service::facts_to_json_lines}, {"json", service::facts_to_json_lines}};

}  // namespace cli
