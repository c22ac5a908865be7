#include "standing/gaps.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "service/in_scope.h"

namespace service {
namespace {

// Whether something comes due by a meter; else it need not be read.
bool comes_due_by(const std::vector<Point>& points, const Meter& meter) {
  return std::any_of(points.begin(), points.end(), [&](const Point& point) {
    return std::any_of(point.limbs.begin(), point.limbs.end(), [&](const LimbStanding& limb) {
      return limb.kind == LimbKind::usage && limb.name == meter.name;
    });
  });
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
  if (age <= view.fleet.stale_after_days) return std::nullopt;
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

Gap gap_of_doubt(const MachineView& view, const Meter& meter, const Doubt& doubt) {
  Gap gap{view.machine.key, meter.name, GapKind::doubtful, doubt.to, {}, {doubt.fact}};
  if (doubt.earlier) gap.facts.push_back(*doubt.earlier);
  gap.say = fmt::format("{} {} on {} is hard to believe: {} {} more than on {}", to_text_tenths(doubt.shown),
                        meter.unit, to_text(doubt.to), to_text_tenths(doubt.used), meter.unit, to_text(doubt.from));
  if (doubt.p10 && doubt.p90) {
    constexpr std::int64_t unit = 100;
    gap.say += fmt::format(", and {} to {} was expected", doubt.p10->hundredths / unit,
                           (doubt.p90->hundredths + unit - 1) / unit);
  }
  gap.say += fmt::format(" ({})", short_text(doubt.fact));
  if (doubt.likely) gap.say += fmt::format("; was {} meant?", to_text(*doubt.likely));
  return gap;
}

// Its lay-up asks for no readings and expects no use, so what its meter tells against that must not pass in silence.
Gap gap_of_run(const MachineView& view, const RanSince& ran) {
  const bool unsafe = view.state.kind == UseKind::out_of_use;
  const auto& over = view.state.ran_out;
  const Day since = over ? over->since : *view.state.since;
  const std::string stands = over ? fmt::format("laid up from {} until {}", to_text(since), to_text(*over->until))
                                  : fmt::format("{} since {}", unsafe ? "out of use" : "laid up", to_text(since));
  const std::string by = view.machine.meters.size() > 1 ? fmt::format(" by meter `{}`", ran.meter) : std::string{};
  const std::string ask = unsafe ? "do not run it; is it mended and back, or who ran it?"
                                 : fmt::format("{} it back, or who ran it?", over ? "was" : "is");
  Gap gap{view.machine.key, ran.meter, GapKind::ran_while_not_in_use, since, {}, {}};
  gap.used = ran.used;
  if (ran.fact) gap.facts.push_back(*ran.fact);
  gap.say = fmt::format("has run {} {}{}", to_text_tenths(ran.used), ran.unit, by);
  if (!ran.all_of_it) {
    gap.say += " since " + to_text(ran.from);
    if (ran.at_least) {
      gap.say +=
          fmt::format(", at least {} {} of it while {}: {}", to_text_tenths(*ran.at_least), ran.unit, stands, ask);
    } else {
      gap.say += fmt::format(", and {} {}: {}{}", over ? "was" : "is", stands, unsafe ? "" : "was that before, ", ask);
    }
    return gap;
  }
  if (ran.from != since) gap.say += " since " + to_text(ran.from);
  gap.say += fmt::format(" while {}: {}", stands, ask);
  return gap;
}

std::vector<Gap> gaps_of_record(const MachineView& view, const std::vector<Point>& points) {
  if (view.book->nothing_recorded() && view.machine.start.kind != StartKind::in_service) {
    return {Gap{view.machine.key, {}, GapKind::nothing_recorded, {}, "nothing is recorded of it", {}}};
  }
  std::vector<Gap> gaps;
  for (const Meter& meter : view.machine.meters) {
    const bool needed = comes_due_by(points, meter);
    for (const Contradiction& contradiction : view.history(meter.name)->contradictions())
      gaps.push_back(gap_of_contradiction(view, meter, contradiction));
    if (needed) {
      for (const Doubt& doubt : view.doubts(meter)) gaps.push_back(gap_of_doubt(view, meter, doubt));
    }
    for (const RanSince& ran : view.state.ran) {
      if (ran.meter == meter.name) gaps.push_back(gap_of_run(view, ran));
    }
    if (view.state.laid_up || !needed) continue;
    if (auto gap = gap_of_meter(view, meter)) gaps.push_back(std::move(*gap));
  }
  return gaps;
}

// A task that is gone from a file is gone from every list, though the book knows it.
std::optional<Gap> gap_of_tasks(const MachineView& view) {
  Gap gap{view.machine.key, {}, GapKind::unlisted, {}, {}, {}};
  std::vector<std::string> names;
  for (const Fact& fact : view.facts) {
    if (is_listed(view.tasks, fact)) continue;
    if (!gap.since) gap.since = fact.on.first;
    gap.facts.push_back(fact.id);
    if (std::find(names.begin(), names.end(), fact.task) == names.end()) names.push_back(fact.task);
  }
  if (names.empty()) return std::nullopt;
  gap.say = fmt::format(
      "{} about {}, which schedules/{}.yaml does not list: is that file whole? Put it back, or strike "
      "what is wrong ({})",
      counted(static_cast<std::int64_t>(gap.facts.size()), "fact", "facts"), fmt::join(names, ", "), view.schedule.name,
      short_text(gap.facts.front()));
  return gap;
}

Gap gap_of_example(const MachineView& view) {
  return {view.machine.key,
          {},
          GapKind::example_values,
          {},
          fmt::format("the values of schedules/{}.yaml are examples; take them from the operator's manual, then take "
                      "`example: true` out of that file",
                      view.schedule.name),
          {}};
}

}  // namespace

std::string_view to_text(GapKind kind) {
  // In the order of the enumerators.
  constexpr std::array<std::string_view, 11> names{
      "nothing-recorded", "no-reading",   "stale", "contradiction", "doubtful",      "ran-while-not-in-use",
      "unlisted",         "outside-days", "clock", "no-machine",    "example-values"};
  return names[static_cast<std::size_t>(kind)];
}

bool is_listed(const std::vector<MachineTask>& tasks, const Fact& fact) {
  if (fact.task.empty()) return true;
  return std::any_of(tasks.begin(), tasks.end(), [&](const MachineTask& task) {
    const std::string& name = task.task->name;
    if (!fact.task.starts_with(name)) return false;
    const std::string_view rest = std::string_view(fact.task).substr(name.size());
    if (rest.empty()) return true;
    const auto& checks = task.task->follow_ups;
    return rest.front() == '/' && std::any_of(checks.begin(), checks.end(),
                                              [&](const FollowUp& check) { return rest.substr(1) == check.name; });
  });
}

bool is_to_come(const Machine& machine, Day day) {
  return machine.start.kind != StartKind::unknown && day < machine.start.on.first;
}

bool is_after_it_left(const Machine& machine, const Fact& fact) {
  return machine.left && fact.on.first > *machine.left;
}

bool is_before_it_was_new(const Machine& machine, const Fact& fact) {
  return machine.start.kind == StartKind::in_service && fact.on.last < machine.start.on.first;
}

std::vector<Gap> gaps_of(const MachineView& view, const std::vector<Point>& points) {
  std::vector<Gap> gaps = gaps_of_record(view, points);
  if (auto gap = gap_of_tasks(view)) gaps.push_back(std::move(*gap));
  if (view.schedule.example) gaps.push_back(gap_of_example(view));
  return gaps;
}

std::optional<Gap> gap_of_days(const Machine& machine, std::span<const Fact> facts, Day as_of) {
  const bool to_come = is_to_come(machine, as_of);
  int after = 0;
  Gap gap{machine.key, {}, GapKind::outside_days, {}, {}, {}};
  for (const Fact& fact : facts) {
    const bool too_late = is_after_it_left(machine, fact);
    const bool too_early = to_come || is_before_it_was_new(machine, fact);
    if (!too_late && !too_early) continue;
    if (too_late) ++after;
    if (!gap.since) gap.since = fact.on.first;
    gap.facts.push_back(fact.id);
  }
  if (gap.facts.empty()) return std::nullopt;
  const int before = static_cast<int>(gap.facts.size()) - after;
  const bool is_new = machine.start.kind == StartKind::in_service;
  std::vector<std::string> parts;
  if (before > 0) {
    parts.push_back(fmt::format("{} before it {} on {}: mend `{}` in the fleet file", counted(before, "fact", "facts"),
                                is_new ? "went into service" : "was bought", to_text(machine.start.on),
                                is_new ? "in-service" : "bought"));
  }
  if (after > 0) {
    parts.push_back(fmt::format("{} after it left on {}: mend `left` in the fleet file",
                                counted(after, "fact", "facts"), to_text(*machine.left)));
  }
  gap.say = fmt::format("{}, or strike what is wrong ({})", fmt::join(parts, "; "), short_text(gap.facts.front()));
  return gap;
}

bool rest_on_doubt(const std::vector<Gap>& gaps) {
  return std::any_of(gaps.begin(), gaps.end(), [](const Gap& gap) {
    return gap.kind == GapKind::doubtful || gap.kind == GapKind::contradiction;
  });
}

std::vector<GapLine> gap_lines(const std::vector<const Gap*>& gaps) {
  std::vector<GapLine> lines;
  std::vector<GapLine> of_schedules;
  for (const Gap* gap : gaps) {
    if (gap->kind != GapKind::example_values) {
      lines.push_back({gap, 1});
      continue;
    }
    const auto same = std::find_if(of_schedules.begin(), of_schedules.end(),
                                   [&](const GapLine& line) { return line.gap->say == gap->say; });
    if (same == of_schedules.end()) {
      of_schedules.push_back({gap, 1});
    } else {
      ++same->machines;
    }
  }
  lines.insert(lines.end(), of_schedules.begin(), of_schedules.end());
  return lines;
}

std::vector<GapLine> gap_lines(const std::vector<Gap>& gaps) {
  std::vector<const Gap*> all;
  for (const Gap& gap : gaps) all.push_back(&gap);
  return gap_lines(all);
}

std::optional<Gap> gap_of_clock(Day as_of, bool day_is_given, std::optional<Day> newest) {
  if (day_is_given || !newest || *newest <= as_of) return std::nullopt;
  return Gap{{},
             {},
             GapKind::clock,
             newest,
             fmt::format("today is {} by this clock, and the newest fact is of {}: the clock is wrong, or that day is",
                         to_text(as_of), to_text(*newest)),
             {}};
}

std::optional<Gap> gap_of_unlisted(std::string_view machine, std::span<const Fact> facts) {
  if (facts.empty()) return std::nullopt;
  Gap gap{std::string(machine), {}, GapKind::unlisted, {}, {}, {}};
  for (const Fact& fact : facts) gap.facts.push_back(fact.id);
  gap.say = fmt::format(
      "{} about a machine that the fleet does not list ({}): put it into the fleet file again, with "
      "`left` where it is gone, or strike what is wrong",
      counted(static_cast<std::int64_t>(facts.size()), "fact", "facts"), short_text(gap.facts.front()));
  return gap;
}

// Machines that were asked about by name are told by name.
std::vector<Gap> gaps_of_no_machine(const Fleet& fleet, const Scope& asked, Day as_of) {
  const InScope scope(asked);
  const bool any = std::any_of(fleet.machines.begin(), fleet.machines.end(), [&](const Machine& machine) {
    return scope.holds(machine.key) && kept_on(machine, as_of);
  });
  if (any) return {};
  const std::string day = to_text(as_of);
  std::vector<Gap> gaps;
  const bool by_name = asked.machines && asked.site.empty();
  for (const Machine& machine : fleet.machines) {
    if (!by_name || !scope.holds(machine.key)) continue;
    const bool gone = machine.left && *machine.left <= as_of;
    gaps.push_back({machine.key,
                    {},
                    GapKind::no_machine,
                    gone ? machine.left : std::nullopt,
                    gone ? fmt::format("it is not there on {}: it left on {}", day, to_text(*machine.left))
                         : fmt::format("it is not there on {}: it comes on {}", day, to_text(machine.start.on)),
                    {}});
  }
  if (!gaps.empty()) return gaps;
  const bool ever = std::any_of(fleet.machines.begin(), fleet.machines.end(),
                                [&](const Machine& machine) { return scope.holds(machine.key); });
  if (!ever && !asked.site.empty()) {
    return {{{}, {}, GapKind::no_machine, {}, "the fleet lists no machine at " + asked.site, {}}};
  }
  return {{{}, {}, GapKind::no_machine, {}, "no machine is there on " + day + ": all came later, or have left", {}}};
}

std::vector<Gap> fleet_gaps(const Snapshot& snapshot) {
  std::vector<Gap> gaps;
  const auto add = [&](std::optional<Gap> gap) {
    if (gap) gaps.push_back(std::move(*gap));
  };
  add(gap_of_clock(snapshot.as_of(), snapshot.day_is_given(), snapshot.newest_fact()));
  for (const auto& [machine, facts] : snapshot.unlisted()) add(gap_of_unlisted(machine, snapshot.facts_of(machine)));
  const InScope scope(snapshot.scope());
  for (const Machine& machine : snapshot.fleet().machines) {
    if (!scope.holds(machine.key)) continue;
    add(gap_of_days(machine, snapshot.bearing_facts_of(machine.key), snapshot.as_of()));
  }
  for (Gap& gap : gaps_of_no_machine(snapshot.fleet(), snapshot.scope(), snapshot.as_of()))
    gaps.push_back(std::move(gap));
  return gaps;
}

}  // namespace service
