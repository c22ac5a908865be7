// Large values in order: each is moved once to its place, and no second list of them is made.
#pragma once

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <utility>
#include <vector>

namespace service {

// `from`: of each place, where its value is now.
template <class Value>
void move_to_places(std::vector<Value>& values, std::vector<std::size_t> from) {
  for (std::size_t first = 0; first < from.size(); ++first) {
    if (from[first] == first) continue;
    Value held = std::move(values[first]);
    std::size_t at = first;
    while (from[at] != first) {
      values[at] = std::move(values[from[at]]);
      at = std::exchange(from[at], at);
    }
    values[at] = std::move(held);
    from[at] = at;
  }
}

// `comes_first` compares indexes.
template <class Value, class Compare>
void order_in_place(std::vector<Value>& values, Compare comes_first) {
  std::vector<std::size_t> from(values.size());
  std::iota(from.begin(), from.end(), std::size_t{0});
  std::stable_sort(from.begin(), from.end(), comes_first);
  move_to_places(values, std::move(from));
}

}  // namespace service
