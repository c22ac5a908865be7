#include "terminal/interrupt.h"

namespace cli {
namespace {

// A handler has nothing else that it may write to.
volatile std::sig_atomic_t noted = 0;

extern "C" void note_interrupt(int /*signal*/) { noted = 1; }

}  // namespace

Interrupt::Interrupt() {
  noted = 0;
  if (::sigaction(SIGINT, nullptr, &before_) != 0 || before_.sa_handler == SIG_IGN) return;
  struct sigaction heeding {};
  heeding.sa_handler = note_interrupt;
  heeding.sa_flags = static_cast<int>(SA_RESETHAND) | SA_RESTART;
  ::sigemptyset(&heeding.sa_mask);
  heeded_ = ::sigaction(SIGINT, &heeding, nullptr) == 0;
}

Interrupt::~Interrupt() {
  if (heeded_) ::sigaction(SIGINT, &before_, nullptr);
}

bool Interrupt::asked_for() const { return heeded_ && noted != 0; }

}  // namespace cli
