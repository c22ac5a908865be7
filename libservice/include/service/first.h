// Lists cut short, where only their first rows were asked for.
//
// A list is never cut as a whole, for its end may be what matters: of each standing, or of each block, the first rows
// stay. What is not known, what was seen and machines out of use are never cut. How many were left off is said.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#pragma GCC visibility push(default)

namespace service {

// Keeps the first rows of each block; no number: all. `block_of` says of a row to which it belongs; the rows of a block
// need not stand together. Returns how many were left off.
template <class Row, class BlockOf>
std::size_t keep_first(std::vector<Row>& rows, std::optional<std::size_t> first, BlockOf block_of) {
  if (!first) return 0;
  std::map<decltype(block_of(rows.front())), std::size_t> kept;
  return std::erase_if(rows, [&](const Row& row) { return ++kept[block_of(row)] > *first; });
}

// Of a list that is one block.
template <class Row>
std::size_t keep_first(std::vector<Row>& rows, std::optional<std::size_t> first) {
  return keep_first(rows, first, [](const Row&) { return 0; });
}

}  // namespace service

#pragma GCC visibility pop
