#include "visits/load.h"

#include <algorithm>
#include <map>

#include "service/minding.h"
#include "service/workload.h"

namespace service::visits {
namespace {

std::vector<std::pair<std::string, PartAmount>> used_of_carried(const Crew& crew,
                                                                const std::vector<const Point*>& points) {
  std::vector<std::pair<std::string, PartAmount>> used;
  const Load takes = load_of(Crew{}, points);
  for (const auto& [key, pieces] : crew.carries) {
    for (const auto& [part, amount] : takes.parts) {
      if (part == key && std::min(pieces, amount) > PartAmount{}) used.emplace_back(key, std::min(pieces, amount));
    }
  }
  return used;
}

void add_parts(Load& load, const std::vector<std::pair<std::string, PartAmount>>& parts) {
  std::map<std::string, PartAmount> all(load.parts.begin(), load.parts.end());
  for (const auto& [key, pieces] : parts) all[key] = all[key] + pieces;
  load.parts.assign(all.begin(), all.end());
}

}  // namespace

Load load_of(const Crew& crew, const std::vector<const Point*>& points) {
  std::map<std::string, PartAmount> parts;
  std::map<std::pair<std::string, std::string>, PartAmount> fluids;  // by name and unit
  for (const Point* point : points) {
    const Resources takes = resources_of(*point->machine, *point->task, point->follow_up);
    for (const auto& [key, pieces] : takes.parts) parts[key] = parts[key] + pieces;
    for (const auto& [key, quantity] : takes.fluids) {
      PartAmount& amount = fluids[{key, quantity.unit}];
      amount = amount + quantity.amount;
    }
  }
  for (const auto& [key, pieces] : crew.carries) {
    if (const auto part = parts.find(key); part != parts.end()) part->second = part->second - pieces;
  }
  Load load;
  for (const auto& [key, pieces] : parts) {
    if (pieces > PartAmount{}) load.parts.emplace_back(key, pieces);
  }
  for (const auto& [name, amount] : fluids) load.fluids.emplace_back(name.first, Quantity{amount, name.second});
  return load;
}

LoadsOfCrews::Loaded LoadsOfCrews::next(const Crew* crew, const std::vector<const Point*>& work) {
  Loaded loaded;
  if (crew == nullptr) return loaded;
  loaded.load = load_of(*crew, work);
  loaded.fills_up = used_of_carried(*crew, before_[crew]);
  add_parts(loaded.load, loaded.fills_up);
  before_[crew] = work;
  return loaded;
}

void add_each(std::vector<std::string>& to, const std::vector<std::string>& names) {
  for (const std::string& name : names) {
    if (std::find(to.begin(), to.end(), name) == to.end()) to.push_back(name);
  }
}

void sort_by_catalogue(std::vector<std::string>& cautions) {
  std::stable_sort(cautions.begin(), cautions.end(),
                   [](const std::string& a, const std::string& b) { return catalogue_place(a) < catalogue_place(b); });
}

}  // namespace service::visits
