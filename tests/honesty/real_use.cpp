#include "honesty/real_use.h"

#include <algorithm>
#include <array>
#include <boost/random/uniform_real_distribution.hpp>
#include <cmath>
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>

namespace honesty {
namespace {

std::vector<std::vector<std::string>> rows_of(const std::string& path) {
  std::ifstream file(path);
  if (!file) throw std::runtime_error("cannot read " + path);
  std::vector<std::vector<std::string>> rows;
  for (std::string line; std::getline(file, line);) {
    if (!line.empty() && line.back() == '\r') line.pop_back();
    auto& row = rows.emplace_back();
    std::istringstream fields(line);
    for (std::string field; std::getline(fields, field, ',');) row.push_back(field);
  }
  return rows;
}

Day day_of(const std::string& text) {
  const auto number = [&](std::size_t from, std::size_t length) { return std::stoi(text.substr(from, length)); };
  return std::chrono::sys_days{std::chrono::year{number(0, 4)} / number(5, 2) / number(8, 2)};
}

RealSet read_set(const std::string& folder, const std::string& name, Half half) {
  const auto days = rows_of(folder + "/" + name + ".csv");
  const auto machines = rows_of(folder + "/" + name + ".machines.csv");
  RealSet set;
  set.name = name;
  set.world.first = day_of(days.at(1).at(0));
  std::map<std::string, int> turn;
  for (std::size_t m = 1; m < machines.size(); ++m) {
    const auto& row = machines[m];
    const bool first = turn[row.at(1)]++ % 2 == 0;
    set.world.unit = row.at(3);
    if (half != Half::all && first != (half == Half::first)) continue;
    const auto column =
        static_cast<std::size_t>(std::find(days[0].begin(), days[0].end(), row.at(0)) - days[0].begin());
    Used used{row.at(0), row.at(1), day_of(row.at(2)), {}};
    double sum = 0;
    for (std::size_t d = 1; d < days.size(); ++d) {
      const Day day = set.world.first + std::chrono::days{static_cast<int>(d) - 1};
      if (day_of(days[d].at(0)) != day) throw std::runtime_error(name + ": a day is missing before " + days[d][0]);
      if (day >= used.from) sum += std::stod(days[d].at(column));
      used.usage.push_back(sum);
    }
    set.world.machines.push_back(std::move(used));
  }
  return set;
}

}  // namespace

std::vector<RealSet> real_sets(const std::string& folder, Half half) {
  std::vector<RealSet> sets;
  for (const char* name : {"aircraft-houston", "trucks", "weather-rain"}) sets.push_back(read_set(folder, name, half));
  return sets;
}

void draw_intervals(World& world, std::mt19937_64& random) {
  constexpr std::array<double, 3> in_days{20, 50, 120};
  world.intervals.clear();
  std::map<std::string, std::pair<double, double>> kinds;  // use, days
  for (const Used& machine : world.machines) {
    auto& [use, days] = kinds[machine.kind];
    use += machine.usage.back();
    days += days_between(machine.from, world.last()) + 1;
  }
  for (const auto& [kind, sum] : kinds) {
    for (const double days : in_days) {
      if (2 * days > world.days()) continue;
      const double scatter = boost::random::uniform_real_distribution<double>(0.7, 1.3)(random);
      world.intervals[kind].push_back(std::max(0.5, sum.first / sum.second * days * scatter));
    }
  }
}

std::vector<Day> days_to_ask(const World& world) {
  std::vector<Day> days;
  for (const int age : {15, 25, 40, 55, 75, 100, 140, 190, 250, 330, 430, 540, 680, 850, 1050, 1250}) {
    if (age + std::max(25, world.days() / 5) <= world.days()) days.push_back(world.first + std::chrono::days{age});
  }
  return days;
}

}  // namespace honesty
