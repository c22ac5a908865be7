#include "service/due_list.h"

#include <algorithm>
#include <array>
#include <tuple>

#include "service/in_scope.h"
#include "standing/gaps.h"
#include "standing/points.h"
#include "standing/seen.h"
#include "standing/view.h"

namespace service {

namespace {

// In the order of the enumerators.
constexpr std::array<std::string_view, 5> standing_names{"overdue", "due", "coming", "later", "no-record"};
constexpr std::array<int, 5> standing_ranks{0, 1, 3, 4, 2};

int rank_of(Standing standing) { return standing_ranks[static_cast<std::size_t>(standing)]; }

// Points are large, so they are ordered by their places and moved once.
void put_in_order(std::vector<Point>& points) {
  std::vector<Point*> order;
  order.reserve(points.size());
  for (Point& point : points) order.push_back(&point);
  std::stable_sort(order.begin(), order.end(), [](const Point* a, const Point* b) { return ranks_before(*a, *b); });
  std::vector<Point> sorted;
  sorted.reserve(points.size());
  for (Point* const point : order) sorted.push_back(std::move(*point));
  points = std::move(sorted);
}

}  // namespace

std::string_view to_text(Standing standing) { return standing_names[static_cast<std::size_t>(standing)]; }

std::string point_label(std::string_view task, std::string_view position) {
  std::string label(task);
  if (!position.empty()) label.append("@").append(position);
  return label;
}

bool worse(Standing a, Standing b) { return rank_of(a) < rank_of(b); }

bool ranks_before(const Point& a, const Point& b) {
  const auto rank = [](const Point& point) {
    return std::tuple{rank_of(point.standing), !never_waits(point),       point.put_off.has_value(),
                      point.by_estimate,       !point.due_on.has_value(), point.due_on.value_or(Day{})};
  };
  return rank(a) < rank(b);
}

DueList due_list(const Snapshot& snapshot, const DueAsk& ask) { return due_list(snapshot, ask, learnt_from(snapshot)); }

DueList due_list(const Snapshot& snapshot, const DueAsk& ask, const Forecaster& forecaster) {
  DueList list;
  list.fleet = snapshot.fleet_ptr();
  list.as_of = snapshot.as_of();
  list.within = ask.within;
  list.scope = snapshot.scope();
  list.gaps = fleet_gaps(snapshot);
  const InScope scope(snapshot.scope());
  for (const Machine& machine : snapshot.fleet().machines) {
    if (!scope.holds(machine.key) || !kept_on(machine, snapshot.as_of())) continue;
    ++list.machines;
    const MachineView view(snapshot, machine, forecaster);
    auto points = points_of(view, ask);
    for (Gap& gap : gaps_of(view, points)) list.gaps.push_back(std::move(gap));
    std::move(points.begin(), points.end(), std::back_inserter(list.points));
    for (SeenSign& seen : seen_of(view)) list.seen.push_back(std::move(seen));
    if (view.state.kind != UseKind::in_use) list.not_in_use.push_back({&machine, view.state});
  }
  put_in_order(list.points);
  std::stable_sort(list.not_in_use.begin(), list.not_in_use.end(), [](const MachineUse& a, const MachineUse& b) {
    return a.state.kind == UseKind::out_of_use && b.state.kind != UseKind::out_of_use;
  });
  return list;
}

const UseState* DueList::state_of(const Machine& machine) const {
  const auto found = std::find_if(not_in_use.begin(), not_in_use.end(),
                                  [&](const MachineUse& use) { return use.machine->key == machine.key; });
  return found == not_in_use.end() ? nullptr : &found->state;
}

bool nothing_known(const DueList& list, const Machine& machine) {
  return std::any_of(list.gaps.begin(), list.gaps.end(), [&](const Gap& gap) {
    return gap.kind == GapKind::nothing_recorded && gap.machine == machine.key;
  });
}

bool needs_doing(const DueList& list) {
  const bool out_of_use = std::any_of(list.not_in_use.begin(), list.not_in_use.end(),
                                      [](const MachineUse& use) { return use.state.kind == UseKind::out_of_use; });
  return out_of_use || !list.gaps.empty() || !list.seen.empty() ||
         std::any_of(list.points.begin(), list.points.end(), [](const Point& point) {
           return is_due(point) || point.standing == Standing::no_record || !point.unknown.empty();
         });
}

}  // namespace service
