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
                 const Faults::Cause& cause, Faults& faults) {
  if (!given) return;
  const auto said = load_words(with_units(*given, needed));
  const auto is = load_words(needed);
  if (said == is) return;
  faults.add_figure(
      cause ? cause : cause_of_sums(round, faults), PlanRule::figure, round.where,
      fmt::format("{} to load are {}; its work takes {}", what, listed(said, "none"), listed(is, "none")));
}

bool is_included(const Visit& visit, const Point* point) {
  return std::find(visit.included.begin(), visit.included.end(), point) != visit.included.end();
}

void add_pieces(RoundBefore& before, const Point& point) {
  for (const auto& [name, amount] : resources_of(*point.machine, *point.task, point.follow_up).parts) {
    before.pieces[name] = before.pieces[name] + amount;
  }
}

}  // namespace

RoundBefore round_before(const Week& week, const std::vector<JudgedRound>& rounds, const JudgedRound& round) {
  RoundBefore before;
  const JudgedRound* last = nullptr;
  for (const JudgedRound& other : rounds) {
    if (other.crew != round.crew || other.given->on >= round.given->on) continue;
    if (last == nullptr || other.given->on > last->given->on) last = &other;
  }
  if (last != nullptr) {
    before.cause = last->first_cause();
    for (const WayStop& stop : last->way.stops) {
      if (!stop.visit) continue;
      for (const Point* point : week.visits[*stop.visit].points) {
        if (!is_included(week.visits[*stop.visit], point)) add_pieces(before, *point);
      }
    }
    return before;
  }
  const DoneRound* done = nullptr;  // the last one of that crew
  for (const DoneRound& one : week.done_rounds) {
    if (one.crew == round.crew) done = &one;
  }
  if (done == nullptr) return before;
  for (const Point* point : done->all()) add_pieces(before, *point);
  return before;
}

void judge_load(const Week& week, JudgedRound& round, const RoundBefore& before, Faults& faults) {
  std::map<std::string, PartAmount> pieces;
  std::map<std::pair<std::string, std::string>, PartAmount> poured;  // by name and unit
  for (const WayStop& stop : round.way.stops) {
    if (!stop.visit) return;
    const Visit& visit = week.visits[*stop.visit];
    for (const Point* point : visit.points) {
      if (is_included(visit, point)) continue;
      const Resources takes = resources_of(*point->machine, *point->task, point->follow_up);
      for (const auto& [name, amount] : takes.parts) pieces[name] = pieces[name] + amount;
      for (const auto& [name, amount] : takes.fluids) {
        PartAmount& sum = poured[{name, amount.unit}];
        sum = sum + amount.amount;
      }
    }
  }
  std::map<std::string, PartAmount> to_load = pieces;
  for (const auto& [carried, on_board] : round.crew->carries) {
    const auto used = before.pieces.find(carried);
    const PartAmount fill = used == before.pieces.end() ? PartAmount{} : std::min(used->second, on_board);
    to_load[carried] = std::max(to_load[carried] - on_board, PartAmount{}) + fill;
  }
  Loads parts;
  for (const auto& [name, amount] : to_load) {
    if (amount.hundredths > 0) parts.emplace_back(name, Quantity{amount, ""});
  }
  Loads fluids;
  for (const auto& [name, amount] : poured) fluids.emplace_back(name.first, Quantity{amount, name.second});
  const auto& given = round.given->parts;
  judge_loads("parts", given ? std::optional(in_pieces(*given)) : std::nullopt, parts, round, before.cause, faults);
  judge_loads("fluids", round.given->fluids, fluids, round, std::nullopt, faults);
}

}  // namespace service::visits
