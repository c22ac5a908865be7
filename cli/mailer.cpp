#include "mailer.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>

#include "mistakes.h"
#include "service/base.h"

extern char** environ;  // NOLINT(readability-redundant-declaration): POSIX leaves it to whoever uses it

namespace cli {
namespace {

using service::Failure;
using service::FailureKind;

constexpr const char* not_handed = "the message was not handed over; the next one will hold the same";

[[noreturn]] void mailer_failed(const std::string& program, const std::string& how) {
  throw Failure(FailureKind::io,
                {"mailer-failed", fmt::format("the mailer `{}` {}", service::cleaned(program), how), not_handed});
}

// A mailer that ends before it has read all is an answer of write(), not our end.
class QuietPipes {
 public:
  QuietPipes() {
    struct sigaction ignore {};
    ignore.sa_handler = SIG_IGN;
    ::sigaction(SIGPIPE, &ignore, &before_);
  }
  QuietPipes(const QuietPipes&) = delete;
  QuietPipes& operator=(const QuietPipes&) = delete;
  ~QuietPipes() { ::sigaction(SIGPIPE, &before_, nullptr); }

 private:
  struct sigaction before_ {};
};

// How the program is started: the message on its standard input, the signals that we ignore as they come by default.
class Start {
 public:
  explicit Start(int message) {
    ::posix_spawn_file_actions_init(&files_);
    ::posix_spawn_file_actions_adddup2(&files_, message, STDIN_FILENO);
    ::posix_spawnattr_init(&signals_);
    sigset_t usual;
    ::sigemptyset(&usual);
    ::sigaddset(&usual, SIGPIPE);
    ::sigaddset(&usual, SIGXFSZ);
    ::posix_spawnattr_setsigdefault(&signals_, &usual);
    ::posix_spawnattr_setflags(&signals_, POSIX_SPAWN_SETSIGDEF);
  }
  Start(const Start&) = delete;
  Start& operator=(const Start&) = delete;
  ~Start() {
    ::posix_spawn_file_actions_destroy(&files_);
    ::posix_spawnattr_destroy(&signals_);
  }

  // The errno of what went wrong, or 0.
  int run(const std::vector<std::string>& words, pid_t& process) const {
    std::vector<std::string> copies = words;
    std::vector<char*> arguments;
    for (std::string& word : copies) arguments.push_back(word.data());
    arguments.push_back(nullptr);
    return ::posix_spawnp(&process, arguments.front(), &files_, &signals_, arguments.data(), environ);
  }

 private:
  posix_spawn_file_actions_t files_{};
  posix_spawnattr_t signals_{};
};

bool write_whole(int file, std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = ::write(file, text.data(), text.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return false;
    text.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

int wait_for(pid_t process) {
  int status = 0;
  while (::waitpid(process, &status, 0) < 0) {
    if (errno != EINTR) return -1;
  }
  return status;
}

}  // namespace

std::vector<std::string> mailer_words(std::string_view written) {
  constexpr std::string_view blanks = " \t\n";
  std::vector<std::string> words;
  for (std::size_t from = written.find_first_not_of(blanks); from != std::string_view::npos;) {
    const std::size_t end = written.find_first_of(blanks, from);
    words.emplace_back(written.substr(from, end - from));
    from = written.find_first_not_of(blanks, std::min(end, written.size()));
  }
  if (words.empty()) wrong("empty-value", "`--mailer` is empty", "name a program, such as --mailer \"sendmail -t -i\"");
  return words;
}

void hand_over(const std::vector<std::string>& words, std::string_view message) {
  const QuietPipes quiet;
  const std::string& program = words.front();
  std::array<int, 2> ends{};
  if (::pipe2(ends.data(), O_CLOEXEC) != 0) mailer_failed(program, "could not be given a pipe");
  pid_t process = 0;
  const int error = Start(ends[0]).run(words, process);
  ::close(ends[0]);
  if (error != 0) {
    ::close(ends[1]);
    mailer_failed(program, error == ENOENT ? "is not there" : error == EACCES ? "may not be run" : "cannot be run");
  }
  const bool whole = write_whole(ends[1], message);
  ::close(ends[1]);
  const int status = wait_for(process);
  if (WIFSIGNALED(status)) mailer_failed(program, fmt::format("was ended by signal {}", WTERMSIG(status)));
  if (!WIFEXITED(status)) mailer_failed(program, "ended nobody knows how");
  if (WEXITSTATUS(status) != 0) mailer_failed(program, fmt::format("failed with {}", WEXITSTATUS(status)));
  if (!whole) mailer_failed(program, "ended with 0 and did not take the whole message");
}

}  // namespace cli
