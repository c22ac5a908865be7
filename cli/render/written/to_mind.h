// What somebody has to hear of who entered facts, in words and as JSON.
#pragma once

#include <string>

#include "render/shared/json_parts.h"
#include "service/entry.h"

namespace cli {

// Lines for people, folded; empty where there is nothing of it. `command`: how printed commands begin.
std::string run_not_in_use_lines(const service::Entered& entered, const std::string& command);
std::string not_put_off_lines(const service::Entered& entered, const std::string& command);
std::string not_to_run_lines(const service::Entered& entered);  // but for machines out of use, which come first
std::string unsafe_now_lines(const service::Entered& entered, const std::string& command);
std::string ended_lines(const service::MachineUse& ended, const std::string& command);
std::string values_ended_lines(const service::Entered& entered, const std::string& command);
std::string values_healed_lines(const service::Entered& entered, const std::string& command);

Json run_not_in_use_as_json(const service::Entered& entered, const service::NotToRun& stopped);
Json not_put_off_as_json(const service::Entered& entered, const service::NotToRun& stopped);
Json unsafe_now_as_json(const service::Entered& entered);
Json values_ended_as_json(const service::Entered& entered, const std::string& command);
Json values_healed_as_json(const service::Entered& entered);
Json wrong_as_json(const service::Point& point, const service::NotToRun& stopped);

}  // namespace cli
