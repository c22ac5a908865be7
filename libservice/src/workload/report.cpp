#include "service/report.h"

#include <algorithm>
#include <set>

#include "service/minding.h"
#include "workload/needs.h"
#include "workload/whole_plan.h"

namespace service {
namespace {

// The newest day of what is in a book and was not struck.
std::optional<Day> known_until(const Book& book) {
  std::optional<Day> newest;
  for (const BookLine& line : book.lines) {
    if (!line.struck && (!newest || *newest < line.fact.on.first)) newest = line.fact.on.first;
  }
  return newest;
}

std::string_view customer_of(const Fleet& fleet, const Machine& machine) {
  const Site* site = fleet.site(machine.site);
  return site == nullptr ? std::string_view{} : site->customer;
}

// The one customer of all machines that were asked about. Empty: there are several, or nobody says whose they are.
std::string_view customer_asked_about(const Report& report) {
  std::optional<std::string_view> customer;
  for (const Machine& machine : report.fleet->machines) {
    if (!report.scope.holds(machine.key)) continue;
    const std::string_view own = customer_of(*report.fleet, machine);
    if (customer && *customer != own) return {};
    customer = own;
  }
  return customer.value_or(std::string_view{});
}

// Takes out what is not known of listed machines that were not asked about, unless they are the same customer's, and
// tells how much that was.
std::size_t take_elsewhere(const Report& report, std::vector<Gap>& gaps, ReadingDoubts& doubts) {
  const std::string_view customer = customer_asked_about(report);
  std::vector<std::string> unnamed;
  for (const Machine& machine : report.fleet->machines) {
    const bool same = !customer.empty() && customer_of(*report.fleet, machine) == customer;
    if (!report.scope.holds(machine.key) && !same) unnamed.push_back(machine.key);
  }
  leave_unnamed(doubts, unnamed);
  return std::erase_if(
      gaps, [&](const Gap& gap) { return std::find(unnamed.begin(), unnamed.end(), gap.machine) != unnamed.end(); });
}

// What the plan before a season takes, where one is ahead.
std::optional<BesideMonths> beside_months(const SeasonPlan& plan) {
  if (plan.under_way() || plan.before_sums.points == 0) return std::nullopt;
  return BesideMonths{plan.before_sums.labour_minutes, plan.from};
}

// A forecast looks further ahead than the due list, so it would call coming what that calls later.
void call_as_due_list_does(Forecast& forecast, Day within) {
  for (ForecastPoint& each : forecast.points) {
    const bool beyond = each.point.due_on && *each.point.due_on > within;
    if (each.point.standing == Standing::coming && beyond) each.point.standing = Standing::later;
  }
}

// The season, the parts for it, and those that come behind.
void tell_season(Report& report, const Snapshot& snapshot, const Season& season, Day parts_to,
                 const Forecaster& forecaster, const Progress& progress) {
  load::WholePlan whole = load::whole_plan(snapshot, {&season}, forecaster);
  report.parts = load::parts_for(snapshot, whole);
  report.parts_beyond = load::parts_beyond(snapshot, whole, parts_to, forecaster, progress);
  report.season = std::move(whole.plan);
  take_elsewhere(report, report.season->gaps, report.season->doubts);
  take_elsewhere(report, report.parts_beyond->gaps, report.parts_beyond->doubts);
}

}  // namespace

const Season* season_at_hand(const Fleet& fleet, Day as_of) {
  const Season* found = nullptr;
  std::optional<SeasonDays> its;
  for (const Season& season : fleet.seasons) {
    const SeasonDays days = season_days(season, std::nullopt, as_of);
    const bool under_way = days.from <= as_of;
    const bool its_under_way = its && its->from <= as_of;
    const bool nearer =
        !its || (under_way ? !its_under_way || days.from > its->from : !its_under_way && days.from < its->from);
    if (!nearer) continue;
    found = &season;
    its = days;
  }
  return found;
}

Report report(const Snapshot& snapshot, const std::vector<Fact>& facts, const ReportAsk& ask,
              const Forecaster& forecaster, const Progress& progress) {
  load::insist_on_whole(snapshot);
  Report report;
  report.fleet = snapshot.fleet_ptr();
  report.as_of = snapshot.as_of();
  report.scope = snapshot.scope();
  report.due = due_list(snapshot, {ask.due_within}, forecaster);
  const Season* season = ask.season != nullptr ? ask.season : season_at_hand(snapshot.fleet(), snapshot.as_of());
  if (season != nullptr) {
    tell_season(report, snapshot, *season, ask.parts_to, forecaster, progress);
  } else {
    report.parts = parts_list(snapshot, ask.parts_to, forecaster, progress);
  }
  report.gaps_elsewhere = take_elsewhere(report, report.parts.gaps, report.parts.doubts);
  report.workload = workload(snapshot, ask.ahead_to, Step::month, forecaster, progress);
  if (report.season) report.beside_months = beside_months(*report.season);
  report.forecast = forecast(snapshot, ask.ahead_to, forecaster);
  call_as_due_list_does(report.forecast, ask.due_within);
  const Books books(snapshot, facts);
  for (const Machine& machine : snapshot.fleet().machines) {
    if (!snapshot.scope().holds(machine.key) || !kept_on(machine, snapshot.as_of())) continue;
    report.books.push_back(books.of(machine.key));
    const auto newest = known_until(report.books.back());
    if (newest && (!report.known_until || *report.known_until < *newest)) report.known_until = newest;
  }
  return report;
}

std::vector<const Point*> due_soon(const Report& report) {
  std::set<const Point*> told;
  for (const OverdueEntry& entry : overdue_list(report.due)) told.insert(entry.point);
  std::vector<const Point*> points;
  for (const Point& point : report.due.points) {
    const bool comes = is_due(point) || (point.due_on && *point.due_on <= report.as_of + soon);
    if (!comes || !never_waits(point) || told.contains(&point)) continue;
    if (report.due.state_of(*point.machine) == nullptr) points.push_back(&point);
  }
  return points;
}

std::vector<SupplierOrder> shopping_of(const Report& report) {
  return report.scope.machines ? std::vector<SupplierOrder>{} : orders_of(report.parts);
}

std::vector<MachinePage> pages_of(const Report& report) {
  std::vector<MachinePage> pages;
  const std::vector<RunBan> bans = run_bans(report.due);
  for (const Book& book : report.books) {
    MachinePage page;
    page.machine = report.fleet->machine(book.machine);
    page.state = report.due.state_of(*page.machine);
    page.known_until = known_until(book);
    page.book = &book;
    const auto ban =
        std::find_if(bans.begin(), bans.end(), [&](const RunBan& each) { return each.machine == page.machine; });
    if (ban != bans.end()) page.ban = *ban;
    const auto its_own = [&](const auto& each) { return each.machine == page.machine; };
    for (const Point& point : report.due.points) {
      if (!its_own(point)) continue;
      page.points.push_back(&point);
      if (!to_mend(report.due.seen, point).empty()) page.to_mend.push_back(&point);
    }
    for (const SeenSign& seen : report.due.seen) {
      if (its_own(seen)) page.seen.push_back(&seen);
    }
    for (const Gap& gap : report.due.gaps) {
      if (gap.machine == page.machine->key) page.gaps.push_back(&gap);
    }
    for (const MeterForecast& meter : report.forecast.meters) {
      if (its_own(meter.ahead)) page.meters.push_back(&meter);
    }
    pages.push_back(std::move(page));
  }
  return pages;
}

}  // namespace service
