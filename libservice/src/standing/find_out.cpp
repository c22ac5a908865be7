// What is not known, as questions that somebody can answer.
#include <algorithm>
#include <functional>
#include <string_view>
#include <unordered_map>
#include <unordered_set>

#include "service/due_list.h"
#include "service/in_scope.h"
#include "service/not_to_run.h"
#include "standing/shown.h"

namespace service {
namespace {

// The meters by which something of these points comes due, in the machine's order.
std::vector<const Meter*> meters_needed(const Machine& machine, const std::vector<const Point*>& points) {
  std::vector<const Meter*> meters;
  for (const Meter& meter : machine.meters) {
    const bool needed = std::any_of(points.begin(), points.end(), [&](const Point* point) {
      return std::any_of(point->limbs.begin(), point->limbs.end(), [&](const LimbStanding& limb) {
        return limb.kind == LimbKind::usage && limb.name == meter.name;
      });
    });
    if (needed) meters.push_back(&meter);
  }
  return meters;
}

void ask_for_reading(MachineQuestions& asked, const Gap& gap, const std::string& meter) {
  const Meter* of = asked.machine->meter(meter);
  asked.questions.push_back({FactKind::reading, meter, of == nullptr ? "" : of->unit, "", nullptr, &gap});
}

// When it was done last answers most; a value that nobody measured can be measured now.
void ask_about(MachineQuestions& asked, const Point& point) {
  const LimbStanding* measured = nullptr;
  const LimbStanding* usage = nullptr;
  bool only_measured = true;
  for (const LimbStanding& limb : point.limbs) {
    if (limb.kind == LimbKind::measured && limb.state == LimbState::unknown) measured = &limb;
    if (limb.kind == LimbKind::usage && usage == nullptr) usage = &limb;
  }
  for (const LimbKind kind : point.unknown) only_measured = only_measured && kind == LimbKind::measured;
  if (!only_measured || point.unknown.empty() || measured == nullptr) {
    asked.questions.push_back({FactKind::service, usage == nullptr ? "" : usage->name,
                               usage == nullptr ? "" : usage->unit, "", &point, nullptr});
  }
  if (measured != nullptr &&
      std::find(point.unknown.begin(), point.unknown.end(), LimbKind::measured) != point.unknown.end()) {
    asked.questions.push_back({FactKind::measurement, "", measured->unit, measured->name, &point, nullptr});
  }
}

// What a list holds of one machine, in its order.
struct OfMachine {
  std::vector<const Point*> points;
  std::vector<const Gap*> gaps;
  std::vector<const SeenSign*> seen;
};

// By the machine's key; whatever the list holds of none is of the fleet.
using ByMachine = std::unordered_map<std::string_view, OfMachine>;

ByMachine by_machine(const DueList& list) {
  ByMachine known;
  for (const Point& point : list.points) known[point.machine->key].points.push_back(&point);
  for (const Gap& gap : list.gaps) known[gap.machine].gaps.push_back(&gap);
  for (const SeenSign& seen : list.seen) known[seen.machine->key].seen.push_back(&seen);
  return known;
}

MachineQuestions told_of(const Machine& machine, const OfMachine& of) {
  MachineQuestions told;
  told.machine = &machine;
  told.seen = of.seen;
  for (const Point* point : of.points) {
    if (sign_was_seen(*point) && !never_waits(*point)) told.signs.push_back(point);
  }
  return told;
}

MachineQuestions questions_about(const Machine& machine, OfMachine of) {
  MachineQuestions asked = told_of(machine, of);
  auto& points = of.points;
  for (const Gap* each : of.gaps) {
    const Gap& gap = *each;
    if (gap.kind == GapKind::nothing_recorded) {
      asked.nothing_recorded = true;
      for (const Meter* meter : meters_needed(machine, points)) ask_for_reading(asked, gap, meter->name);
    }
    if (gap.kind == GapKind::no_reading || gap.kind == GapKind::stale) ask_for_reading(asked, gap, gap.meter);
  }
  std::stable_sort(points.begin(), points.end(), [](const Point* a, const Point* b) {
    if (never_waits(*a) != never_waits(*b)) return never_waits(*a);
    return std::less<>()(a->task, b->task);
  });
  for (const Point* point : points) {
    if (asks(*point)) ask_about(asked, *point);
  }
  asked.start_unknown = !asked.questions.empty() && machine.start.kind == StartKind::unknown;
  return asked;
}

}  // namespace

bool asks(const Point& point) { return point.standing == Standing::no_record || !point.unknown.empty(); }

std::vector<MachineQuestions> find_out(const DueList& list) {
  ByMachine known = by_machine(list);
  std::vector<MachineQuestions> all;
  for (const Machine& machine : list.fleet->machines) {
    const auto of = known.find(machine.key);
    if (of == known.end()) continue;
    MachineQuestions asked = questions_about(machine, std::move(of->second));
    if (!asked.questions.empty()) all.push_back(std::move(asked));
  }
  return all;
}

std::vector<MachineQuestions> told_beside(const DueList& list, const std::vector<MachineQuestions>& asked) {
  std::unordered_set<const Machine*> told;
  for (const MachineQuestions& one : asked) told.insert(one.machine);
  ByMachine known = by_machine(list);
  const InScope scope(list.scope);
  const NotToRun stopped(list);
  std::vector<MachineQuestions> all;
  for (const Machine& machine : list.fleet->machines) {
    if (told.contains(&machine) || !scope.holds(machine.key) || !kept_on(machine, list.as_of)) continue;
    MachineQuestions beside = told_of(machine, known[machine.key]);
    const bool something = !beside.seen.empty() || !beside.signs.empty() || !machine.notes.empty();
    if (something || stopped.holds(machine) || list.state_of(machine) != nullptr) all.push_back(std::move(beside));
  }
  return all;
}

}  // namespace service
