// Usage expected beyond the last reading, on a straight line.
#include <doctest/doctest.h>

#include <memory>
#include <string>
#include <string_view>

#include "support/world.h"

using service::FactKind;
using service::Quantile;
using test::amount;
using test::day;
using test::text_or_none;
using test::World;

namespace {

const std::string oil = "  oil: {do: Oil, every: {hours: 250}}\n";

// The world outlives the line that is drawn from it.
class Line {
 public:
  Line(const World& world, std::string_view as_of)
      : snapshot_(world.snapshot(as_of)),
        machine_(*snapshot_.fleet().machine("m")),
        history_(service::meter_histories(snapshot_, machine_).at("engine")),
        ahead_(service::straight_line()({snapshot_.fleet(), machine_, *machine_.first_meter(), history_,
                                         service::use_state(snapshot_, machine_), snapshot_.as_of()})) {}

  std::string on(std::string_view text) const { return text_or_none(ahead_->on(day(text), Quantile::p50)); }
  std::string reaches(std::string_view level) const {
    return text_or_none(ahead_->reaches(amount(level), Quantile::p50));
  }
  const service::UsageAhead& ahead() const { return *ahead_; }

 private:
  service::Snapshot snapshot_;
  const service::Machine& machine_;
  service::MeterHistory history_;
  std::unique_ptr<const service::UsageAhead> ahead_;
};

World one_hour_a_day() {
  World world(oil, "bought: 2020-01-01");
  world.reading("2025-01-01", "1000");
  world.reading("2026-01-01", "1365");  // 365 days
  return world;
}

}  // namespace

TEST_CASE("the rate of the year before the last reading goes on") {
  const World world = one_hour_a_day();
  const Line line(world, "2026-01-11");
  CHECK(line.on("2026-01-01") == "1365");
  CHECK(line.on("2026-01-11") == "1375");
  CHECK(line.on("2026-12-31") == "1729");  // 364 days later
  CHECK(line.reaches("1375") == "2026-01-11");
  CHECK(line.reaches("1400") == "2026-02-05");  // 35 h
}

TEST_CASE("only the last 365 days before the last reading tell the rate") {
  World world(oil, "bought: 2020-01-01");
  world.reading("2024-01-02", "0");
  world.reading("2025-01-01", "3650");  // 10 h a day, long ago
  world.reading("2026-01-01", "4380");  // 730 h in 365 days: 2 h a day
  CHECK(Line(world, "2026-01-11").on("2026-01-11") == "4400");
}

TEST_CASE("a straight line answers all odds alike") {
  const World world = one_hour_a_day();
  const Line line(world, "2026-01-11");
  for (const Quantile quantile : {Quantile::p10, Quantile::p90}) {
    CHECK(text_or_none(line.ahead().reaches(amount("1400"), quantile)) == "2026-02-05");
    CHECK(text_or_none(line.ahead().on(day("2026-01-11"), quantile)) == "1375");
  }
}

TEST_CASE("a level that usage reached before the day of the question may lie in the past") {
  const World world = one_hour_a_day();
  CHECK(Line(world, "2026-03-01").reaches("1370") == "2026-01-06");
}

TEST_CASE("a level more than five years away is no day") {
  const World world = one_hour_a_day();
  const Line line(world, "2026-01-01");
  CHECK(line.reaches("3100") == "2030-10-02");  // 1735 days: 1461 to 2030-01-01 and 274
  CHECK(line.reaches("3300") == "none");        // 1935 days, and five years are 1826
}

TEST_CASE("where nothing is known nothing is expected") {
  const World world(oil, "bought: 2020-01-01");
  const Line line(world, "2026-01-11");
  CHECK(line.on("2026-02-01") == "none");
  CHECK(line.reaches("100") == "none");
}

TEST_CASE("one value and no word of what is expected is no rate") {
  World world(oil, "bought: 2020-01-01");
  world.reading("2026-01-01", "100");
  CHECK(Line(world, "2026-02-01").reaches("101") == "none");
}

TEST_CASE("what the owner expects in a year stands in for a history, and the seasons are inside it") {
  World world(oil, "bought: 2020-01-01, expect: {per-year: 450, harvest: 180}",
              "seasons: {harvest: {from: 08-01, to: 09-20}}\n");
  world.reading("2026-01-01", "1000");
  const auto after_a_year = Line(world, "2026-01-02").ahead().on(day("2027-01-01"), Quantile::p50);
  REQUIRE(after_a_year.has_value());
  // A year is 365 days or a quarter more.
  CHECK(*after_a_year >= amount("1449"));
  CHECK(*after_a_year <= amount("1451"));
}

TEST_CASE("a machine laid up uses nothing until the day it is planned to be back") {
  World world = one_hour_a_day();
  world.state(FactKind::laid_up, "2026-01-01", "2026-03-01");
  const Line line(world, "2026-01-11");
  CHECK(line.on("2026-01-11") == "1365");
  CHECK(line.on("2026-02-28") == "1365");
  // Ten hours of work from 1 March on.
  const auto reached = line.ahead().reaches(amount("1375"), Quantile::p50);
  REQUIRE(reached.has_value());
  CHECK(*reached >= day("2026-03-10"));
  CHECK(*reached <= day("2026-03-11"));
}

TEST_CASE("a machine laid up for nobody knows how long uses nothing") {
  World world = one_hour_a_day();
  world.state(FactKind::laid_up, "2026-01-01");
  const Line line(world, "2026-06-01");
  CHECK(line.on("2026-06-01") == "1365");
  CHECK(line.reaches("1366") == "none");
}
