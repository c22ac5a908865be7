// What is not known, with blanks: to print and take round, or to fill in and import.
#pragma once

#include <string>

#include "render/shared/formats.h"
#include "service/due_list.h"

namespace cli {

std::string find_out_as_text(const service::DueList& list, const Look& look);
// The columns that `import` reads, with blanks for day and value. A row left blank stays unknown.
std::string find_out_as_csv(const service::DueList& list);
std::string find_out_as_json(const service::DueList& list);

inline constexpr Format<service::DueList> find_out_formats[] = {
    {"text", find_out_as_text}, {"csv", find_out_as_csv}, {"json", find_out_as_json}};

}  // namespace cli
