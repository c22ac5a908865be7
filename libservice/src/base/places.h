// From an offset in a text to the place people know: line, column in characters, and the line itself.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "service/base.h"

namespace service {

class Places {
 public:
  Places(std::string_view text, std::string file);

  Place at(std::size_t offset) const;
  int line_of(std::size_t offset) const;
  std::size_t lines() const { return lines_.size(); }

 private:
  std::string_view text_;
  std::string file_;
  std::vector<std::size_t> lines_;  // offsets of their first bytes
};

}  // namespace service
