#include "render/html/use_bars.h"

#include <fmt/format.h>

#include <algorithm>

namespace cli {
namespace {

constexpr double whole = 120;  // where the interval ends
constexpr double most = 180;

std::string_view kinds_of(const PairedBars& bars, const Lane& lane) {
  if (!lane.rules) return "used";
  if (bars.ink == Ink::overdue) return "rules overdue";
  if (bars.ink == Ink::due) return "rules due";
  return bars.ink == Ink::coming ? "rules coming" : "rules";
}

Element box(const Element& svg, std::string_view kinds, double x, double y, double width, double height) {
  return svg.add("rect", kinds)
      .with("x", fmt::format("{:.1f}", x))
      .with("y", fmt::format("{:.1f}", y))
      .with("width", fmt::format("{:.1f}", width))
      .with("height", fmt::format("{:.1f}", height));
}

void draw(const Element& svg, const PairedBars& bars, const Lane& lane, double top) {
  if (!lane.there) return;
  constexpr double height = 8;
  box(svg, lane.share ? "lane" : "unknown", 0.5, top + 0.5, whole - 1, height - 1);
  const double known = lane.share && *lane.share > 0 ? std::clamp(*lane.share * whole, 2.0, most) : 0;
  const double all = std::max(known, std::min(lane.estimate.value_or(0) * whole, most));
  if (known > 0) box(svg, kinds_of(bars, lane), 0.5, top + 0.5, known - 1, height - 1);
  if (all > known + 1) box(svg, "guess", known + 0.5, top + 0.5, all - known - 1, height - 1);
  if (std::max(lane.share.value_or(0), lane.estimate.value_or(0)) * whole <= most) return;
  svg.add("path", "beyond")
      .with("d", fmt::format("M{:.1f} {:.1f}L{:.1f} {:.1f}L{:.1f} {:.1f}Z", most - 7, top - 1, most, top + height / 2,
                             most - 7, top + height + 1));
}

}  // namespace

void add_use_bars(const Element& parent, const PairedBars& bars, std::string_view says) {
  if (!bars.instead.empty()) {
    parent.add("span", "instead").say("rules: " + bars.instead);
    return;
  }
  if (!bars.use.there && !bars.time.there) return;
  const Element svg = parent.add("svg", "use")
                          .with("role", "img")
                          .with("viewBox", fmt::format("0 0 {} 24", most))
                          .with("preserveAspectRatio", "none")
                          .with("width", fmt::format("{}", most))
                          .with("height", "24");
  svg.add("title").say(says);
  draw(svg, bars, bars.use, 3);
  draw(svg, bars, bars.time, 13);
  box(svg, "notch", whole - 1, 0, 2, 24);
}

}  // namespace cli
