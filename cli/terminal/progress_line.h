// How far long work is, on standard error: a line that is there while it lasts, and only where somebody sees it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "world.h"

namespace cli {

// Says nothing within the first second, and nothing where standard error is no terminal, or one that cannot
// take a line away.
class ProgressLine {
 public:
  explicit ProgressLine(const World& world);
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;
  ~ProgressLine() { clear(); }

  bool is_wanted() const { return wanted_; }

  // In place of what it said before, if it is time to say something.
  void say(std::string_view text);
  void say(std::string_view what, std::size_t done, std::size_t all);

  // The line goes, the answer comes.
  void clear();

 private:
  bool is_time();

  const World& world_;
  bool wanted_;
  std::int64_t begun_;
  std::optional<std::int64_t> said_;
};

}  // namespace cli
