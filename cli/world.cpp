// The real world: clock, environment, random bytes and streams of this process.
#include "world.h"

#include <sys/ioctl.h>
#include <sys/random.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <cstdlib>

#include "output.h"
#include "service/base.h"

namespace cli {
namespace {

// Writes all of it; the errno of what went wrong, or 0.
int write_all(int file, std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = ::write(file, text.data(), text.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return errno;
    text.remove_prefix(static_cast<std::size_t>(written));
  }
  return 0;
}

std::string read_all(int file) {
  std::string text;
  std::array<char, 65536> block{};
  for (;;) {
    const ssize_t got = ::read(file, block.data(), block.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) throw service::Failure(service::FailureKind::io, {"cannot-read", "standard input cannot be read", ""});
    if (got == 0) return text;
    text.append(block.data(), static_cast<std::size_t>(got));
    if (text.size() > largest_input) {
      throw service::Failure(service::FailureKind::bad_data,
                             {"file-too-large", "standard input does not end within 256 MiB",
                              "check that it is the right file; a large one can be read in parts"});
    }
  }
}

std::array<std::uint8_t, 10> random_bytes() {
  std::array<std::uint8_t, 10> bytes{};
  std::size_t have = 0;
  while (have < bytes.size()) {
    const ssize_t got = ::getrandom(bytes.data() + have, bytes.size() - have, 0);
    if (got < 0 && errno == EINTR) continue;
    // An id that is not drawn at random could be drawn twice, and two facts would become one.
    if (got < 0) {
      throw service::Failure(service::FailureKind::io,
                             {"no-random-bytes", "the system gives no random bytes, so nothing was stored", ""});
    }
    have += static_cast<std::size_t>(got);
  }
  return bytes;
}

}  // namespace

World real_world() {
  World world;
  world.milliseconds = [] {
    const auto now = std::chrono::system_clock::now().time_since_epoch();
    return static_cast<std::int64_t>(std::chrono::duration_cast<std::chrono::milliseconds>(now).count());
  };
  world.variable = [](const std::string& name) -> std::optional<std::string> {
    const char* value = std::getenv(name.c_str());
    if (value == nullptr) return std::nullopt;
    return std::string{value};
  };
  world.draw = random_bytes;
  world.read_input = [] { return read_all(STDIN_FILENO); };
  world.write_output = [](std::string_view text) { return write_all(STDOUT_FILENO, text); };
  world.write_error = [](std::string_view text) { write_all(STDERR_FILENO, text); };
  world.elapsed = [] {
    const auto now = std::chrono::steady_clock::now().time_since_epoch();
    return static_cast<std::int64_t>(std::chrono::duration_cast<std::chrono::milliseconds>(now).count());
  };
  world.terminal = ::isatty(STDOUT_FILENO) == 1;
  world.error_terminal = ::isatty(STDERR_FILENO) == 1;
  winsize size{};
  if (world.terminal && ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0) world.columns = size.ws_col;
  return world;
}

}  // namespace cli
