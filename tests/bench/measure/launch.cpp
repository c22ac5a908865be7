// Starts a command and prints what it took: microseconds of user, system and wall time, kB at its peak, its exit
// status. A small program, because a process is charged with the peak of the one that it was forked from: Python's is
// 10 MB. usage: launch FILE-FOR-ITS-OUTPUT COMMAND [WORD...]

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>

namespace {

long microseconds(const timeval& time) { return time.tv_sec * 1'000'000L + time.tv_usec; }

long now() {
  timespec time{};
  clock_gettime(CLOCK_MONOTONIC, &time);
  return time.tv_sec * 1'000'000L + time.tv_nsec / 1'000;
}

[[noreturn]] void become(char** words) {
  const int out = open(words[0], O_WRONLY | O_CREAT | O_TRUNC, 0600);
  const int in = open("/dev/null", O_RDONLY);
  if (out < 0 || in < 0 || dup2(out, STDOUT_FILENO) < 0 || dup2(in, STDIN_FILENO) < 0) _exit(126);
  execv(words[1], words + 1);
  _exit(127);
}

}  // namespace

int main(int count, char** words) {
  if (count < 3) return 64;
  const long start = now();
  const pid_t child = fork();
  if (child < 0) return 71;
  if (child == 0) become(words + 1);
  int status = 0;
  rusage used{};
  if (wait4(child, &status, 0, &used) != child) return 71;
  const long wall = now() - start;
  std::printf("%ld %ld %ld %ld %d\n", microseconds(used.ru_utime), microseconds(used.ru_stime), wall, used.ru_maxrss,
              WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status));
}
