// The overdue list. As text it is what cron mails, and empty exactly when the list is.
#pragma once

#include <optional>
#include <string>

#include "render/shared/formats.h"
#include "service/calendar.h"
#include "service/due_list.h"

namespace cli {

std::string overdue_as_text(const service::DueList& list, const Look& look);
// The same shape as the due list, with the entries of the overdue list alone and a heading on each.
std::string overdue_as_json(const service::DueList& list);

// The rows of the due list under their headings.
std::string overdue_as_csv(const service::DueList& list);
std::string overdue_as_markdown(const service::DueList& list, const std::string& command);

struct OverdueAnswer {
  service::DueList list;
  std::optional<service::Calendar> calendar = {};  // of this list, where one is asked for
};

// An empty list is a calendar of one event, which says so: a calendar that nobody renews would be empty as well.
std::string overdue_as_ics(const OverdueAnswer& overdue, const std::string& command);

inline constexpr Format<OverdueAnswer> overdue_formats[] = {
    {"text", +[](const OverdueAnswer& answer, const Look& look) { return overdue_as_text(answer.list, look); }},
    {"json", +[](const OverdueAnswer& answer) { return overdue_as_json(answer.list); }},
    {"csv", +[](const OverdueAnswer& answer) { return overdue_as_csv(answer.list); }},
    {"md", +[](const OverdueAnswer& answer,
               const std::string& command) { return overdue_as_markdown(answer.list, command); }},
    {"ics", overdue_as_ics}};

}  // namespace cli
