// The colours by which standings are told, on a terminal, on a page and in print alike. Each stands for one thing, is
// written down here once, and is never needed: the word and the mark beside it say the same.
#pragma once

#include "service/standing.h"

namespace cli {

struct Colour {  // sRGB, 0 to 255 each
  int red = 0;
  int green = 0;
  int blue = 0;
  friend bool operator==(const Colour&, const Colour&) = default;
};

// What a colour stands for.
enum class Ink { plain, overdue, due, coming, no_record, quiet, strong };

Ink ink_of(service::Standing standing);

struct StandingColour {
  Colour exact;
  int nearest = 0;  // in the terminal's cube of 256
};

// Null for what has no colour of its own and takes that of the text around it.
const StandingColour* colour_of(Ink ink);

}  // namespace cli
