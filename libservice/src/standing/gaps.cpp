#include "standing/gaps.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>

namespace service {
namespace {

// The meters by which something comes due; the others need not be read.
std::set<std::string> meters_needed(const std::vector<Point>& points) {
  std::set<std::string> meters;
  for (const Point& point : points) {
    for (const LimbStanding& limb : point.limbs) {
      if (limb.kind == LimbKind::usage) meters.insert(limb.name);
    }
  }
  return meters;
}

std::optional<Gap> gap_of_meter(const MachineView& view, const Meter& meter) {
  const MeterHistory& history = *view.history(meter.name);
  const bool named = view.machine.meters.size() > 1;
  const std::string of_meter = named ? fmt::format(" of meter `{}`", meter.name) : std::string{};
  if (history.empty()) {
    return Gap{view.machine.key, meter.name, GapKind::no_reading, {}, fmt::format("no reading{} at all", of_meter), {}};
  }
  const Day newest = history.knots().back().day;
  const int age = days_between(newest, view.as_of);
  if (age <= view.snapshot.fleet().stale_after_days) return std::nullopt;
  if (!history.read()) {
    const char* const start = view.machine.start.kind == StartKind::bought ? "it was bought" : "it went into service";
    return Gap{view.machine.key,
               meter.name,
               GapKind::no_reading,
               newest,
               fmt::format("no reading{} since {}, {}", of_meter, start, counted(age, "day", "days")),
               {}};
  }
  return Gap{view.machine.key,
             meter.name,
             GapKind::stale,
             newest,
             fmt::format("no reading{} for {}", of_meter, counted(age, "day", "days")),
             {}};
}

Gap gap_of_contradiction(const MachineView& view, const Meter& meter, const Contradiction& contradiction) {
  Gap gap{view.machine.key, meter.name, GapKind::contradiction, contradiction.day, {}, {}};
  for (const auto& fact : {contradiction.earlier, contradiction.later}) {
    if (fact) gap.facts.push_back(*fact);
  }
  const std::string said = to_text_tenths(contradiction.said) + ' ' + meter.unit;
  const std::string held = to_text_tenths(contradiction.held) + ' ' + meter.unit;
  gap.say = contradiction.said < contradiction.held
                ? fmt::format("usage {} on {} contradicts {} before it; the higher holds until one is struck", said,
                              to_text(contradiction.day), held)
                : fmt::format("usage {} on {} is over 24 h a day more than {} before it; one of them is wrong", said,
                              to_text(contradiction.day), held);
  for (std::size_t i = 0; i < gap.facts.size(); ++i) {
    gap.say += (i == 0 ? ": " : " or ") + short_text(gap.facts[i]);
  }
  return gap;
}

}  // namespace

std::string_view to_text(GapKind kind) {
  // In the order of the enumerators.
  constexpr std::array<std::string_view, 7> names{"nothing-recorded", "no-reading", "stale",     "contradiction",
                                                  "unlisted",         "clock",      "no-machine"};
  return names[static_cast<std::size_t>(kind)];
}

std::vector<Gap> gaps_of(const MachineView& view, const std::vector<Point>& points) {
  if (view.facts.empty() && view.machine.start.kind != StartKind::in_service) {
    return {Gap{view.machine.key, {}, GapKind::nothing_recorded, {}, "nothing is recorded of it", {}}};
  }
  std::vector<Gap> gaps;
  const auto needed = meters_needed(points);
  for (const Meter& meter : view.machine.meters) {
    for (const Contradiction& contradiction : view.history(meter.name)->contradictions())
      gaps.push_back(gap_of_contradiction(view, meter, contradiction));
    if (view.state.laid_up || !needed.contains(meter.name)) continue;
    if (auto gap = gap_of_meter(view, meter)) gaps.push_back(std::move(*gap));
  }
  return gaps;
}

std::vector<Gap> fleet_gaps(const Snapshot& snapshot) {
  std::vector<Gap> gaps;
  if (!snapshot.day_is_given() && snapshot.newest_fact() && *snapshot.newest_fact() > snapshot.as_of()) {
    gaps.push_back(
        {{},
         {},
         GapKind::clock,
         snapshot.newest_fact(),
         fmt::format("today is {} by this clock, and the newest fact is of {}: the clock is wrong, or that day is",
                     to_text(snapshot.as_of()), to_text(*snapshot.newest_fact())),
         {}});
  }
  for (const auto& [machine, facts] : snapshot.unlisted()) {
    gaps.push_back({machine,
                    {},
                    GapKind::unlisted,
                    {},
                    fmt::format("{} about a machine that the fleet does not list", counted(facts, "fact", "facts")),
                    {}});
  }
  return gaps;
}

}  // namespace service
