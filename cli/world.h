// What the command needs from the world around it, so that a test can stand in for all of it.
#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace cli {

struct World {
  std::function<std::int64_t()> milliseconds;                              // since 1970, UTC
  std::function<std::optional<std::string>(const std::string&)> variable;  // of the environment
  std::function<std::array<std::uint8_t, 10>()> draw;                      // random bytes for ids
  std::function<std::string()> read_input;                                 // all of standard input
  std::function<int(std::string_view)> write_output;                       // 0, or the errno of what went wrong
  std::function<void(std::string_view)> write_error;
  // Milliseconds on a clock that nobody sets: how long something takes.
  std::function<std::int64_t()> elapsed = [] { return std::int64_t{0}; };
  std::filesystem::path folder = ".";  // where the search for a fleet starts
  bool terminal = false;               // standard output is one
  int columns = 0;                     // its width; 0 where it is not known
  bool error_terminal = false;         // standard error is one: long work may say how far it is
};

World real_world();

}  // namespace cli
