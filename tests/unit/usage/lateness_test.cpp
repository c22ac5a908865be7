// How late services are done, as evidence of whether the next one was forgotten or has not come due.
#include <doctest/doctest.h>

#include <functional>
#include <string>

#include "support/world.h"

using test::World;

namespace {

// Read on the first of each month, 50 h more each time, the last time on 2025-11-01. `serve` enters what was done
// each second month, when 100 h are over, given the number of that interval from 1 on.
World served(const std::function<void(World&, int, const std::string& day, const std::string& hours)>& serve) {
  World world(
      "  big: {do: Big, every: {hours: 500}, covers: [oil]}\n"
      "  oil: {do: Oil, every: {hours: 100}}\n",
      "in-service: {on: 2024-01-01, at: 0}");
  for (int month = 1; month <= 22; ++month) {
    const int in_year = month % 12 + 1;
    const std::string day =
        std::to_string(2024 + month / 12) + (in_year < 10 ? "-0" : "-") + std::to_string(in_year) + "-01";
    const std::string hours = std::to_string(50 * month);
    world.reading(day, hours);
    if (month % 2 == 0) serve(world, month / 2, day, hours);
  }
  return world;
}

std::string span(const World& world, std::string_view as_of) {
  const auto list = service::due_list(world.snapshot(as_of), test::day(as_of) + std::chrono::days{30});
  for (const service::Point& point : list.points) {
    if (point.name != "oil") continue;
    return test::text_or_none(point.due_span.p10) + ' ' + test::text_or_none(point.due_span.p50) + ' ' +
           test::text_or_none(point.due_span.p90);
  }
  return "no point";
}

}  // namespace

TEST_CASE("a covered service written out too says nothing new of how late services are done") {
  const World by_covering = served([](World& world, int /*interval*/, const std::string& day,
                                      const std::string& hours) { world.done("big", day, hours); });
  const World written_out =
      served([](World& world, int /*interval*/, const std::string& day, const std::string& hours) {
        world.done("big", day, hours);
        world.done("oil", day, hours);
      });
  for (const char* as_of : {"2025-12-01", "2026-01-05", "2026-02-01"}) {
    CHECK(span(by_covering, as_of) == span(written_out, as_of));
  }
}

TEST_CASE("use across a service without a value is two intervals, not one done late") {
  const World without = served([](World& world, int /*interval*/, const std::string& day,
                                  const std::string& /*hours*/) { world.done("oil", day); });
  const World with_every_second =
      served([](World& world, int interval, const std::string& day, const std::string& hours) {
        world.done("oil", day, interval % 2 == 0 ? "" : hours);
      });
  const World with_all = served([](World& world, int /*interval*/, const std::string& day, const std::string& hours) {
    world.done("oil", day, hours);
  });
  CHECK(span(with_every_second, "2026-01-05") == span(without, "2026-01-05"));
  CHECK(span(with_all, "2026-01-05") != span(without, "2026-01-05"));  // the values do teach
}
