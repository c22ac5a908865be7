// The forecast: which points it lists, in which order, and what is said of their days and of use ahead.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <tuple>
#include <vector>

#include "service/forecast.h"
#include "support/world.h"

namespace doctest {

template <>
struct StringMaker<service::DayKind> {
  static String convert(service::DayKind kind) { return std::to_string(static_cast<int>(kind)).c_str(); }
};
template <>
struct StringMaker<service::UseLately> {
  static String convert(service::UseLately lately) { return std::to_string(static_cast<int>(lately)).c_str(); }
};

}  // namespace doctest

using namespace service;
using test::amount;
using test::day;
using test::text_or_none;
using test::World;

namespace {

// Two hours a day for a year, up to 2026-01-01; for `later` 6 months, for `hours` 50 days, for `month` 31 days are
// left, and `past` was due on 2025-11-01.
World two_hours_a_day() {
  World world(
      "  later: {do: Later, every: {months: 6}}\n"
      "  hours: {do: Hours, every: {hours: 100}}\n"
      "  month: {do: Month, every: {months: 1}}\n"
      "  past: {do: Past, every: {months: 1}}\n",
      "in-service: {on: 2025-01-01, at: 0}");
  world.done("past", "2025-10-01");
  world.reading("2026-01-01", "730");
  for (const char* task : {"later", "hours", "month"}) world.done(task, "2026-01-01", "730");
  return world;
}

std::vector<std::string> points_until(const World& world, std::string_view to) {
  std::vector<std::string> told;
  for (const ForecastPoint& each : forecast(world.snapshot("2026-01-01"), day(to), straight_line()).points) {
    told.push_back(each.point.name + " " + text_or_none(each.point.due_on));
  }
  return told;
}

using Names = std::vector<std::string>;

}  // namespace

TEST_CASE("a forecast lists what comes due by its last day, in the order of days") {
  const World world = two_hours_a_day();
  CHECK((points_until(world, "2026-03-01") == Names{"past 2025-11-01", "month 2026-02-01", "hours 2026-02-20"}));
  // The last day counts in.
  CHECK(points_until(world, "2026-02-20").size() == 3);
  CHECK((points_until(world, "2026-02-19") == Names{"past 2025-11-01", "month 2026-02-01"}));
  CHECK((points_until(world, "2026-01-31") == Names{"past 2025-11-01"}));
  CHECK(points_until(world, "2026-07-01").back() == "later 2026-07-01");
}

TEST_CASE("a forecast has the days that the due list has") {
  World world(
      "  oil: {do: Oil, every: {hours: 250, months: 12}}\n"
      "  filter: {do: Filter, every: {hours: 500}}\n"
      "  element: {do: Element, every: {changes: {oil: 2}}}\n"
      "  belt: {do: Belt, every: {months: 30}}\n",
      "in-service: {on: 2024-01-01, at: 0}");
  int used = 0;
  for (int month = 1; month <= 24; ++month) {
    used += month % 3 == 0 ? 70 : 20;
    world.reading(to_text(add_months(day("2024-01-01"), month)), std::to_string(used));
  }
  for (const char* task : {"oil", "filter", "element", "belt"}) world.done(task, "2025-10-01");
  const Snapshot snapshot = world.snapshot("2026-01-10");
  const Day to = day("2026-12-31");
  const auto learnt = learnt_from(snapshot);
  std::vector<std::tuple<std::string, std::string, std::string>> list;
  std::vector<std::tuple<std::string, std::string, std::string>> ahead;
  const auto told = [](const Point& point) {
    return std::tuple{text_or_none(point.due_on), point.name, text_or_none(point.due_span.p90)};
  };
  for (const Point& point : due_list(snapshot, {to}, learnt).points) {
    if (point.due_on && *point.due_on <= to) list.push_back(told(point));
  }
  for (const ForecastPoint& each : forecast(snapshot, to, learnt).points) ahead.push_back(told(each.point));
  std::sort(list.begin(), list.end());
  CHECK(list.size() > 1);
  CHECK(list.size() < 4);
  CHECK(std::is_sorted(ahead.begin(), ahead.end(),
                       [](const auto& a, const auto& b) { return std::get<0>(a) < std::get<0>(b); }));
  std::sort(ahead.begin(), ahead.end());
  CHECK((list == ahead));
}

TEST_CASE("use is told for a month and for three months ahead where the forecast reaches that far") {
  const World world = two_hours_a_day();
  const auto near = forecast(world.snapshot("2026-01-01"), day("2026-03-01"), straight_line());
  REQUIRE(near.meters.size() == 1);
  REQUIRE(near.meters[0].in_a_month.has_value());
  CHECK(near.meters[0].in_a_month->day == day("2026-02-01"));
  CHECK(near.meters[0].in_a_month->p50 == amount("792"));  // 31 days of two hours
  CHECK_FALSE(near.meters[0].in_three_months.has_value());
  const auto far = forecast(world.snapshot("2026-01-01"), day("2026-04-15"), straight_line());
  REQUIRE(far.meters[0].in_three_months.has_value());
  CHECK(far.meters[0].in_three_months->day == day("2026-04-01"));
  CHECK(far.meters[0].in_three_months->p50 == amount("910"));  // 90 days of two hours
  REQUIRE(far.meters[0].ahead.ahead.size() == 4);              // the firsts of three months, and the last day
  CHECK(far.meters[0].ahead.ahead.back().day == day("2026-04-15"));
}

TEST_CASE("what can be said of the day on which a point comes due") {
  const World world = two_hours_a_day();
  CHECK(day_kind(world.point("2026-01-01", "past")) == DayKind::reached);
  CHECK(day_kind(world.point("2026-01-01", "month")) == DayKind::certain);

  // One value of the meter is known, and nobody says how much it runs: the year is certain, and use may come before.
  World once("  oil: {do: Oil, every: {hours: 100, months: 12}}\n", "bought: 2025-01-01");
  once.done("oil", "2026-01-01", "730");
  const Point oil = once.point("2026-01-10", "oil");
  CHECK(text_or_none(oil.due_on) == "2027-01-01");
  CHECK(day_kind(oil) == DayKind::at_latest);
  CHECK(unforeseen(oil));

  Point point;
  point.due_span = {day("2026-02-01"), day("2026-02-10"), day("2026-03-01")};
  CHECK(day_kind(point) == DayKind::span);
  point.due_span.p90.reset();
  CHECK(day_kind(point) == DayKind::beyond);
  point.due_span.p50.reset();
  CHECK(day_kind(point) == DayKind::beyond);

  // It is due: its days say no more than the odds, the day asked about the first of them.
  Point by_estimate;
  by_estimate.standing = Standing::due;
  by_estimate.by_estimate = true;
  by_estimate.due_on = day("2026-02-01");
  by_estimate.due_span = {by_estimate.due_on, by_estimate.due_on, by_estimate.due_on};
  CHECK(day_kind(by_estimate) == DayKind::reached);
}

TEST_CASE("much more or less use than before is told from both bounds on, and after four stretches only") {
  Grounds grounds;
  const auto lately = [&](int gaps, double so_far, double per_year) {
    grounds.gaps = gaps;
    grounds.so_far = so_far;
    grounds.per_year = per_year;
    return use_lately(grounds);
  };
  CHECK(lately(4, 100, 180) == UseLately::much_more);
  CHECK(lately(4, 100, 179) == UseLately::as_before);
  CHECK(lately(4, 100, 41) == UseLately::as_before);
  CHECK(lately(4, 100, 40) == UseLately::much_less);
  CHECK(lately(4, 100, 0) == UseLately::much_less);
  CHECK(lately(3, 100, 900) == UseLately::as_before);
  CHECK(lately(3, 100, 1) == UseLately::as_before);
  CHECK(lately(9, 0, 900) == UseLately::as_before);
}

TEST_CASE("busy months: half as much again as a mean month, at most five, and two fifths of the year") {
  // `count` months from May on have `share` of the year each, the others the rest in equal parts.
  const auto busy = [](unsigned count, double share) {
    Grounds grounds;
    grounds.months.fill((1 - count * share) / (12 - count));
    for (unsigned i = 0; i < count; ++i) grounds.months.at(4 + i) = share;
    return busy_months(grounds);
  };
  using Months = std::vector<unsigned>;
  CHECK((busy(2, 0.25).months == Months{5, 6}));
  CHECK(busy(2, 0.25).share == 0.5);
  CHECK((busy(4, 0.125).months == Months{5, 6, 7, 8}));  // half as much again to the hair
  CHECK(busy(4, 0.125).share == 0.5);
  CHECK(busy(4, 0.124).months.empty());
  CHECK((busy(2, 0.2).months == Months{5, 6}));  // two fifths to the hair
  CHECK(busy(3, 0.125).months.empty());          // three eighths of the year
  CHECK(busy(3, 0.125).share == 0);
  CHECK((busy(5, 0.125).months == Months{5, 6, 7, 8, 9}));
  CHECK(busy(6, 0.125).months.empty());
  CHECK(busy(0, 0).months.empty());
}

TEST_CASE("use ahead is told as the meter shows it, too") {
  World world("  oil: {do: Oil, every: {hours: 100}}\n", "bought: {on: 2025-01-01, at: 500}", "",
              "meters: {engine: {unit: h, rolls-over-at: 10000}}\n");
  world.meter_change("2025-06-30", "860", "10");  // 850 h less from then on
  world.reading("2026-01-01", "380");
  const auto answer = forecast(world.snapshot("2026-01-01"), day("2026-02-01"), straight_line());
  REQUIRE(answer.meters.size() == 1);
  const MeterAhead& meter = answer.meters.front().ahead;
  REQUIRE(meter.last.has_value());
  CHECK(meter.last->usage == amount("1230"));
  CHECK(text_or_none(meter.last_shown) == "380");
  REQUIRE(meter.now.has_value());
  CHECK(meter.now->shown.p50 == amount("380"));
  REQUIRE(meter.ahead.size() == 1);
  CHECK(meter.ahead[0].p50 == amount("1292"));  // 31 days of two hours
  CHECK(meter.ahead[0].shown.p10 == amount("442"));
  CHECK(meter.ahead[0].shown.p50 == amount("442"));
  CHECK(meter.ahead[0].shown.p90 == amount("442"));
}

TEST_CASE("use that is known is told of the year before, from where that begins") {
  World world("  oil: {do: Oil, every: {hours: 100}}\n", "in-service: {on: 2024-01-01, at: 0}");
  const auto known = [&](std::string_view as_of) {
    const auto answer = forecast(world.snapshot(as_of), add_months(day(as_of), 12), straight_line());
    std::vector<std::string> told;
    for (const Knot& knot : answer.meters.at(0).known) told.push_back(to_text(knot.day) + " " + to_text(knot.usage));
    return told;
  };
  world.reading("2024-12-31", "730");  // 365 days of two hours
  world.reading("2025-07-01", "1000");
  world.reading("2026-01-01", "1500");
  CHECK((known("2025-12-31") == Names{"2024-12-31 730", "2025-07-01 1000"}));
  // Between two readings by interpolation.
  CHECK((known("2025-06-30") == Names{"2024-06-30 362", "2024-12-31 730"}));
  // A year ago nothing was known.
  CHECK((known("2024-12-31") == Names{"2024-01-01 0", "2024-12-31 730"}));
  // Nothing was read since.
  CHECK((known("2028-01-01") == Names{"2027-01-01 1500"}));
  World unread("  oil: {do: Oil, every: {hours: 100}}\n", "bought: 2024-01-01");
  CHECK(forecast(unread.snapshot("2026-01-01"), day("2026-02-01"), straight_line()).meters.at(0).known.empty());
}

TEST_CASE("what was learnt from counts readings from the first to the last, and the first day apart") {
  World world("  oil: {do: Oil, every: {hours: 100}}\n", "in-service: {on: 2012-01-01, at: 0}");
  world.reading("2026-01-01", "14000");
  const auto grounds_of = [&](const World& of) {
    const Snapshot snapshot = of.snapshot("2026-07-01");
    const auto answer = forecast(snapshot, day("2026-08-01"), learnt_from(snapshot));
    REQUIRE(answer.meters.at(0).ahead.grounds.has_value());
    return *answer.meters.at(0).ahead.grounds;
  };
  CHECK(grounds_of(world).readings == 1);  // and not 14 years of readings
  CHECK(grounds_of(world).years == 0);
  CHECK(grounds_of(world).start);
  world.reading("2026-07-01", "14500");
  CHECK(grounds_of(world).readings == 2);
  CHECK(grounds_of(world).years > 0.49);
  CHECK(grounds_of(world).years < 0.51);
  CHECK(grounds_of(world).gaps == 2);

  World unknown("  oil: {do: Oil, every: {hours: 100}}\n", "expect: {per-year: 300}");
  unknown.reading("2026-01-01", "14000");
  CHECK(grounds_of(unknown).readings == 1);
  CHECK_FALSE(grounds_of(unknown).start);
}

TEST_CASE("of a meter it is told which value is reckoned and which is doubtful, and whether its machine stands") {
  World world = two_hours_a_day();
  const auto meter = [&](std::string_view as_of) {
    return forecast(world.snapshot(as_of), add_months(day(as_of), 12), straight_line()).meters.at(0);
  };
  MeterForecast told = meter("2026-02-01");
  CHECK(told.known.front().day == day("2025-02-01"));
  CHECK(told.first_between);  // between the first day and the reading
  CHECK(told.doubtful.empty());
  CHECK((told.state.kind == UseKind::in_use));
  CHECK_FALSE(meter("2027-01-01").first_between);  // on the day of a reading
  world.reading("2026-01-03", "790");              // 20 h a day
  told = meter("2026-02-01");
  CHECK((told.doubtful == std::vector<Day>{day("2026-01-03")}));
  world.state(FactKind::out_of_use, "2026-01-20");
  told = meter("2026-02-01");
  CHECK((told.state.kind == UseKind::out_of_use));
  CHECK(told.ahead.ahead.back().p50 == told.ahead.now->p50);  // nothing until it is back
}
