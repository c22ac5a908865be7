// The overdue list. As text it is what cron mails, and empty exactly when the list is.
#pragma once

#include <string>

#include "render/shared/formats.h"
#include "service/due_list.h"

namespace cli {

std::string overdue_as_text(const service::DueList& list, const Look& look);
// The same shape as the due list, with the entries of the overdue list alone and a heading on each.
std::string overdue_as_json(const service::DueList& list);

// The rows of the due list under their headings.
std::string overdue_as_csv(const service::DueList& list);
std::string overdue_as_markdown(const service::DueList& list, const std::string& command);

inline constexpr Format<service::DueList> overdue_formats[] = {
    {"text", overdue_as_text}, {"json", overdue_as_json}, {"csv", overdue_as_csv}, {"md", overdue_as_markdown}};

}  // namespace cli
