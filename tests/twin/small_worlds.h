// What the families of small worlds are made of, and the families.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "planned.h"

namespace twin {

// Takes one digit after the other off an index. How many digits there are, and how large each may be, must not
// depend on the digits: then the product is the number of worlds.
class Dial {
 public:
  explicit Dial(std::size_t index) : rest_(index) {}
  int take(int n) {
    size_ *= static_cast<std::size_t>(n);
    const int digit = static_cast<int>(rest_ % static_cast<std::size_t>(n));
    rest_ /= static_cast<std::size_t>(n);
    return digit;
  }
  std::size_t size() const { return size_; }

 private:
  std::size_t rest_;
  std::size_t size_ = 1;
};

// All subsets of at most `most` of the grid's days.
std::vector<std::vector<int>> subsets(const std::vector<int>& grid, int most);

// A schedule without tasks and a machine `unit` of it, new (0), bought (1) or neither.
World small_world(int start_kind, Day start, Amount at);
Planned service(const std::string& task, Day day);
void finish(World& w, std::vector<Planned>& planned);

World calendar_chains(Dial& d);
World usage_chains(Dial& d);
World which_limbs(Dial& d);
World covers_and_changes(Dial& d);
World signs_and_measurements(Dial& d);
World seasons(Dial& d);
World meters(Dial& d);

}  // namespace twin
