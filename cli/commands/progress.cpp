#include "commands/progress.h"

#include <fmt/format.h>

namespace cli {

std::function<void(std::size_t, std::size_t)> progress(const Context& context, const std::string& what) {
  if (!context.world.error_terminal) return {};
  return [&world = context.world, what](std::size_t done, std::size_t all) {
    constexpr std::size_t few = 20;
    if (all < few) return;
    if (done + 1 == all) {
      world.write_error("\r\033[K");  // the line goes, the answer comes
    } else if (done % (all / few) == 0) {
      world.write_error(fmt::format("\r{}: {} % ", what, done * 100 / all));
    }
  };
}

}  // namespace cli
