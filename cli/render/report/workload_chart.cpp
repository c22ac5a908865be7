#include "render/report/workload_chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "render/report/pieces.h"
#include "render/report/plot.h"
#include "render/shared/words.h"
#include "render/workload/words.h"

namespace cli {
namespace {

constexpr Frame months_frame{.width = 360, .height = 190, .left = 34, .right = 356, .top = 16, .bottom = 156};

std::string_view month_of(service::Day day) {
  constexpr std::array<std::string_view, 12> names{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                   "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  return names.at(unsigned{std::chrono::year_month_day{day}.month()} - 1);
}

bool whole_month(const service::WorkloadRow& row) { return !begins_late(row) && !ends_early(row); }

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
  const std::string title = fmt::format("Hours of work by month, {} to {}", to_text(load.as_of), to_text(load.to));
  const Element plot = add_chart(parent, months_frame, title, summary(load));
  const Scale hours{0, most, months_frame.bottom, months_frame.top};
  constexpr std::size_t most_marks = 6;
  add_grid(plot, months_frame, hours, most_marks, "h");
  const double step = (months_frame.right - months_frame.left) / static_cast<double>(load.rows.size());
  for (std::size_t i = 0; i < load.rows.size(); ++i) {
    const service::WorkloadRow& row = load.rows[i];
    const double from = months_frame.left + step * static_cast<double>(i) + step * 0.14;
    const double to = from + step * 0.72;
    const service::Spread& labour = row.labour_hours;
    add_box(plot, "up-to", {from, hours.at(0)}, {to, hours.at(labour.p10)});
    add_box(plot, "band", {from, hours.at(labour.p10)}, {to, hours.at(labour.p90)});
    add_line(plot, "middle", {from - 1.5, hours.at(labour.mean)}, {to + 1.5, hours.at(labour.mean)});
    const std::chrono::year_month_day day{row.from};
    add_text(plot, {(from + to) / 2, months_frame.bottom + 13}, "middle",
             std::string(month_of(row.from)) + (whole_month(row) ? "" : "*"));
    if (i == 0 || day.month() == std::chrono::January) {
      add_text(plot, {(from + to) / 2, months_frame.bottom + 26}, "middle", fmt::format("{}", int{day.year()}));
    }
  }
  add_line(plot, "axis", {months_frame.left, months_frame.bottom}, {months_frame.right, months_frame.bottom});
  if (!std::all_of(load.rows.begin(), load.rows.end(), whole_month)) {
    add_paragraph(parent, fmt::format("* Part of a month: from {}, to {}.", to_text(load.as_of), to_text(load.to)),
                  "quiet");
  }
}

}  // namespace cli
