// How pages look: one style sheet for a screen by day and by night, and for paper.
//
// Colours stand in two themes. What is read stands out from what is behind it by at least 4.5 to 1, what is drawn by
// 3 to 1 (WCAG 2, success criteria 1.4.3 and 1.4.11); `pairs_of` names every such pair that the rules use, for a test.
// The colours of standings are the terminal's (palette.h): too light to read on white, so they are grounds and fills,
// with black on them and a line around.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "terminal/palette.h"

namespace cli {

struct Theme {
  Colour page;   // behind all
  Colour panel;  // behind what stands together
  Colour ink;
  Colour quiet;         // for what may be passed over
  Colour line;          // rules, boxes to tick, the bar that does not rule
  Colour standing_ink;  // on the colour of a standing
};

const Theme& light_theme();
const Theme& dark_theme();
const Theme& print_theme();

struct ColourPair {
  std::string_view what;
  Colour front;
  Colour behind;
  bool text = true;  // else drawn
};

std::vector<ColourPair> pairs_of(const Theme& theme);

// The relative luminance of WCAG 2 decides: 1 to 21.
double contrast(const Colour& a, const Colour& b);

// The rules that all pages share. They hold none of `<`, `>`, `&`, which would not come through in a page.
std::string style_sheet();

}  // namespace cli
