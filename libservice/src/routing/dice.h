// Chance with a name: the same numbers on every machine. (The standard says how its engines count, but not how its
// distributions draw.)
#pragma once

#include <cstddef>
#include <cstdint>
#include <random>
#include <utility>
#include <vector>

namespace service::routing {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}

  // Of 0 to `count` - 1; `count` is not 0. The last few numbers are a hair less likely, which does no harm here.
  std::size_t below(std::size_t count) { return static_cast<std::size_t>(engine_() % count); }

  double share() { return static_cast<double>(engine_() >> 11U) * 0x1p-53; }  // from 0 to just below 1

  template <class Thing>
  void shuffle(std::vector<Thing>& things) {
    for (std::size_t i = things.size(); i > 1; --i) std::swap(things[i - 1], things[below(i)]);
  }

 private:
  std::mt19937_64 engine_;
};

}  // namespace service::routing
