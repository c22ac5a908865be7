// What is known of the meters of machine `m`.
#pragma once

#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "support/world.h"

namespace usage_test {

inline const std::string two_meters = "meters: {engine: {unit: h}, separator: {unit: h}}\n";

inline test::World bought(const std::string& start = "bought: 2020-01-01", const std::string& meters = "") {
  return {"  oil: {do: Oil, every: {hours: 250}}\n", start, "", meters};
}

inline service::MeterHistory history(const test::World& world, std::string_view as_of = "2030-01-01",
                                     std::string_view meter = "engine") {
  const auto all = service::meter_histories(world.snapshot(as_of), *world.fleet().machine("m"));
  const auto found = all.find(meter);
  const bool has_the_meter = found != all.end();
  REQUIRE(has_the_meter);
  return found->second;
}

inline std::string known(const test::World& world, std::string_view on, std::string_view meter = "engine") {
  return test::text_or_none(history(world, "2030-01-01", meter).on(test::day(on)));
}

inline std::string first_day_at(const test::World& world, std::string_view level) {
  return test::text_or_none(history(world).first_day_at(test::amount(level)));
}

}  // namespace usage_test
