// Rules that one value, or one thing, can break by itself, whoever wrote it.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <unordered_set>
#include <utility>

#include "fleet/diagnostics.h"
#include "service/fleet.h"

namespace service::fleet {

// Each returns whether all is well.
bool check_name(std::string_view name, const Spot& spot, Diagnostics& diagnostics);
bool check_season_name(const std::string& name, const Spot& spot, Diagnostics& diagnostics);
bool check_position(const std::string& position, std::unordered_set<std::string>& seen, const Spot& spot,
                    Diagnostics& diagnostics);
bool check_caution(std::string_view written, const Spot& spot, Diagnostics& diagnostics);
bool check_has_tasks(bool has_tasks, const Spot& spot, Diagnostics& diagnostics);
// `seen`: the ways told so far.
bool check_way(const TravelRow& way, std::set<std::pair<std::string, std::string>>& seen, const Spot& spot,
               Diagnostics& diagnostics);
bool check_call(const Call& call, bool names_site, bool names_machine, const Spot& spot, Diagnostics& diagnostics);

}  // namespace service::fleet
