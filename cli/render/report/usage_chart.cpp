#include "render/report/usage_chart.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/forecast/words.h"
#include "render/report/pieces.h"
#include "render/report/plot.h"
#include "render/shared/words.h"

namespace cli {
namespace {

using service::Day;
using service::MeterForecast;
using service::UsageSpan;

constexpr Frame frame{.width = 360, .height = 200, .left = 42, .right = 352, .top = 18, .bottom = 172};

double days_of(Day day) { return static_cast<double>(day.time_since_epoch().count()); }

std::string span_of(const UsageSpan& span) {
  return span.p10 == span.p90
             ? whole_units(span.p50)
             : fmt::format("{} ({} to {})", whole_units(span.p50), whole_units(span.p10), whole_units(span.p90));
}

bool is_doubtful(const MeterForecast& meter, Day day) {
  return std::find(meter.doubtful.begin(), meter.doubtful.end(), day) != meter.doubtful.end();
}

class Chart {
 public:
  Chart(const MeterForecast& meter, Day as_of) : meter_(meter), as_of_(as_of), now_(*meter.ahead.now) {
    const Day from = meter.known.empty() ? as_of : std::min(as_of, meter.known.front().day);
    const Day to = meter.ahead.ahead.empty() ? as_of : meter.ahead.ahead.back().day;
    double low = units(now_.p10);
    double high = units(now_.p90);
    for (const service::Knot& knot : meter.known) low = std::min(low, units(knot.usage));
    for (const UsageSpan& span : meter.ahead.ahead) high = std::max(high, units(span.p90));
    x_ = {days_of(from), std::max(days_of(to), days_of(from) + 1), frame.left, frame.right};
    y_ = {low, std::max(high, low + 1), frame.bottom, frame.top};
  }

  void draw(const Element& plot) const {
    add_marks(plot);
    band(plot);
    add_line(plot, "today", {x_.at(days_of(as_of_)), frame.top}, {x_.at(days_of(as_of_)), frame.bottom});
    add_text(plot, {x_.at(days_of(as_of_)), frame.top - 5}, "middle", "today");
    std::vector<Place> known;
    for (const service::Knot& knot : meter_.known) known.push_back(place(knot.day, knot.usage));
    if (known.size() > 1) add_path(plot, "known", known);
    for (std::size_t i = 0; i < known.size(); ++i) {
      if (i == 0 && meter_.first_between) continue;
      const bool doubtful = is_doubtful(meter_, meter_.known[i].day);
      add_dot(plot, doubtful ? "reading doubtful" : "reading", known[i]);
      if (doubtful) add_text(plot, {known[i].x - 6, known[i].y + 3}, "end", "doubtful");
    }
    add_line(plot, "axis", {frame.left, frame.bottom}, {frame.right, frame.bottom});
  }

 private:
  Place place(Day day, service::Amount usage) const { return {x_.at(days_of(day)), y_.at(units(usage))}; }

  void add_marks(const Element& plot) const {
    constexpr std::size_t most_marks = 5;
    add_grid(plot, frame, y_, most_marks, service::cleaned(meter_.ahead.meter->unit));
    constexpr int half_a_year = 6;
    for (int months = -12; months <= service::horizon_months; months += half_a_year) {
      const Day day = service::add_months(as_of_, months);
      const double x = x_.at(days_of(day));
      if (x < frame.left - 1 || x > frame.right + 1) continue;
      add_line(plot, "axis", {x, frame.bottom}, {x, frame.bottom + 4});
      const char* const anchor = x > frame.right - 20 ? "end" : "middle";
      add_text(plot, {x > frame.right - 20 ? frame.right + 4 : x, frame.bottom + 15}, anchor,
               to_text(day).substr(0, 7));
    }
  }

  void band(const Element& plot) const {
    std::vector<Place> low;
    std::vector<Place> middle;
    std::vector<Place> high;
    const auto add = [&](Day day, service::Amount p10, service::Amount p50, service::Amount p90) {
      low.push_back(place(day, p10));
      middle.push_back(place(day, p50));
      high.push_back(place(day, p90));
    };
    if (!meter_.known.empty() && meter_.known.back().day < as_of_) {
      const service::Knot& last = meter_.known.back();
      add(last.day, last.usage, last.usage, last.usage);
    }
    add(as_of_, now_.p10, now_.p50, now_.p90);
    for (const UsageSpan& span : meter_.ahead.ahead) add(span.day, span.p10, span.p50, span.p90);
    std::vector<Place> around = high;
    around.insert(around.end(), low.rbegin(), low.rend());
    add_path(plot, "band", around, true);
    add_path(plot, "middle", middle);
  }

  const MeterForecast& meter_;
  Day as_of_;
  const UsageSpan& now_;
  Scale x_;
  Scale y_;
};

std::string summary(const MeterForecast& meter) {
  const std::string unit = service::cleaned(meter.ahead.meter->unit);
  std::string text;
  if (!meter.known.empty()) {
    const service::Knot& first = meter.known.front();
    const service::Knot& last = meter.known.back();
    text = fmt::format("Known: {} {} on {}, {} {} on {}. ", whole_units(first.usage), unit, to_text(first.day),
                       whole_units(last.usage), unit, to_text(last.day));
  }
  text += fmt::format("Today {} {}.", span_of(*meter.ahead.now), unit);
  if (!meter.ahead.ahead.empty()) {
    const UsageSpan& last = meter.ahead.ahead.back();
    text +=
        fmt::format(" Expected by {}: {} {}, in brackets eight cases of ten.", to_text(last.day), span_of(last), unit);
  }
  return text;
}

}  // namespace

void add_usage_chart(const Element& parent, const MeterForecast& meter, Day as_of) {
  if (!meter.ahead.now) return;
  const std::string title = fmt::format("Lifetime use of {}, known and expected, in {}", name_of(meter.ahead),
                                        service::cleaned(meter.ahead.meter->unit));
  Chart(meter, as_of).draw(add_chart(parent, frame, title, summary(meter)));
}

void add_usage_table(const Element& parent, const MeterForecast& meter) {
  const bool less = shows_less(meter.ahead);
  std::vector<Row> rows{{"day", "use", "eight cases of ten", ""}};
  if (less) rows.front().insert(rows.front().begin() + 3, "the meter shows");
  const auto add = [&](Day day, Row cells, const std::string& shown, const char* what) {
    Row row{to_text(day), std::move(cells[0]), std::move(cells[1])};
    if (less) row.push_back(shown);
    row.emplace_back(what);
    rows.push_back(std::move(row));
  };
  const std::string unit = service::cleaned(meter.ahead.meter->unit);
  for (const service::Knot& knot : meter.known) {
    const bool between = meter.first_between && &knot == &meter.known.front();
    const char* const how = between                        ? "between two readings"
                            : is_doubtful(meter, knot.day) ? "read, and doubtful"
                                                           : "known";
    add(knot.day, {with_unit(knot.usage, unit), ""}, "", how);
  }
  const auto expected = [&](const UsageSpan& span, const char* what) {
    const std::string among =
        span.p10 == span.p90 ? "" : fmt::format("{} to {}", whole_units(span.p10), whole_units(span.p90));
    add(span.day, {about(span.p50, unit), among}, about(span.shown.p50, unit), what);
  };
  if (meter.ahead.now) expected(*meter.ahead.now, "today");
  for (const UsageSpan& span : meter.ahead.ahead) expected(span, "expected");
  add_table(parent, "Lifetime use of " + name_of(meter.ahead), rows, {1, 2});
}

}  // namespace cli
