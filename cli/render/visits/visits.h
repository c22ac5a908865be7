// On which days of the weeks ahead to go to each site.
#pragma once

#include <string>

#include "render/shared/formats.h"
#include "service/visits_list.h"

namespace cli {

std::string visits_as_text(const service::VisitsList& list, const Look& look);
std::string visits_as_json(const service::VisitsList& list);
std::string visits_as_csv(const service::VisitsList& list);  // a row a visit, with its trip; a row each of its tasks

inline constexpr Format<service::VisitsList> visits_formats[] = {
    {"text", visits_as_text}, {"json", visits_as_json}, {"csv", visits_as_csv}};

}  // namespace cli
