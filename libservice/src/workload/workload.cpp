#include "service/workload.h"

#include <algorithm>
#include <map>
#include <memory>
#include <set>
#include <tuple>

#include "workload/outlooks.h"
#include "workload/path_sums.h"
#include "workload/prices.h"

namespace service {
namespace {

using load::PathSums;
using load::spread_of;

// The rows from as-of to the end, and which of them a day belongs to.
std::vector<WorkloadRow> rows_of(Day from, Day to, Step step) {
  std::vector<WorkloadRow> rows;
  for (Day day = from; day <= to;) {
    Day last{};
    if (step == Step::week) {
      last = day + (std::chrono::Sunday - std::chrono::weekday{day});
    } else {
      last = last_of_month(day);
    }
    last = std::min(last, to);
    rows.push_back({day, last, {}, {}, {}, {}, {}, {}});
    day = last + std::chrono::days{1};
  }
  return rows;
}

std::size_t row_at(const std::vector<WorkloadRow>& rows, Day day) {
  const auto after = std::upper_bound(rows.begin(), rows.end(), day,
                                      [](Day wanted, const WorkloadRow& row) { return wanted < row.from; });
  return static_cast<std::size_t>(after - rows.begin()) - 1;
}

// The parts and fluids that services use, by number, in the order in which they were met.
class Used {
 public:
  struct Part {
    std::string key;
    std::string unit;
    bool fluid = false;
    friend auto operator<=>(const Part&, const Part&) = default;
  };

  std::size_t number(Part part) {
    const auto [at, is_new] = numbers_.try_emplace(std::move(part), parts_.size());
    if (is_new) parts_.push_back(&at->first);
    return at->second;
  }
  const Part& operator[](std::size_t number) const { return *parts_[number]; }

 private:
  std::map<Part, std::size_t> numbers_;
  std::vector<const Part*> parts_;
};

// Sums of one row, path by path.
struct Sums {
  PathSums minutes{};
  PathSums services{};
  PathSums cost{};
  PathSums pieces{};
  std::vector<std::unique_ptr<PathSums>> used;  // hundredths, by number; null: nothing

  PathSums& of_used(std::size_t number) {
    if (number >= used.size()) used.resize(number + 1);
    if (!used[number]) used[number] = std::make_unique<PathSums>();
    return *used[number];
  }
};

// What one service adds to a row.
struct Load {
  Resources resources;
  std::int64_t cost = 0;
  std::int64_t pieces = 0;                                 // hundredths
  std::vector<std::pair<std::size_t, std::int64_t>> used;  // number, hundredths
};

Load load_of(Resources resources, const load::Prices& prices, Used& used) {
  Load load;
  load.cost = prices.of(resources).hundredths;
  for (const auto& [key, pieces] : resources.parts) {
    const Part* part = prices.part(key);
    load.used.emplace_back(used.number({key, part != nullptr ? part->unit : "", false}), pieces.hundredths);
    load.pieces += pieces.hundredths;
  }
  for (const auto& [key, quantity] : resources.fluids) {
    load.used.emplace_back(used.number({key, quantity.unit, true}), quantity.amount.hundredths);
  }
  load.resources = std::move(resources);
  return load;
}

void add_to(Sums& sums, const Load& load, std::size_t path) {
  sums.minutes[path] += load.resources.labour_minutes();
  sums.services[path] += 1;
  sums.cost[path] += load.cost;
  sums.pieces[path] += load.pieces;
  for (const auto& [number, hundredths] : load.used) sums.of_used(number)[path] += hundredths;
}

template <class Row>  // a row, or all of them together
void spread(Row& row, const Sums& sums, const Used& used, const load::Prices& prices) {
  row.labour_hours = spread_of(sums.minutes, 60);
  row.services = spread_of(sums.services, 1);
  row.cost = spread_of(sums.cost, 100);
  row.pieces = spread_of(sums.pieces, 100);
  for (std::size_t number = 0; number < sums.used.size(); ++number) {
    if (!sums.used[number]) continue;
    const auto& [key, unit, fluid] = used[number];
    const auto price = fluid ? prices.of_fluid(key, unit) : prices.of_piece(key);
    (fluid ? row.fluids : row.parts).push_back({key, unit, spread_of(*sums.used[number], 100), price});
  }
  for (auto* parts : {&row.parts, &row.fluids}) {
    std::sort(parts->begin(), parts->end(), [](const WorkloadPart& a, const WorkloadPart& b) {
      return std::tie(a.key, a.unit) < std::tie(b.key, b.unit);
    });
  }
}

}  // namespace

Workload workload(const Snapshot& snapshot, Day to, Step step, const Forecaster& forecaster, const Progress& progress) {
  Workload result;
  result.fleet = snapshot.fleet_ptr();
  result.as_of = snapshot.as_of();
  result.to = to;
  result.scope = snapshot.scope();
  result.step = step;
  result.sample_paths = load::sample_paths;
  result.rows = rows_of(snapshot.as_of(), to, step);
  result.labour_priced = snapshot.fleet().costs.hour.has_value();
  std::vector<Sums> sums(result.rows.size());
  Sums all;
  Used used;
  std::set<std::string> no_price;
  const load::Prices prices(snapshot.fleet());
  const auto add = [&](const Machine& machine, const Outlook& outlook, const load::Drawn& drawn) {
    std::vector<Load> loads;
    for (const OutlookPoint& point : outlook.points()) {
      loads.push_back(load_of(resources_of(machine, *point.task, point.follow_up), prices, used));
    }
    std::vector<bool> comes(loads.size(), false);
    PathSums minutes{};
    PathSums services{};
    for (std::size_t path = 0; path < load::sample_paths; ++path) {
      for (const ComingService& service : drawn[path]) {
        const Load& load = loads[service.point];
        add_to(sums[row_at(result.rows, service.day)], load, path);
        add_to(all, load, path);
        comes[service.point] = true;
        minutes[path] += load.resources.labour_minutes();
        services[path] += 1;
      }
    }
    for (std::size_t i = 0; i < loads.size(); ++i) {
      if (!comes[i]) continue;
      const Resources& resources = loads[i].resources;
      const OutlookPoint& point = outlook.points()[i];
      if (!resources.time) result.no_time.push_back({&machine, point.name, point.position});
      for (const auto& [key, pieces] : resources.parts) {
        if (!prices.of_piece(key)) no_price.insert(key);
      }
      for (const auto& [key, quantity] : resources.fluids) {
        if (!prices.of_fluid(key, quantity.unit)) no_price.insert(key);
      }
    }
    result.machines.push_back({&machine, spread_of(minutes, 60), spread_of(services, 1).mean});
  };
  load::each_outlook(snapshot, to, Detail::standings, forecaster, progress,
                     {result.unknown, result.not_in_use, result.gaps}, add);
  result.not_to_run = load::not_to_run_of(snapshot);
  result.doubtful = rest_on_doubt(result.gaps);
  for (std::size_t i = 0; i < sums.size(); ++i) spread(result.rows[i], sums[i], used, prices);
  spread(result, all, used, prices);
  result.no_price.assign(no_price.begin(), no_price.end());
  return result;
}

void keep_first(Workload& workload, std::size_t first) {
  const std::optional most(first);
  workload.rows_left_off += keep_first(workload.rows, most);
  workload.parts_left_off += keep_first(workload.parts, most);
  workload.fluids_left_off += keep_first(workload.fluids, most);
  workload.machines_left_off += keep_first(workload.machines, most);
}

}  // namespace service
