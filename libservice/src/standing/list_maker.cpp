#include "standing/list_maker.h"

#include <algorithm>
#include <iterator>
#include <utility>

#include "base/order_in_place.h"
#include "service/minding.h"
#include "service/run_ban.h"
#include "standing/gaps.h"
#include "standing/points.h"
#include "standing/seen.h"
#include "standing/shown.h"

namespace service {
namespace {

// Machines stand in one vector, so their places are their order.
bool stands_before(const Machine* a, const Machine* b) { return std::less<>()(a, b); }

// Worst first; what ranks alike stays in the order of the fleet file.
void put_in_order(std::vector<Point>& points) {
  std::vector<std::pair<std::uint64_t, const Machine*>> places;
  places.reserve(points.size());
  for (const Point& point : points) places.emplace_back(rank_of(point), point.machine);
  order_in_place(points, [&](std::size_t a, std::size_t b) {
    if (places[a].first != places[b].first) return places[a].first < places[b].first;
    return stands_before(places[a].second, places[b].second);
  });
}

}  // namespace

void ListMaker::Gaps::add(const Machine& machine, Gap gap) {
  gaps.push_back(std::move(gap));
  machines.push_back(&machine);
}

void ListMaker::Gaps::put_in_order() {
  order_in_place(gaps, [&](std::size_t a, std::size_t b) { return stands_before(machines[a], machines[b]); });
}

ListMaker::ListMaker(std::shared_ptr<const Fleet> fleet, Day as_of, Scope scope, DueAsk ask)
    : ask_(std::move(ask)),
      list_{std::move(fleet), as_of, ask_.within, {}, {}, {}, {}, 0, std::move(scope)},
      in_scope_(list_.scope),
      tasks_(*list_.fleet) {}

bool ListMaker::keeps(const Point& point, bool nothing_recorded) const {
  switch (ask_.keep) {
    case Keep::all:
      return true;
    case Keep::overdue:
      return overdue_heading_of(point).has_value();
    case Keep::not_later:
      return !may_be_left_out(point) || forbids_running(point);
    case Keep::to_find_out:
      return nothing_recorded || asks(point) || forbids_running(point) || sign_was_seen(point) ||
             is_late_for_safety(point);
    case Keep::forbidding:
      return forbids_running(point);
  }
  return true;
}

void ListMaker::let_go(const Point& point) {
  ++let_go_[static_cast<std::size_t>(point.standing)];
  if (std::exchange(let_go_of_, point.machine) != point.machine) list_.let_go.sites.insert(point.machine->site);
  list_.let_go.needs_doing = list_.let_go.needs_doing || needs_seeing_to(point);
}

void ListMaker::take(std::vector<Point> points, const MachineView& view) {
  const bool nothing_recorded = view.book->nothing_recorded();
  for (Point& point : points) {
    if (keeps(point, nothing_recorded)) {
      if (!tells_every_point(ask_)) tell_the_rest(point, view);
      list_.points.push_back(std::move(point));
    } else {
      let_go(point);
    }
  }
}

void ListMaker::add(const Machine& machine, std::shared_ptr<const MachineBook> book, const Forecaster& forecaster) {
  if (auto gap = gap_of_days(machine, book->facts(), list_.as_of)) of_days_.add(machine, std::move(*gap));
  if (!kept_on(machine, list_.as_of)) return;
  ++list_.machines;
  const MachineView view(*list_.fleet, list_.as_of, machine, std::move(book), forecaster, tasks_.of(machine));
  auto points = points_of(view, ask_);
  if (ask_.gaps_of_machines) {
    for (Gap& gap : gaps_of(view, points)) of_machines_.add(machine, std::move(gap));
  }
  DueList of_machine{list_.fleet, list_.as_of, list_.within, std::move(points), {}, seen_of(view), {}, 1};
  if (view.state.kind != UseKind::in_use) of_machine.not_in_use.push_back({&machine, view.state});
  if (ask_.each) ask_.each(of_machine);
  take(std::move(of_machine.points), view);
  std::move(of_machine.seen.begin(), of_machine.seen.end(), std::back_inserter(list_.seen));
  std::move(of_machine.not_in_use.begin(), of_machine.not_in_use.end(), std::back_inserter(list_.not_in_use));
}

void ListMaker::add_unlisted(const std::string& machine, std::span<const Fact> facts) {
  if (auto gap = gap_of_unlisted(machine, facts)) unlisted_.push_back(std::move(*gap));
}

DueList ListMaker::made(std::optional<Day> newest, bool day_is_given) && {
  list_.newest_fact = newest;
  for (std::size_t i = 0; i < let_go_.size(); ++i) {
    if (let_go_[i] > 0) list_.let_go.counts.emplace(static_cast<Standing>(i), let_go_[i]);
  }
  const auto add = [&](std::vector<Gap>& gaps) { std::move(gaps.begin(), gaps.end(), std::back_inserter(list_.gaps)); };
  if (auto gap = gap_of_clock(list_.as_of, day_is_given, newest)) list_.gaps.push_back(std::move(*gap));
  add(unlisted_);
  of_days_.put_in_order();
  add(of_days_.gaps);
  for (Gap& gap : gaps_of_no_machine(*list_.fleet, list_.scope, list_.as_of)) list_.gaps.push_back(std::move(gap));
  of_machines_.put_in_order();
  add(of_machines_.gaps);
  put_in_order(list_.points);
  std::stable_sort(list_.seen.begin(), list_.seen.end(),
                   [](const SeenSign& a, const SeenSign& b) { return stands_before(a.machine, b.machine); });
  std::stable_sort(list_.not_in_use.begin(), list_.not_in_use.end(), [](const MachineUse& a, const MachineUse& b) {
    const bool a_out = a.state.kind == UseKind::out_of_use;
    const bool b_out = b.state.kind == UseKind::out_of_use;
    return a_out != b_out ? a_out : stands_before(a.machine, b.machine);
  });
  return std::move(list_);
}

}  // namespace service
