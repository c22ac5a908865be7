// What a round has to load.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "service/workload.h"
#include "visits/judge_parts.h"
#include "visits/judge_words.h"

namespace service::visits {
namespace {

using Loads = std::vector<std::pair<std::string, PartAmount>>;

// Names may come more than once, in several units; in which order they come says nothing.
std::vector<std::string> load_words(Loads loads) {
  std::sort(loads.begin(), loads.end());
  std::vector<std::string> words;
  for (const auto& [name, amount] : loads) words.push_back(fmt::format("{} {}", to_text(amount), cleaned(name)));
  return words;
}

void judge_loads(std::string_view what, const std::optional<Loads>& given, const Loads& needed,
                 const std::string& where, Faults& faults) {
  if (!given) return;
  const auto said = load_words(*given);
  const auto is = load_words(needed);
  if (said == is) return;
  faults.add(PlanRule::figure, where,
             fmt::format("{} to load are {}; its work takes {}", what, listed(said, "none"), listed(is, "none")));
}

}  // namespace

void judge_load(const Week& week, const JudgedRound& round, Faults& faults) {
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
    if (missing.hundredths > 0) parts.emplace_back(name, missing);
  }
  Loads fluids;
  for (const auto& [name, amount] : poured) fluids.emplace_back(name.first, amount);
  judge_loads("parts", round.given->parts, parts, round.where, faults);
  judge_loads("fluids", round.given->fluids, fluids, round.where, faults);
}

}  // namespace service::visits
