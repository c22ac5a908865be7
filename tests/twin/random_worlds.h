// What random worlds are made of.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "worlds.h"

namespace twin {

class Luck {
 public:
  explicit Luck(std::uint64_t seed) : engine_(seed) {}
  // The same on every platform, which the standard distributions are not.
  int below(int n) { return static_cast<int>(engine_() % static_cast<std::uint64_t>(n)); }
  int between(int low, int high) { return low + below(high - low + 1); }
  bool chance(int percent_of_cases) { return below(100) < percent_of_cases; }
  template <class T>
  const T& one_of(const std::vector<T>& list) {
    return list[static_cast<std::size_t>(below(static_cast<int>(list.size())))];
  }

 private:
  std::mt19937_64 engine_;
};

struct RandomMachine {
  const Machine* machine = nullptr;
  std::vector<Meter> meters;
  Day truth_from = 0;
  std::map<std::string, std::vector<Amount>> truth;  // the usage at the end of each day from `truth_from`

  Amount at_end_of(const std::string& meter, Day day) const {
    const std::vector<Amount>& t = truth.at(meter);
    const int i = std::clamp(day - truth_from, 0, static_cast<int>(t.size()) - 1);
    return t[static_cast<std::size_t>(i)];
  }
};

// Limbs for `first`, `in` and `change`: other numbers for some of the usage and calendar limbs, sometimes a new one.
std::vector<Limb> random_replacement(Luck& luck, const std::vector<Limb>& every);
std::optional<Grace> random_grace(Luck& luck, const std::vector<Meter>& meters, bool for_fleet);
Task random_task(Luck& luck, int i, const std::vector<Task>& before, const std::vector<Meter>& meters,
                 const std::vector<Season>& seasons_of_fleet, const RandomOptions& options);

std::vector<Fact> random_facts(Luck& luck, const World& w, const RandomMachine& rm, const Schedule& schedule,
                               const RandomOptions& options);

// A random world seldom stands exactly on a due point, and that is where the mistakes are. So most worlds are moved
// there: the as-of day to a due day, or to the last day of grace, or one off either; or a last reading is added that
// is exactly on a due point, or at the end of grace, or a hundredth off.
void move_to_a_due_day(Luck& luck, World& w);
void add_a_telling_reading(Luck& luck, World& w);

}  // namespace twin
