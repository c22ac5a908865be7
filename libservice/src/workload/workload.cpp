#include "service/workload.h"

#include <algorithm>
#include <map>
#include <set>

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
    rows.push_back({day, last, {}, {}, {}});
    day = last + std::chrono::days{1};
  }
  return rows;
}

std::size_t row_at(const std::vector<WorkloadRow>& rows, Day day) {
  const auto after = std::upper_bound(rows.begin(), rows.end(), day,
                                      [](Day wanted, const WorkloadRow& row) { return wanted < row.from; });
  return static_cast<std::size_t>(after - rows.begin()) - 1;
}

// Sums of one row, path by path.
struct Sums {
  PathSums minutes{};
  PathSums services{};
  PathSums cost{};
};

std::vector<WorkloadPart> means(const std::map<std::pair<std::string, std::string>, std::int64_t>& sums) {
  std::vector<WorkloadPart> parts;
  for (const auto& [key, hundredths] : sums) {
    parts.push_back({key.first, key.second, static_cast<double>(hundredths) / 100 / load::sample_paths});
  }
  return parts;
}

}  // namespace

Workload workload(const Snapshot& snapshot, Day to, Step step, const Forecaster& forecaster, const Progress& progress) {
  Workload result;
  result.fleet = snapshot.fleet_ptr();
  result.as_of = snapshot.as_of();
  result.to = to;
  result.step = step;
  result.sample_paths = load::sample_paths;
  result.rows = rows_of(snapshot.as_of(), to, step);
  result.labour_priced = snapshot.fleet().costs.hour.has_value();
  std::vector<Sums> sums(result.rows.size());
  Sums all;
  std::map<std::pair<std::string, std::string>, std::int64_t> parts;
  std::map<std::pair<std::string, std::string>, std::int64_t> fluids;
  std::set<std::string> no_price;
  const load::Prices prices(snapshot.fleet());
  const auto add = [&](const Machine& machine, const Outlook& outlook) {
    std::vector<Resources> resources;
    std::vector<Money> costs;
    for (const OutlookPoint& point : outlook.points()) {
      resources.push_back(resources_of(machine, *point.task, point.follow_up));
      costs.push_back(prices.of(resources.back()));
    }
    std::vector<std::int64_t> times(resources.size(), 0);  // a point was serviced, over all sample paths
    PathSums minutes{};
    PathSums services{};
    for (std::size_t path = 0; path < load::sample_paths; ++path) {
      for (const ComingService& service : outlook.draw(path, to)) {
        Sums& row = sums[row_at(result.rows, service.day)];
        const std::int64_t labour = resources[service.point].labour_minutes();
        ++times[service.point];
        for (Sums* const sum : {&row, &all}) {
          sum->minutes[path] += labour;
          sum->services[path] += 1;
          sum->cost[path] += costs[service.point].hundredths;
        }
        minutes[path] += labour;
        services[path] += 1;
      }
    }
    for (std::size_t i = 0; i < resources.size(); ++i) {
      if (times[i] == 0) continue;
      if (!resources[i].time)
        result.no_time.push_back({&machine, outlook.points()[i].name, outlook.points()[i].position});
      for (const auto& [key, pieces] : resources[i].parts) {
        const Part* part = prices.part(key);
        parts[{key, part != nullptr ? part->unit : ""}] += pieces.hundredths * times[i];
        if (!prices.of_piece(key)) no_price.insert(key);
      }
      for (const auto& [key, quantity] : resources[i].fluids) {
        fluids[{key, quantity.unit}] += quantity.amount.hundredths * times[i];
        if (!prices.of_fluid(key, quantity.unit)) no_price.insert(key);
      }
    }
    result.machines.push_back({&machine, spread_of(minutes, 60), spread_of(services, 1).mean});
  };
  load::each_outlook(snapshot, forecaster, progress, {result.unknown, result.not_in_use}, add);
  for (std::size_t i = 0; i < sums.size(); ++i) {
    result.rows[i].labour_hours = spread_of(sums[i].minutes, 60);
    result.rows[i].services = spread_of(sums[i].services, 1);
    result.rows[i].cost = spread_of(sums[i].cost, 100);
  }
  result.labour_hours = spread_of(all.minutes, 60);
  result.services = spread_of(all.services, 1);
  result.cost = spread_of(all.cost, 100);
  result.parts = means(parts);
  result.fluids = means(fluids);
  result.no_price.assign(no_price.begin(), no_price.end());
  return result;
}

}  // namespace service
