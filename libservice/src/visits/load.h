// What goes on board for work, and what is to be minded at it.
#pragma once

#include <map>
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

// Crews load for one round or trip after the other. What they always carry is on board when the first of them begins;
// what its work used of that is filled up with the next one.
class LoadsOfCrews {
 public:
  struct Loaded {
    Load load;
    std::vector<std::pair<std::string, PartAmount>> fills_up;  // of it; by name
  };

  // The crew's next one, whose work is such points. No crew: nobody of this fleet goes.
  Loaded next(const Crew* crew, const std::vector<const Point*>& work);

 private:
  std::map<const Crew*, std::vector<const Point*>> before_;
};

// Adds what is not among them yet.
void add_each(std::vector<std::string>& to, const std::vector<std::string>& names);

void sort_by_catalogue(std::vector<std::string>& cautions);

}  // namespace service::visits
