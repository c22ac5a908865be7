// The solver as a file of its own, which the command loads when a plan is made.
#include "routing/loading/module.h"

#include "routing/clp.h"

extern "C" __attribute__((visibility("default"))) service::routing::LinearProgram* whichever_linear_program() {
  return std::make_unique<service::routing::ClpProgram>().release();
}
