// A week at a small estate: one van, three sites, a loader, a pump and a hoist, and a customer's call.
#pragma once

#include <algorithm>
#include <memory>
#include <string>
#include <string_view>

#include "routing/timing.h"
#include "service/rounds.h"
#include "service/workload.h"
#include "support/estate_files.h"
#include "support/world.h"
#include "visits/plan_made.h"
#include "visits/problem_of.h"

namespace estate {

using service::Day;
using test::day;

// Its loader alone, and no call.
inline Texts loader_alone() {
  Texts texts;
  texts.machines = "  loader: {name: Loader, schedule: tractor, site: holm, in-service: {on: 2020-03-01, at: 0}}\n";
  texts.calls = "";
  return texts;
}

// Oil filters, of which there are so many in stock, and by the days of need too few from that day on. `known`: of them.
inline service::PartNeed need_of_filters(const service::Part& known, std::int64_t stock, std::string_view short_on) {
  service::PartNeed need;
  need.key = "oil-filter-a";
  need.part = &known;
  need.stock = service::PartAmount::units(stock);
  need.short_on = day(short_on);
  need.order_by = day("2026-05-03");
  return need;
}

// The estate with what was done at it.
class Estate {
 public:
  explicit Estate(const Texts& texts = {}) : world(files_of(texts)) {}

  Estate& done(std::string_view machine, std::string_view task, std::string_view on) {
    world.done(task, on).machine = machine;
    return *this;
  }
  // As the worked example has it.
  Estate& usual() {
    done("loader", "engine-oil", "2025-04-20").done("loader", "brakes", "2025-11-06");
    return done("pump", "gland", "2025-10-20").done("pump", "relief", "2025-05-01");
  }

  service::Week week(service::WeekAsk ask, std::string_view as_of = "2026-05-03") const {
    const auto snapshot = world.snapshot(as_of);
    auto list = std::make_shared<service::DueList>(
        service::due_list(snapshot, {service::week_horizon(world.fleet(), ask)}, service::straight_line()));
    return service::week_of_work(snapshot, std::move(list), ask);
  }
  service::Week week(std::string_view from = "2026-05-04") const { return week(service::WeekAsk{day(from)}); }

  test::World world;
};

inline std::size_t visit_named(const service::Week& week, std::string_view name) {
  const auto found = std::find_if(week.visits.begin(), week.visits.end(),
                                  [&](const service::Visit& visit) { return visit.name == name; });
  REQUIRE_MESSAGE((found != week.visits.end()), std::string(name));
  return static_cast<std::size_t>(found - week.visits.begin());
}

inline std::string names_of(const service::Week& week) {
  std::string names;
  for (const service::Visit& visit : week.visits) names += (names.empty() ? "" : ", ") + visit.name;
  return names;
}

inline std::string names_of(const std::vector<service::PointName>& points) {
  std::string names;
  for (const service::PointName& point : points) {
    names += (names.empty() ? "" : ", ") + point.machine->key + ' ' + service::point_label(point.task, point.position);
  }
  return names;
}

// The plan with these visits on these crew-days, in that order; all others are not made. As if it were the best.
inline service::RoundsPlan by_hand(const service::Week& week,
                                   const std::vector<std::vector<std::string_view>>& routes) {
  const auto of = service::visits::problem_of(week);
  service::routing::Solution solution;
  solution.plan.resize(week.crew_days.size());
  for (std::size_t d = 0; d < routes.size(); ++d) {
    for (const std::string_view name : routes[d]) {
      const auto job = std::find(of.visits.begin(), of.visits.end(), visit_named(week, name));
      REQUIRE((job != of.visits.end()));
      solution.plan[d].push_back(static_cast<int>(job - of.visits.begin()));
    }
  }
  solution.value = service::routing::value_of(of.problem, solution.plan);
  solution.bound = solution.value;
  return service::visits::plan_of(week, of, solution);
}

inline std::string clock(int minutes) {
  const auto two = [](int number) { return (number < 10 ? "0" : "") + std::to_string(number); };
  return two(minutes / 60) + ':' + two(minutes % 60);
}

}  // namespace estate
