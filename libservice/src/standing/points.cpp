#include "standing/points.h"

#include <algorithm>

#include "standing/chain.h"
#include "standing/decide_all.h"
#include "standing/limbs.h"
#include "standing/services.h"

namespace service {
namespace {

// `fitted.at` is told on the meter of the first usage limb as written, else on the machine's first.
std::string telling_meter(const MachineView& view, const std::vector<LimbChoice>& limbs) {
  for (const LimbChoice& choice : limbs) {
    const auto* usage = std::get_if<UsageLimb>(&choice.candidates.front());
    if (usage != nullptr && usage->meter) return *usage->meter;
  }
  return view.machine.first_meter() != nullptr ? view.machine.first_meter()->name : std::string{};
}

std::optional<Fitted> fitted_from(const MachineView& view, const std::vector<ServiceDay>& services,
                                  const std::string& meter) {
  Fitted fitted;
  fitted.meter = meter;
  if (!services.empty()) {
    const ServiceDay& last = services.back();
    const UsageThen then = usage_then(view, last, meter);
    fitted.on = last.spoken_for().on;
    fitted.at = then.usage;
    fitted.basis = then.basis;
    fitted.fact = last.spoken_for().id;
    fitted.task = last.spoken_for().task;
    return fitted;
  }
  if (view.machine.start.kind != StartKind::in_service) return std::nullopt;
  fitted.on = view.machine.start.on;
  fitted.at = view.usage_when_new(meter);
  fitted.basis = Basis::in_service;
  return fitted;
}

Since since_of(const MachineView& view, const std::vector<ServiceDay>& services) {
  if (!services.empty()) return {&services.back().spoken_for(), services.back().day(), true};
  switch (view.machine.start.kind) {
    case StartKind::in_service:
      return {nullptr, view.machine.start.on.first, true};
    case StartKind::bought:
      return {nullptr, view.machine.start.on.first, false};
    case StartKind::unknown:
      break;
  }
  return {};
}

std::optional<Amount> fitted_usage(const MachineView& view, const std::vector<ServiceDay>& services,
                                   const std::string& meter) {
  return services.empty() ? view.usage_when_new(meter) : usage_then(view, services.back(), meter).usage;
}

// `meter`: the one on which a usage is told where the fact names none.
void put_off_if_so(Point& point, const MachineView& view, const Since& since, const std::string& meter) {
  if (never_waits(point)) return;  // whatever a merged book says
  const Fact* newest = nullptr;
  for (const Fact& fact : view.facts) {
    if (fact.kind != FactKind::put_off || fact.task != point.name) continue;
    if (!fact.position.empty() && fact.position != point.position) continue;
    if (since.service != nullptr && before(fact, *since.service)) continue;  // a service ends it
    newest = &fact;
  }
  if (newest == nullptr) return;
  if (newest->until && view.as_of >= *newest->until) return;
  PutOff put_off{newest->until, newest->at, std::nullopt, {}, {}, newest->by, newest->note, newest->id, false};
  if (newest->at) {
    const std::string& name = newest->meter.empty() ? meter : newest->meter;
    const MeterHistory* history = view.history(name);
    const auto known = history != nullptr ? history->on(view.as_of) : std::nullopt;
    if (!known || *known >= *newest->at) return;
    put_off.shown = history->shown_at(*newest->at);
    put_off.meter = name;
    put_off.unit = view.machine.meter(name)->unit;
    const auto today = view.estimate_today(name);
    put_off.by_estimate = today && *today >= *newest->at;
  }
  point.put_off = std::move(put_off);
}

// Checks are owed to whoever was asked. A service that somebody told of long after it was done asks for none, unless
// somebody else wrote it down when it was done, or safety hangs on it.
bool checks_owed(const Task& task, const ServiceDay& service) {
  return task.safety ||
         std::any_of(service.facts.begin(), service.facts.end(), [](const Fact* fact) { return !fact->history; });
}

// Points are large, so each is filled in where it stays.
void begin(Point& point, const MachineView& view, const MachineTask& task, const std::string& position) {
  point.machine = &view.machine;
  point.task = task.task;
  point.name = task.task->name;
  point.position = position;
}

void fill_in(Point& point, const MachineView& view, const MachineTask& task, const std::string& position,
             const std::vector<ServiceDay>& services) {
  begin(point, view, task, position);
  const std::vector<LimbChoice>& limbs = limbs_now(view, task, services);
  const Since since = since_of(view, services);
  const std::string meter = telling_meter(view, limbs);
  point.fitted = fitted_from(view, services, meter);
  point.limbs.reserve(limbs.size());
  for (const LimbChoice& choice : limbs) {
    const Limb& limb = choice.candidates.front();
    if (const auto* usage = std::get_if<UsageLimb>(&limb)) {
      const std::string own = usage->meter.value_or("");
      const bool told = point.fitted && point.fitted->meter == own;
      const auto fitted_at = told ? point.fitted->at : fitted_usage(view, services, own);
      const bool by_fitting = task.task->counts_from == CountsFrom::done;  // no chain of due points leads there
      const auto start = by_fitting ? fitted_at : usage_start(view, task, services, own);
      point.limbs.push_back(
          usage_standing(view, *usage, start, fitted_at, usage_grace(view, task.grace, own, usage->every)));
    } else if (std::holds_alternative<CalendarLimb>(limb)) {
      point.limbs.push_back(calendar_standing(view, choice, {task.task->until_month_end, task.grace},
                                              calendar_start(view, task, services)));
    } else if (const auto* changes = std::get_if<ChangesLimb>(&limb)) {
      point.limbs.push_back(changes_standing(view, *changes, since, task.grace));
    } else if (const auto* measured = std::get_if<MeasuredLimb>(&limb)) {
      point.limbs.push_back(measured_standing(view, *measured, since, position));
    } else if (const auto* sign = std::get_if<SignLimb>(&limb)) {
      point.limbs.push_back(sign_standing(view, *sign, since, task.own_grace));
    } else if (const auto* season = std::get_if<SeasonLimb>(&limb)) {
      point.limbs.push_back(season_standing(view, *season, since, task.grace));
    }
  }
  put_off_if_so(point, view, since, meter);
  point.checks_not_asked =
      !task.task->follow_ups.empty() && !services.empty() && !checks_owed(*task.task, services.back());
}

// A check owed after the last service of its task, until it was done or the task is done again.
std::optional<Point> follow_up_point(const MachineView& view, const MachineTask& task, const FollowUp& follow_up,
                                     const std::string& position, const std::vector<ServiceDay>& services) {
  if (services.empty() || !checks_owed(*task.task, services.back())) return std::nullopt;
  const ServiceDay& parent = services.back();
  Point point;
  begin(point, view, task, position);
  point.follow_up = &follow_up;
  point.name = task.task->name + '/' + follow_up.name;
  for (const ServiceDay& check : checks_of(view, point.name, position)) {
    if (before(parent.spoken_for(), check.spoken_for())) return std::nullopt;
  }
  std::vector<LimbChoice> limbs;
  for (const Limb& limb : follow_up.within) {
    limbs.push_back({{limb}});
    auto* usage = std::get_if<UsageLimb>(&limbs.back().candidates.front());
    if (usage != nullptr && !usage->meter && view.machine.first_hour_meter() != nullptr) {
      usage->meter = view.machine.first_hour_meter()->name;
    }
  }
  // A point of its own: it counts from when the task was done and takes the fleet's grace where that is a share of the
  // check's own interval. Ten hours, the task's or the fleet's, would swamp a check after one hour.
  Grace grace;
  if (!task.task->safety) grace.percent_hundredths = view.fleet.grace.percent_hundredths;
  const std::vector<ServiceDay> only_parent{parent};
  const std::string told_on = telling_meter(view, limbs);
  point.fitted = fitted_from(view, only_parent, told_on);
  for (const LimbChoice& choice : limbs) {
    if (const auto* usage = std::get_if<UsageLimb>(&choice.candidates.front())) {
      const std::string meter = usage->meter.value_or("");
      const auto done_at = usage_then(view, parent, meter).usage;
      point.limbs.push_back(
          usage_standing(view, *usage, done_at, done_at, usage_grace(view, grace, meter, usage->every)));
    } else {
      point.limbs.push_back(calendar_standing(view, choice, {false, grace}, ChainDay{parent.day(), 0}));
    }
  }
  put_off_if_so(point, view, {&parent.spoken_for(), parent.day(), true}, told_on);
  return point;
}

// A point is large, and moved each time that their vector grows.
std::size_t most_points(const MachineView& view) {
  std::size_t points = 0;
  for (const MachineTask& task : view.tasks) {
    points += std::max<std::size_t>(1, task.positions.size()) * (1 + task.task->follow_ups.size());
  }
  return points;
}

// A contradiction that was over before the fitting bears on nothing that is counted since.
bool rests_on_doubt(const MachineView& view, const Point& point) {
  return std::any_of(point.limbs.begin(), point.limbs.end(), [&](const LimbStanding& limb) {
    const Meter* meter = limb.kind == LimbKind::usage ? view.machine.meter(limb.name) : nullptr;
    if (meter == nullptr) return false;
    const auto& contradictions = view.history(limb.name)->contradictions();
    const bool contradicted = std::any_of(contradictions.begin(), contradictions.end(), [&](const Contradiction& each) {
      return !point.fitted || each.day >= point.fitted->on.first;
    });
    return contradicted || !view.doubts(*meter).empty();
  });
}

}  // namespace

std::vector<Point> points_of(const MachineView& view, const DueAsk& ask) {
  std::vector<Point> points;
  points.reserve(most_points(view));
  for (const MachineTask& task : view.tasks) {
    for (const std::string& position : task.places()) {
      const auto services = services_of(view, task, position);
      fill_in(points.emplace_back(), view, task, position, services);
      for (const FollowUp& follow_up : task.task->follow_ups) {
        if (auto point = follow_up_point(view, task, follow_up, position, services)) {
          points.push_back(std::move(*point));
        }
      }
    }
  }
  decide_all(points, view, ask);
  if (!tells_every_point(ask)) return points;
  for (Point& point : points) tell_the_rest(point, view);
  return points;
}

void tell_the_rest(Point& point, const MachineView& view) {
  point.doubtful = rests_on_doubt(view, point);
  tell_today(point, view);
}

}  // namespace service
