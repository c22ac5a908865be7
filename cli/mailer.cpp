#include "mailer.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <spawn.h>
#include <sys/ioctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <optional>
#include <utility>

#include "mistakes.h"
#include "service/base.h"

extern char** environ;  // NOLINT(readability-redundant-declaration): POSIX leaves it to whoever uses it

namespace cli {
namespace {

using service::Failure;
using service::FailureKind;

constexpr const char* not_handed = "the message was not handed over; the next one will hold the same";

[[noreturn]] void mailer_failed(const std::string& program, const std::string& how, const std::string& hint = "") {
  throw Failure(FailureKind::io, {"mailer-failed", fmt::format("the mailer `{}` {}", service::cleaned(program), how),
                                  hint + not_handed});
}

[[noreturn]] void mailer_not_started(const std::string& program, int error) {
  if (error == EACCES) mailer_failed(program, "may not be run");
  if (error != ENOENT) mailer_failed(program, "cannot be run");
  // Cron looks in /usr/bin and /bin alone.
  const bool whole = program.find('/') != std::string::npos;
  mailer_failed(program, "is not there", whole ? "" : "give its full path, such as /usr/sbin/sendmail; ");
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

// A pipe of our own: of both ends, so that what nobody read is still there to be counted when the mailer has ended.
class Pipe {
 public:
  Pipe() = default;
  Pipe(const Pipe&) = delete;
  Pipe& operator=(const Pipe&) = delete;
  ~Pipe() {
    close(ends_[0]);
    close(ends_[1]);
  }

  bool open() {
    if (::pipe2(ends_.data(), O_CLOEXEC) != 0) return false;
    const int flags = ::fcntl(ends_[1], F_GETFL);
    return flags >= 0 && ::fcntl(ends_[1], F_SETFL, flags | O_NONBLOCK) == 0;
  }
  int read_end() const { return ends_[0]; }
  int write_end() const { return ends_[1]; }
  void end() { close(ends_[1]); }

  bool holds_unread() const {
    int unread = 0;
    return ::ioctl(ends_[0], FIONREAD, &unread) != 0 || unread > 0;
  }

 private:
  static void close(int& end) {
    if (const int open = std::exchange(end, -1); open >= 0) ::close(open);
  }
  std::array<int, 2> ends_{-1, -1};
};

// Somebody sits there, whom a mailer may ask for a password.
bool has_terminal() {
  const int terminal = ::open("/dev/tty", O_RDONLY | O_CLOEXEC | O_NOCTTY);
  if (terminal < 0) return false;
  ::close(terminal);
  return true;
}

// How the program is started: the message on its standard input, the signals that we ignore as they come by default.
// Without a terminal it leads a group of its own, so that what it has started can be stopped with it; on a terminal it
// could not ask anything from there.
class Start {
 public:
  explicit Start(int message) : leads_(!has_terminal()) {
    ::posix_spawn_file_actions_init(&files_);
    ::posix_spawn_file_actions_adddup2(&files_, message, STDIN_FILENO);
    ::posix_spawnattr_init(&how_);
    sigset_t usual;
    ::sigemptyset(&usual);
    ::sigaddset(&usual, SIGPIPE);
    ::sigaddset(&usual, SIGXFSZ);
    ::posix_spawnattr_setsigdefault(&how_, &usual);
    ::posix_spawnattr_setpgroup(&how_, 0);
    const int flags = POSIX_SPAWN_SETSIGDEF | (leads_ ? POSIX_SPAWN_SETPGROUP : 0);
    ::posix_spawnattr_setflags(&how_, static_cast<short>(flags));
  }
  Start(const Start&) = delete;
  Start& operator=(const Start&) = delete;
  ~Start() {
    ::posix_spawn_file_actions_destroy(&files_);
    ::posix_spawnattr_destroy(&how_);
  }

  bool leads() const { return leads_; }

  // The errno of what went wrong, or 0.
  int run(const std::vector<std::string>& words, pid_t& process) const {
    std::vector<std::string> copies = words;
    std::vector<char*> arguments;
    for (std::string& word : copies) arguments.push_back(word.data());
    arguments.push_back(nullptr);
    return ::posix_spawnp(&process, arguments.front(), &files_, &how_, arguments.data(), environ);
  }

 private:
  bool leads_;
  posix_spawn_file_actions_t files_{};
  posix_spawnattr_t how_{};
};

using Clock = std::chrono::steady_clock;
using std::chrono::milliseconds;

constexpr milliseconds longest_pause{50};

// A mailer that runs: its end, or that it does not come.
class Running {
 public:
  Running(pid_t process, bool leads) : process_(process), whole_(leads ? -process : process) {}

  // Whether it has ended by now.
  bool ended() {
    if (status_) return true;
    int status = 0;
    const pid_t changed = ::waitpid(process_, &status, WNOHANG);
    if (changed == 0 || (changed < 0 && errno == EINTR)) return false;
    status_ = changed < 0 ? -1 : status;
    return true;
  }

  bool ends_by(Clock::time_point limit) {
    milliseconds pause{1};
    while (!ended()) {
      if (Clock::now() >= limit) return false;
      ::poll(nullptr, 0, static_cast<int>(pause.count()));
      pause = std::min(2 * pause, longest_pause);
    }
    return true;
  }

  // Asked first, for it may have files of its own to take away.
  void stop() {
    constexpr milliseconds to_tidy_up{2000};
    ::kill(whole_, SIGTERM);
    const bool by_itself = ends_by(Clock::now() + to_tidy_up);
    if (!by_itself || whole_ < 0) ::kill(whole_, SIGKILL);  // what it has started, too
    while (!by_itself && !ended()) ::poll(nullptr, 0, 1);
  }

  int status() const { return *status_; }

 private:
  pid_t process_;
  pid_t whole_;  // as kill() names it
  std::optional<int> status_;
};

enum class Taken { whole, ended_before, hangs };

Taken write_whole(const Pipe& pipe, std::string_view text, Running& mailer, Clock::time_point limit) {
  while (!text.empty()) {
    const ssize_t written = ::write(pipe.write_end(), text.data(), text.size());
    if (written > 0) {
      text.remove_prefix(static_cast<std::size_t>(written));
      continue;
    }
    if (errno == EINTR) continue;
    // We hold the end for reading as well, so that the pipe is only ever full.
    if (errno != EAGAIN || mailer.ended()) return Taken::ended_before;
    if (Clock::now() >= limit) return Taken::hangs;
    pollfd wait{pipe.write_end(), POLLOUT, 0};
    ::poll(&wait, 1, static_cast<int>(longest_pause.count()));
  }
  return Taken::whole;
}

std::string limit_words(milliseconds limit) {
  const auto minutes = std::chrono::duration_cast<std::chrono::minutes>(limit);
  if (minutes == limit) return service::counted(minutes.count(), "minute", "minutes");
  return fmt::format("{} ms", limit.count());
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
  if (words.empty())
    wrong("empty-value", "`--mailer` is empty", "name a program, such as --mailer \"/usr/sbin/sendmail -t -i\"");
  return words;
}

void hand_over(const std::vector<std::string>& words, std::string_view message, std::chrono::milliseconds limit) {
  const QuietPipes quiet;
  const std::string& program = words.front();
  Pipe pipe;
  if (!pipe.open()) mailer_failed(program, "could not be given a pipe");
  pid_t process = 0;
  const Start start(pipe.read_end());
  if (const int error = start.run(words, process); error != 0) mailer_not_started(program, error);
  const Clock::time_point give_up = Clock::now() + limit;
  Running mailer(process, start.leads());
  const Taken taken = write_whole(pipe, message, mailer, give_up);
  pipe.end();
  if (taken == Taken::hangs || !mailer.ends_by(give_up)) {
    mailer.stop();
    mailer_failed(program, fmt::format("did not end within {} and was stopped", limit_words(limit)));
  }
  const int status = mailer.status();
  if (WIFSIGNALED(status)) mailer_failed(program, fmt::format("was ended by signal {}", WTERMSIG(status)));
  if (!WIFEXITED(status)) mailer_failed(program, "ended nobody knows how");
  if (WEXITSTATUS(status) != 0) mailer_failed(program, fmt::format("failed with {}", WEXITSTATUS(status)));
  if (taken != Taken::whole || pipe.holds_unread()) {
    mailer_failed(program, "ended with 0 and did not read the whole message");
  }
}

}  // namespace cli
