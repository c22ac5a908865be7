// A world with one task `t`, and what is asked of its point.
#pragma once

#include <string>
#include <string_view>

#include "support/world.h"

namespace standing_test {

// On a machine bought used long ago, unless said otherwise.
inline test::World task(const std::string& keys, const std::string& machine = "bought: {on: 2020-01-01, at: 0}",
                        const std::string& more = "") {
  return {"  t: {do: Work, " + keys + "}\n", machine, more};
}

inline std::string due_at(const test::World& world, std::string_view as_of) {
  return test::text_or_none(test::limb(world.point(as_of, "t"), service::LimbKind::usage).due_at);
}

inline std::string due_day(const test::World& world, std::string_view as_of) {
  return test::text_or_none(test::limb(world.point(as_of, "t"), service::LimbKind::calendar).due_on);
}

inline std::string fitted_on(const test::World& world, std::string_view as_of, std::string_view name = "t",
                             std::string_view position = "") {
  const auto point = world.point(as_of, name, position);
  return point.fitted ? service::to_text(point.fitted->on) : "none";
}

}  // namespace standing_test
