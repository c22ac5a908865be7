// The command `whichever`. All it does is in run(), which tests call in process.
#include <csignal>
#include <string>
#include <vector>

#include "run.h"
#include "world.h"

int main(int count, char** values) {
  // A reader that went away and a full quota are answers of write(), not the end of the process.
  std::signal(SIGPIPE, SIG_IGN);
  std::signal(SIGXFSZ, SIG_IGN);
  const std::vector<std::string> arguments(values + (count > 0 ? 1 : 0), values + count);
  return cli::run(arguments, cli::real_world());
}
