#include "render/report/plot.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cli {
namespace {

std::string number(double value) { return fmt::format("{:.1f}", value); }

}  // namespace

std::vector<double> round_marks(double low, double high, std::size_t most) {
  std::vector<double> marks;
  if (most == 0 || !(high > low)) return marks;
  for (double power = std::pow(10, std::floor(std::log10(high - low)) - 2);; power *= 10) {
    for (const double times : {1.0, 2.0, 5.0}) {
      const double step = power * times;
      marks.clear();
      for (double k = std::ceil(low / step); k * step <= high && marks.size() <= most; ++k) marks.push_back(k * step);
      if (marks.size() <= most) return marks;
    }
  }
}

Element add_chart(const Element& parent, const Frame& frame, std::string_view title, std::string_view says) {
  const Element figure = parent.add("figure");
  figure.add("figcaption").say(title);
  const Element plot = figure.add("svg", "plot")
                           .with("role", "img")
                           .with("viewBox", fmt::format("0 0 {:.0f} {:.0f}", frame.width, frame.height));
  plot.add("title").say(title);
  plot.add("desc").say(says);
  return plot;
}

void add_grid(const Element& plot, const Frame& frame, const Scale& scale, std::size_t most, std::string_view unit) {
  for (const double mark : round_marks(scale.low, scale.high, most)) {
    add_line(plot, "grid", {frame.left, scale.at(mark)}, {frame.right, scale.at(mark)});
    add_text(plot, {frame.left - 4, scale.at(mark) + 3.5}, "end", fmt::format("{:g}", mark));
  }
  add_text(plot, {frame.left - 4, frame.top - 5}, "end", unit);
}

void add_line(const Element& plot, std::string_view kinds, Place from, Place to) {
  plot.add("line", kinds)
      .with("x1", number(from.x))
      .with("y1", number(from.y))
      .with("x2", number(to.x))
      .with("y2", number(to.y));
}

void add_box(const Element& plot, std::string_view kinds, Place from, Place to) {
  plot.add("rect", kinds)
      .with("x", number(std::min(from.x, to.x)))
      .with("y", number(std::min(from.y, to.y)))
      .with("width", number(std::abs(to.x - from.x)))
      .with("height", number(std::abs(to.y - from.y)));
}

void add_path(const Element& plot, std::string_view kinds, const std::vector<Place>& places, bool closed) {
  std::string points;
  for (const Place& place : places) {
    points += fmt::format("{}{:.1f},{:.1f}", points.empty() ? "" : " ", place.x, place.y);
  }
  plot.add(closed ? "polygon" : "polyline", kinds).with("points", points);
}

void add_dot(const Element& plot, std::string_view kinds, Place place) {
  plot.add("circle", kinds).with("cx", number(place.x)).with("cy", number(place.y)).with("r", "2.2");
}

void add_text(const Element& plot, Place place, const char* anchor, std::string_view text) {
  plot.add("text").with("x", number(place.x)).with("y", number(place.y)).with("text-anchor", anchor).say(text);
}

}  // namespace cli
