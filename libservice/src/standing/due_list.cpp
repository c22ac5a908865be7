#include "service/due_list.h"

#include <algorithm>
#include <array>
#include <tuple>

#include "service/machine_book.h"
#include "standing/list_maker.h"
#include "standing/shown.h"

namespace service {

namespace {

// In the order of the enumerators.
constexpr std::array<std::string_view, 5> standing_names{"overdue", "due", "coming", "later", "no-record"};
constexpr std::array<int, 5> standing_ranks{0, 1, 3, 4, 2};

int rank_of(Standing standing) { return standing_ranks[static_cast<std::size_t>(standing)]; }

}  // namespace

std::string_view to_text(Standing standing) { return standing_names[static_cast<std::size_t>(standing)]; }

std::string point_label(std::string_view task, std::string_view position) {
  std::string label(task);
  if (!position.empty()) label.append("@").append(position);
  return label;
}

bool worse(Standing a, Standing b) { return rank_of(a) < rank_of(b); }

PointRank rank_of(const Point& point) {
  return {rank_of(point.standing), !never_waits(point),       point.put_off.has_value(),
          point.by_estimate,       !point.due_on.has_value(), point.due_on.value_or(Day{})};
}

bool ranks_before(const Point& a, const Point& b) { return rank_of(a) < rank_of(b); }

DueList due_list(const Snapshot& snapshot, const DueAsk& ask) { return due_list(snapshot, ask, learnt_from(snapshot)); }

DueList due_list(const Snapshot& snapshot, const DueAsk& ask, const Forecaster& forecaster) {
  ListMaker maker(snapshot.fleet_ptr(), snapshot.as_of(), snapshot.scope(), ask);
  for (const auto& [machine, facts] : snapshot.unlisted()) maker.add_unlisted(machine, snapshot.facts_of(machine));
  std::size_t done = 0;
  for (const Machine& machine : snapshot.fleet().machines) {
    if (ask.progress) ask.progress(done++, snapshot.fleet().machines.size());
    if (maker.wants(machine)) maker.add(machine, book_of(snapshot, machine), forecaster);
  }
  return std::move(maker).made(snapshot.newest_fact(), snapshot.day_is_given());
}

const UseState* DueList::state_of(const Machine& machine) const {
  const auto found = std::find_if(not_in_use.begin(), not_in_use.end(),
                                  [&](const MachineUse& use) { return use.machine->key == machine.key; });
  return found == not_in_use.end() ? nullptr : &found->state;
}

bool needs_doing(const DueList& list) {
  const bool out_of_use = std::any_of(list.not_in_use.begin(), list.not_in_use.end(),
                                      [](const MachineUse& use) { return use.state.kind == UseKind::out_of_use; });
  const auto& let_go = list.let_go.counts;
  return out_of_use || !list.gaps.empty() || !list.seen.empty() || let_go.contains(Standing::overdue) ||
         let_go.contains(Standing::due) || std::any_of(list.points.begin(), list.points.end(), [](const Point& point) {
           return is_due(point) || point.standing == Standing::no_record || !point.unknown.empty();
         });
}

}  // namespace service
