// What charts share: a scale with round marks, and the pieces of a drawing. Charts are drawn narrow, so that on a
// telephone their figures are as large as the text around them.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "render/html/page.h"

namespace cli {

// From values to places on the drawing.
struct Scale {
  double low = 0;
  double high = 1;
  double from = 0;  // the place of `low`
  double to = 1;    // the place of `high`

  double at(double value) const { return from + (value - low) / (high - low) * (to - from); }
};

// Round values, one two or five of a power of ten apart: not below the low one, not above the high one, and no more
// than so many.
std::vector<double> round_marks(double low, double high, std::size_t most);

struct Place {
  double x = 0;
  double y = 0;
};

// The size of a drawing, and where on it the values lie.
struct Frame {
  double width = 0;
  double height = 0;
  double left = 0;
  double right = 0;
  double top = 0;
  double bottom = 0;
};

// A drawing under its title; `says`: the same for whoever does not see it.
Element add_chart(const Element& parent, const Frame& frame, std::string_view title, std::string_view says);

// Lines at round values and the values beside them, at most so many, with their unit above.
void add_grid(const Element& plot, const Frame& frame, const Scale& scale, std::size_t most, std::string_view unit);

void add_line(const Element& plot, std::string_view kinds, Place from, Place to);
void add_box(const Element& plot, std::string_view kinds, Place from, Place to);
void add_path(const Element& plot, std::string_view kinds, const std::vector<Place>& places, bool closed = false);
void add_dot(const Element& plot, std::string_view kinds, Place place);
// `anchor`: start, middle or end.
void add_text(const Element& plot, Place place, const char* anchor, std::string_view text);

}  // namespace cli
