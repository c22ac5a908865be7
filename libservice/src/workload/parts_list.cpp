#include <algorithm>
#include <map>

#include "service/workload.h"
#include "workload/needs.h"
#include "workload/outlooks.h"
#include "workload/ways.h"

namespace service {
namespace {

// Over all ways, those in which it does not come at all at the end.
std::optional<Day> day_at(const std::vector<Day>& sorted, std::size_t percent) {
  const std::size_t rank = (load::ways * percent + 99) / 100 - 1;
  return rank < sorted.size() ? std::optional{sorted[rank]} : std::nullopt;
}

const Point* today_of(const Outlook& outlook, const OutlookPoint& point) {
  const auto& today = outlook.today();
  const auto found = std::find_if(today.begin(), today.end(), [&](const Point& each) {
    return each.name == point.name && each.position == point.position;
  });
  return found == today.end() ? nullptr : &*found;
}

std::optional<Day> not_before(std::optional<Day> day, Day earliest) {
  return day ? std::optional{std::max(*day, earliest)} : day;
}

// All services of a machine that may come due by a day, each with its span.
void add_services(const Machine& machine, const Outlook& outlook, Day as_of, Day to, std::vector<load::Use>& uses) {
  std::map<std::pair<std::size_t, int>, std::vector<Day>> days;  // point and round
  for (std::size_t path = 0; path < load::ways; ++path) {
    for (const ComingService& service : outlook.draw(path, to)) {
      days[{service.point, service.round}].push_back(service.day);
    }
  }
  for (auto& [which, drawn] : days) {
    std::sort(drawn.begin(), drawn.end());
    const OutlookPoint& point = outlook.points()[which.first];
    PartUse use;
    use.machine = &machine;
    use.task = point.name;
    use.position = point.position;
    use.round = which.second;
    use.due = {day_at(drawn, 10), day_at(drawn, 50), day_at(drawn, 90)};
    // The next service of a point has the span that the due list says, unless another one is likely to include it.
    const Point* today = which.second == 1 ? today_of(outlook, point) : nullptr;
    if (today != nullptr && use.due.p50 && today->due_span.p50 && !today->put_off) {
      use.due = {not_before(today->due_span.p10, as_of), not_before(today->due_span.p50, as_of),
                 not_before(today->due_span.p90, as_of)};
    }
    if (!use.due.p10 || *use.due.p10 > to) continue;
    use.likely = use.due.p50 && *use.due.p50 <= to;
    load::add_uses(uses, resources_of(machine, *point.task, point.follow_up), use);
  }
}

template <class Named>
void keep_of(const Scope& scope, std::vector<Named>& named) {
  std::erase_if(named, [&](const Named& each) { return !scope.holds(each.machine->key); });
}

}  // namespace

PartsList parts_list(const Snapshot& snapshot, Day to, const Forecaster& forecaster, const Progress& progress) {
  load::insist_on_whole(snapshot);
  PartsList list;
  list.fleet = snapshot.fleet_ptr();
  list.as_of = snapshot.as_of();
  list.to = to;
  list.whole_fleet = !snapshot.scope().machines;
  std::vector<load::Use> uses;
  const auto add = [&](const Machine& machine, const Outlook& outlook) {
    add_services(machine, outlook, list.as_of, to, uses);
  };
  load::each_outlook(snapshot.within({}), forecaster, progress, {list.unknown, list.not_in_use}, add);
  list.needs = load::needs_of(snapshot, std::move(uses));
  load::keep_uses_of(snapshot.scope(), list.needs);
  keep_of(snapshot.scope(), list.unknown);
  keep_of(snapshot.scope(), list.not_in_use);
  return list;
}

std::vector<SupplierOrder> orders_of(const PartsList& list) {
  std::map<std::string, SupplierOrder> by_name;
  for (const PartNeed& need : list.needs) {
    if (!need.is_short()) continue;
    const std::string supplier = need.part != nullptr ? need.part->supplier : "";
    SupplierOrder& order = by_name[supplier];
    order.total = order.needs.empty() ? Money{} : order.total;
    order.total = order.total && need.price ? std::optional{*order.total + *need.price} : std::nullopt;
    order.supplier = supplier;
    order.needs.push_back(&need);
  }
  std::vector<SupplierOrder> orders;
  for (auto& [supplier, order] : by_name) orders.push_back(std::move(order));
  return orders;
}

}  // namespace service
