#include "service/due_list.h"

#include <algorithm>
#include <array>
#include <limits>

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

// From the highest bits down, in the order of what decides first; below them the day, which fits into 32 with its sign.
std::uint64_t rank_of(const Point& point) {
  auto rank = static_cast<std::uint64_t>(rank_of(point.standing));
  for (const bool later : {!never_waits(point), point.put_off.has_value(), point.by_estimate, !point.due_on}) {
    rank = rank << 1U | static_cast<std::uint64_t>(later);
  }
  constexpr std::int64_t first_day = std::numeric_limits<std::int32_t>::min();
  const std::int64_t days = point.due_on ? point.due_on->time_since_epoch().count() : first_day;
  return rank << 32U | static_cast<std::uint64_t>(days - first_day);
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
  return out_of_use || !list.gaps.empty() || !list.seen.empty() || list.let_go.needs_doing ||
         std::any_of(list.points.begin(), list.points.end(), needs_seeing_to);
}

}  // namespace service
