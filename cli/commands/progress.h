// How far long work is, on standard error, where that is a terminal.
#pragma once

#include <functional>
#include <string>

#include "run.h"

namespace cli {

// `what`: `asking the past`. Says nothing where nobody watches, nor of short work.
std::function<void(std::size_t, std::size_t)> progress(const Context& context, const std::string& what);

}  // namespace cli
