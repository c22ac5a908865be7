#include "terminal/progress_line.h"

#include <fmt/format.h>

namespace cli {
namespace {

constexpr std::string_view take_away = "\r\033[K";

}  // namespace

ProgressLine::ProgressLine(const World& world)
    : world_(world),
      wanted_(world.error_terminal && world.variable("TERM").value_or("") != "dumb"),
      begun_(world.elapsed()) {}

bool ProgressLine::is_time() {
  constexpr std::int64_t at_first = 1000;  // milliseconds
  constexpr std::int64_t then = 200;
  if (!is_wanted()) return false;
  const std::int64_t now = world_.elapsed();
  if (said_ ? now - *said_ < then : now - begun_ < at_first) return false;
  said_ = now;
  return true;
}

void ProgressLine::say(std::string_view text) {
  if (is_time()) world_.write_error(fmt::format("{}{} ", take_away, text));
}

void ProgressLine::say(std::string_view what, std::size_t done, std::size_t all) {
  if (all > 0 && is_time()) world_.write_error(fmt::format("{}{}: {} % ", take_away, what, done * 100 / all));
}

void ProgressLine::clear() {
  if (said_) world_.write_error(take_away);
  said_.reset();
}

}  // namespace cli
