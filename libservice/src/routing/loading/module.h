// Between the command and the solver that it loads: the name of the file and of the function in it.
#pragma once

#include "routing/linear_program.h"

namespace service::routing {

inline constexpr const char* solver_file = "whichever-solver.so";
inline constexpr const char* solver_function = "whichever_linear_program";
using SolverFunction = LinearProgram* (*)();  // of a program that the caller deletes

}  // namespace service::routing
