#include "render/report/workload_chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "render/report/plot.h"
#include "render/shared/words.h"

namespace cli {
namespace {

constexpr double width = 360;
constexpr double height = 190;
constexpr double left = 34;
constexpr double right = 356;
constexpr double top = 16;
constexpr double bottom = 156;

std::string_view month_of(service::Day day) {
  constexpr std::array<std::string_view, 12> names{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                   "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  return names.at(unsigned{std::chrono::year_month_day{day}.month()} - 1);
}

std::string summary(const service::Workload& load) {
  const auto most = std::max_element(load.rows.begin(), load.rows.end(), [](const auto& a, const auto& b) {
    return a.labour_hours.mean < b.labour_hours.mean;
  });
  return fmt::format("In all {:.1f} h ({:.1f} to {:.1f}); most in {}, {:.1f} h ({:.1f} to {:.1f}).",
                     load.labour_hours.mean, load.labour_hours.p10, load.labour_hours.p90,
                     to_text(most->from).substr(0, 7), most->labour_hours.mean, most->labour_hours.p10,
                     most->labour_hours.p90);
}

}  // namespace

void add_workload_chart(const Element& parent, const service::Workload& load) {
  if (load.rows.empty()) return;
  double most = 1;
  for (const service::WorkloadRow& row : load.rows) {
    most = std::max({most, row.labour_hours.p90, row.labour_hours.mean});
  }
  const Element figure = parent.add("figure");
  const std::string title = fmt::format("Hours of work by month, {} to {}", to_text(load.as_of), to_text(load.to));
  figure.add("figcaption").say(title);
  const Element plot = add_plot(figure, width, height, title, summary(load));
  const Scale hours{0, most, bottom, top};
  constexpr std::size_t most_marks = 6;
  for (const double mark : round_marks(0, most, most_marks)) {
    add_line(plot, "grid", {left, hours.at(mark)}, {right, hours.at(mark)});
    add_text(plot, {left - 4, hours.at(mark) + 3.5}, "end", fmt::format("{:g}", mark));
  }
  add_text(plot, {left - 4, top - 6}, "end", "h");
  const double step = (right - left) / static_cast<double>(load.rows.size());
  for (std::size_t i = 0; i < load.rows.size(); ++i) {
    const service::WorkloadRow& row = load.rows[i];
    const double from = left + step * static_cast<double>(i) + step * 0.14;
    const double to = from + step * 0.72;
    const service::Spread& labour = row.labour_hours;
    add_box(plot, "up-to", {from, hours.at(0)}, {to, hours.at(labour.p10)});
    add_box(plot, "band", {from, hours.at(labour.p10)}, {to, hours.at(labour.p90)});
    add_line(plot, "middle", {from - 1.5, hours.at(labour.mean)}, {to + 1.5, hours.at(labour.mean)});
    const std::chrono::year_month_day day{row.from};
    add_text(plot, {(from + to) / 2, bottom + 13}, "middle", month_of(row.from));
    if (i == 0 || day.month() == std::chrono::January) {
      add_text(plot, {(from + to) / 2, bottom + 26}, "middle", fmt::format("{}", int{day.year()}));
    }
  }
  add_line(plot, "axis", {left, bottom}, {right, bottom});
}

}  // namespace cli
