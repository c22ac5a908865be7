// What a linear program says that jobs, shifts and triples of jobs are worth, in whole thousandths.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

namespace service::routing {

// Thousandths of the smallest unit of money: duals are rounded to whole ones, so that a bound made with them is exact.
using Mills = std::int64_t;

inline constexpr Mills mills = 1000;

// The smallest whole unit that is not below: costs are whole, so what proves a part of one proves all of it.
constexpr Mills whole_up(Mills number) { return number >= 0 ? (number + mills - 1) / mills : -((-number) / mills); }

// Three jobs, of which no two rounds can both do two (subset-row cuts after Jepsen, Petersen, Spoorendonk and Pisinger
// 2008).
using Triple = std::array<int, 3>;

// None is above 0. Whatever they are, they give a valid bound.
struct Prices {
  std::vector<Mills> jobs;
  std::vector<Mills> kinds;  // by kind of shift
  std::vector<Triple> triples;
  std::vector<Mills> of_triples;
};

}  // namespace service::routing
