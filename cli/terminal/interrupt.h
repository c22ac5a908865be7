// Ctrl-C while a command works on something that it can end early, with what it has so far.
#pragma once

#include <csignal>

namespace cli {

// As long as it lives the first Ctrl-C is only noted, and a second one ends the program at once, as ever. Where whoever
// started the program turned Ctrl-C off, it stays off. One at a time.
class Interrupt {
 public:
  Interrupt();
  Interrupt(const Interrupt&) = delete;
  Interrupt& operator=(const Interrupt&) = delete;
  ~Interrupt();

  bool asked_for() const;

 private:
  struct sigaction before_ {};
  bool heeded_ = false;
};

}  // namespace cli
