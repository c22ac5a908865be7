// What the stops of a plan take along and stock does not cover.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "service/planned_load.h"
#include "service/rounds_list.h"
#include "service/workload.h"

namespace service::visits {

using Carried = std::map<std::string, PartAmount>;

Carried carried_by(const Crew& crew);

// Without what the crew carries, which is used up with that.
std::vector<std::pair<std::string, PartAmount>> beside(Carried& carried,
                                                       const std::vector<std::pair<std::string, PartAmount>>& parts);

// Fills in what each lacks, in their order.
void take_from_stock(std::vector<PlannedLoad>& loads, const PartsList& parts);

// Of those that are told.
std::vector<ShortPart> short_parts(const std::vector<PlannedLoad>& loads);

// Of these, made in one go. Nothing is kept from one for the other.
std::vector<PartLack> lacks_of(const std::vector<PlannedLoad>& loads,
                               const std::function<bool(const PlannedLoad&)>& is_one);

}  // namespace service::visits
