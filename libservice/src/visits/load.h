// What goes on board for work, and what is to be minded at it.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "service/rounds.h"

namespace service::visits {

struct Load {
  std::vector<std::pair<std::string, PartAmount>> parts;  // in the order of names
  std::vector<std::pair<std::string, Quantity>> fluids;   // likewise
};

// Beside what the crew carries, for these points, each done by itself.
Load load_of(const Crew& crew, const std::vector<const Point*>& points);

// What the work of a round, such points, used of what the crew always carries: with the next round it is filled up.
std::vector<std::pair<std::string, PartAmount>> used_of_carried(const Crew& crew,
                                                                const std::vector<const Point*>& points);

// Adds them, in the order of names.
void add_parts(Load& load, const std::vector<std::pair<std::string, PartAmount>>& parts);

// Adds what is not among them yet.
void add_each(std::vector<std::string>& to, const std::vector<std::string>& names);

void sort_by_catalogue(std::vector<std::string>& cautions);

}  // namespace service::visits
