// What a round has to load.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "service/workload.h"
#include "visits/judge_parts.h"
#include "visits/judge_words.h"

namespace service::visits {
namespace {

using Loads = std::vector<std::pair<std::string, Quantity>>;

// Names may come more than once, in several units; in which order they come says nothing.
std::vector<std::string> load_words(Loads loads) {
  std::sort(loads.begin(), loads.end(), [](const auto& a, const auto& b) {
    return std::tie(a.first, a.second.unit, a.second.amount) < std::tie(b.first, b.second.unit, b.second.amount);
  });
  std::vector<std::string> words;
  for (const auto& [name, load] : loads) {
    const std::string unit = load.unit.empty() ? "" : ' ' + cleaned(load.unit);
    words.push_back(fmt::format("{}{} {}", to_text(load.amount), unit, cleaned(name)));
  }
  return words;
}

// Where a unit is left out, that of the work is meant.
Loads with_units(Loads given, const Loads& needed) {
  for (auto& [name, load] : given) {
    for (const auto& [other, need] : needed) {
      if (load.unit.empty() && other == name) load.unit = need.unit;
    }
  }
  return given;
}

Loads in_pieces(const std::vector<std::pair<std::string, PartAmount>>& parts) {
  Loads loads;
  for (const auto& [name, amount] : parts) loads.emplace_back(name, Quantity{amount, ""});
  return loads;
}

void judge_loads(std::string_view what, const std::optional<Loads>& given, const Loads& needed, JudgedRound& round,
                 Faults& faults) {
  if (!given) return;
  const auto said = load_words(with_units(*given, needed));
  const auto is = load_words(needed);
  if (said == is) return;
  faults.add_figure(
      cause_of_sums(round, faults), PlanRule::figure, round.where,
      fmt::format("{} to load are {}; its work takes {}", what, listed(said, "none"), listed(is, "none")));
}

}  // namespace

void judge_load(const Week& week, JudgedRound& round, Faults& faults) {
  std::map<std::string, PartAmount> pieces;
  std::map<std::pair<std::string, std::string>, PartAmount> poured;  // by name and unit
  for (const WayStop& stop : round.way.stops) {
    if (!stop.visit) return;
    const Visit& visit = week.visits[*stop.visit];
    for (const Point* point : visit.points) {
      if (std::find(visit.included.begin(), visit.included.end(), point) != visit.included.end()) continue;
      const Resources takes = resources_of(*point->machine, *point->task, point->follow_up);
      for (const auto& [name, amount] : takes.parts) pieces[name] = pieces[name] + amount;
      for (const auto& [name, amount] : takes.fluids) {
        PartAmount& sum = poured[{name, amount.unit}];
        sum = sum + amount.amount;
      }
    }
  }
  Loads parts;
  for (const auto& [name, amount] : pieces) {
    PartAmount missing = amount;
    for (const auto& [carried, on_board] : round.crew->carries) {
      if (carried == name) missing = missing - on_board;
    }
    if (missing.hundredths > 0) parts.emplace_back(name, Quantity{missing, ""});
  }
  Loads fluids;
  for (const auto& [name, amount] : poured) fluids.emplace_back(name.first, Quantity{amount, name.second});
  const auto& given = round.given->parts;
  judge_loads("parts", given ? std::optional(in_pieces(*given)) : std::nullopt, parts, round, faults);
  judge_loads("fluids", round.given->fluids, fluids, round, faults);
}

}  // namespace service::visits
