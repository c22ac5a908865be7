// What stays open though somebody may take it for settled (`left_open.h`), in words and as JSON.
#pragma once

#include <string>

#include "render/shared/json_parts.h"
#include "service/left_open.h"

namespace cli {

// Lines for people; empty where there is nothing of it. `command`: how printed commands begin.
std::string stops_not_taken_lines(const service::Entered& entered, const std::string& command);
std::string newly_asked_lines(const service::Entered& entered);
std::string signs_left_lines(const service::Entered& entered, const std::string& command);

Json stops_not_taken_as_json(const service::Entered& entered);
Json newly_asked_as_json(const service::Entered& entered);
Json signs_left_as_json(const service::Entered& entered);

}  // namespace cli
