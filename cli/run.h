// The whole command, in process: words in, answer out through the World, exit status back.
#pragma once

#include <string>
#include <vector>

#include "parser.h"
#include "service/base.h"
#include "service/files.h"
#include "terminal/look.h"
#include "terminal/progress_line.h"
#include "world.h"

namespace cli {

// What a command is given, and where it leaves its answer.
struct Context {
  const World& world;
  const Arguments& arguments;
  std::string out;
  std::vector<service::Diagnostic> also;  // said beside the answer, on standard error
  bool stored = false;                    // a fact is in the record, whatever becomes of the answer
  Look look = {};                         // how it may be drawn
  ProgressLine progress = ProgressLine(world);
  service::Pieces pieces = {};  // in place of `out`, of an answer that may be longer than memory
};

int run(const std::vector<std::string>& arguments, const World& world);

}  // namespace cli
