// Service points as a table in Markdown.
#pragma once

#include <string>
#include <vector>

#include "service/due_list.h"

namespace cli {

// In the order of the list; the lines of machines without record stand behind what is due. Empty where there are none.
// `command`: how printed commands begin.
std::string markdown_points(const std::vector<const service::Point*>& points,
                            const std::vector<service::NoRecord>& no_record, const service::DueList& list,
                            const std::string& command);

// A line of a list for each: `- **pump-3**: no reading for 119 days`.
std::string markdown_gaps(const std::vector<const service::Gap*>& gaps);
std::string markdown_machine(const service::MachineUse& use);
std::string markdown_seen(const service::SeenSign& seen);

}  // namespace cli
