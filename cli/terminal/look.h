// How the answer may look: colours, bars, which characters, how wide.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "parser.h"
#include "terminal/palette.h"
#include "world.h"

namespace cli {

struct Look {
  bool drawn = false;  // bars; else plain columns for pipes and files
  bool colour = false;
  bool exact_colour = false;          // 24 bits; else the nearest of 256
  bool line_drawing = false;          // the terminal's text is UTF-8
  int columns = 0;                    // 80 in pipes and files; 0: as wide as it takes
  std::string command = "whichever";  // how printed commands begin: see `command_about`
};

// How printed commands begin, so that whoever copies one asks or writes about the fleet that was meant: where `--fleet`
// named one, each names it again. All that is printed takes it from here.
std::string command_about(const std::optional<std::string>& fleet);

// --color always|never decides; `auto` is a terminal whose TERM is not dumb, and NO_COLOR unset or empty.
// Bars are drawn on a terminal and wherever colours are. Fails with usage on another word.
Look look_of(const World& world, const Arguments& arguments);

// The text in that colour, or as it is.
std::string painted(const Look& look, Ink ink, std::string_view text);

// Two colours at once, for a cell that holds two bars.
std::string painted(const Look& look, Ink upper, Ink lower, std::string_view text);

}  // namespace cli
