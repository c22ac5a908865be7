// The linear programs of the command. It defines what `clp.cpp` of the library would, so that it is linked without the
// solver: that and what it needs take longer to load than most answers take to work out.
#include <dlfcn.h>

#include "routing/loading/module.h"
#include "service/base.h"

namespace service::routing {
namespace {

SolverFunction loaded() {
  void* const file = ::dlopen(solver_file, RTLD_NOW | RTLD_LOCAL);  // looked for where the command says (RUNPATH)
  void* const function = file != nullptr ? ::dlsym(file, solver_function) : nullptr;
  if (function == nullptr) {
    throw Failure(FailureKind::io, {"no-solver", "the part that plans rounds, whichever-solver.so, cannot be loaded",
                                    "install the program again with all its files, and CLP (coinor-libclp1)"});
  }
  return reinterpret_cast<SolverFunction>(function);
}

}  // namespace

std::unique_ptr<LinearProgram> make_linear_program() {
  static const SolverFunction make = loaded();
  return std::unique_ptr<LinearProgram>(make());
}

}  // namespace service::routing
