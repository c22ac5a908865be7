// The linear programs of who links the solver. The command defines this function itself, and takes its own: so this
// file stands alone, and nothing else may be added to it.
#include "routing/clp.h"

namespace service::routing {

std::unique_ptr<LinearProgram> make_linear_program() { return std::make_unique<ClpProgram>(); }

}  // namespace service::routing
