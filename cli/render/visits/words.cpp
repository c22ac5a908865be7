#include "render/visits/words.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/parts/words.h"
#include "render/shared/day_alone_words.h"
#include "render/shared/safety_left_words.h"
#include "render/shared/trip_words.h"
#include "render/shared/words.h"
#include "terminal/shell_word.h"

namespace cli {
namespace {

using service::cleaned;
using service::counted;
using service::Money;
using service::NotPossible;
using service::Point;
using service::PutOffReason;
using service::TripReason;
using service::VisitsPlan;

std::string money_of(const VisitsList& list, Money money) { return money_words(money, list.fleet()); }

std::string days(int count) { return counted(count, "day", "days"); }

std::string visits(std::size_t count) { return counted(static_cast<std::int64_t>(count), "visit", "visits"); }

std::string sites_words(const std::vector<const service::Site*>& sites) {
  std::vector<std::string> names;
  for (const service::Site* site : sites) names.push_back(site_words(*site));
  return listed(names, "and");
}

// The machines were asked about, and not their whole site.
bool of_machines(const VisitsList& list) { return list.asked->scope.machines && list.asked->scope.site.empty(); }

const std::optional<service::Day>& leaves(const VisitsList& list, const Point& point) {
  static const std::optional<service::Day> stays;
  const auto& left = point.machine->left;
  return left && *left <= list.plan.to ? left : stays;
}

// What keeps it from a day of the span.
std::string until_words(const VisitsList& list, const Point& point) {
  if (const auto& left = leaves(list, point)) return fmt::format("before the machine leaves on {}", to_text(*left));
  return fmt::format("until {}", to_text(list.plan.to));
}

std::string put_off_words(const SiteVisit& visit, const Point& point) {
  const auto& until = point.put_off->until;
  if (!until || *until == visit.on) return "the day until which somebody put it off";
  return fmt::format("put off until {}, and the first day from then on which somebody can go", to_text(*until));
}

std::string back_words(const VisitsList& list, const SiteVisit& visit, const Point& point) {
  const service::UseState* const state = list.plan.list->state_of(*point.machine);
  if (state == nullptr || !state->until) return "the machine is laid up";
  return visit.on < *state->until
             ? fmt::format("before the machine is back on {}", to_text(*state->until))
             : fmt::format("the machine is laid up until {}, and the first day from then on which somebody can go",
                           to_text(*state->until));
}

std::string likely_words(const TripTask& task) {
  const service::DueSpan& span = task.point->due_span;
  if (span.p10 && span.p90 && *span.p10 != *span.p90) {
    return fmt::format("the cheapest day, for it may come due from {} to {}", to_text(*span.p10), to_text(*span.p90));
  }
  if (task.own_day <= *task.point->due_on) return "the cheapest day for it and what it includes";
  return fmt::format("nobody can go on its due day, and to wait until {} is no cheaper", day_words(task.own_day));
}

// The cheapest of all other places, and what it would cost there.
std::string next_best_words(const VisitsList& list, const TripTask& task) {
  if (!task.next_best) return "it could be done on no other day or trip";
  const service::OtherTrip& next = *task.next_best;
  return fmt::format("the next best, {} {} on {}, would cost {}", next.made ? "the trip of" : "a trip of its own by",
                     crew_words(*next.crew), day_words(next.on), money_of(list, next.cost));
}

std::string full_words(const SiteVisit& visit, const TripTask& task) {
  const std::string day = day_words(*task.full_day);
  return *task.full_by == service::TimeLimit::opening
             ? fmt::format("{} would be better, but {} is not open for long enough then", day, site_words(*visit.site))
             : fmt::format("{} would be better, but whoever goes then has no more hours", day);
}

std::string included_words(const TripTask& task) {
  if (task.with == nullptr) return "done with another task of this trip";
  const std::string with = task_of(*task.with);
  return task.point->follow_up != nullptr ? fmt::format("{} of this trip asks for it anew", with)
                                          : fmt::format("{} of this trip includes it", with);
}

int minutes_of(const Point& point) {
  const service::Resources takes = resources_of(*point.machine, *point.task, point.follow_up);
  return static_cast<int>(takes.time.value_or(std::chrono::minutes{0}).count());
}

std::string opening_words(const NotPossible& out, const service::Site& site, const std::string& before) {
  const std::string most = out.longest_stay > 0
                               ? fmt::format(
                                     "whoever can do it can stay there for {} at a time at most, by when {} is "
                                     "open",
                                     span_words(out.longest_stay), site_words(site))
                               : fmt::format("{} is not open while whoever can do it could be there", site_words(site));
  return fmt::format("it takes {} in one stay, and {}{}", span_words(minutes_of(*out.point)), most, before);
}

}  // namespace

std::string counts_of(const VisitsList& list) {
  const VisitsPlan& plan = list.plan;
  std::string text =
      fmt::format("{}, {}", visits(list.visits), counted(static_cast<std::int64_t>(list.tasks), "task", "tasks"));
  if (of_machines(list)) {
    text = fmt::format("{} for {}, of a plan of all work at {}: {}", visits(list.told),
                       list.asked->scope.machines->size() == 1 ? "it" : "them", sites_words(list.sites), text);
  }
  std::vector<std::string> parts;
  const auto add = [&](std::size_t count, std::string_view what) {
    if (count > 0) parts.push_back(fmt::format("{} {}", count, what));
  };
  add(plan.not_possible.size(), "not possible");
  add(plan.not_planned.size(), "not planned");
  add(plan.no_record.size(), "without record");
  add(plan.unknown.size(), "not wholly known");
  return fmt::format("{}{}{}.", text, parts.empty() ? "" : "; ", fmt::join(parts, ", "));
}

std::string call_words(const VisitsList& list, const service::Call& call) {
  const service::Machine* const machine = list.fleet().machine(call.machine);
  const service::Site* const site = list.fleet().site(machine == nullptr ? call.site : machine->site);
  std::string text = cleaned(call.doing);
  if (machine != nullptr) text += " (" + cleaned(machine->key) + ')';
  if (site != nullptr) text += ", at " + site_words(*site);
  if (call.from) text += ", from " + to_text(*call.from);
  if (call.by) text += ", by " + to_text(*call.by);
  if (!call.safety) return text;
  return fmt::format("{}; safety: keep {} out of use until done", text,
                     machine == nullptr ? "what it is about" : "the machine");
}

std::string told_words(const VisitsList& list) {
  if (!of_machines(list)) return "";
  return fmt::format(
      "Where a visit goes, work, what waits to be mended, what was seen and what nobody may run is told "
      "of all machines; what is not planned or not known, of {} alone.",
      list.asked->scope.machines->size() == 1 ? "the one asked about" : "those asked about");
}

std::string cost_words(const VisitsList& list) {
  const VisitsPlan& plan = list.plan;
  return fmt::format("{} {}: {} for the trips, {} for life given up, {} for lateness.",
                     of_machines(list)  ? "The whole plan costs"
                     : list.visits == 1 ? "It costs"
                                        : "They cost",
                     money_of(list, plan.total), plain(plan.trips), plain(plan.early), plain(plan.late));
}

std::string own_days_words(const VisitsList& list) {
  const service::OnOwnDays& own = list.plan.on_own_days;
  const std::string text =
      fmt::format("Each task on its own day would cost {}, with {}", money_of(list, own.total), visits(own.visits));
  if (list.plan.on_own_days.behind) {
    return fmt::format("{}, but leave out more, or do work for safety later.", text);
  }
  return list.saved().hundredths == 0 ? fmt::format("{}: nothing is to be saved by other days.", text)
                                      : fmt::format("{}: this saves {}.", text, plain(list.saved()));
}

namespace {

std::string tried_words(const service::CrewsTried& tried) {
  if (tried.at_home == 0) return " At a site with so much work it was not tried which crews had better stay at home.";
  return fmt::format(" Of {} crews for one site it was tried which {} had better stay at home.", tried.of,
                     tried.at_home == 1 ? "one" : fmt::format("{} or fewer", tried.at_home));
}

}  // namespace

std::string bound_words(const VisitsList& list) {
  const VisitsPlan& plan = list.plan;
  if (plan.exact) return "No plan of visits costs less: this one is proven to be the best.";
  constexpr double percent = 100;
  const double share =
      static_cast<double>(list.at_most_better().hundredths) / static_cast<double>(plan.total.hundredths);
  return fmt::format("No plan of visits can cost less than {}: a better one can save {} at most ({:.1f} %).",
                     plain(plan.bound), plain(list.at_most_better()), share * percent) +
         (plan.crews_tried ? tried_words(*plan.crews_tried) : "");
}

std::string trip_words(const VisitsList& list, const SiteVisit& visit) {
  const std::string work = span_words(visit.work_minutes) + " of work";
  if (visit.trip_cost.hundredths == 0) return work + ": the crew is there anyway, so the trip costs nothing.";
  std::vector<std::string> parts{work};
  if (visit.set_up_minutes > 0) parts.push_back(span_words(visit.set_up_minutes) + " of set-up");
  if (visit.drive_minutes > 0) {
    parts.push_back(
        fmt::format("{} of driving there and back, {}", span_words(visit.drive_minutes), km_words(visit.tenths_of_km)));
  }
  return fmt::format("{}: the trip costs {}.", fmt::join(parts, ", "), money_of(list, visit.trip_cost));
}

std::string task_words(const VisitsList& list, const TripTask& task) {
  return job_words(*task.point, list.plan.as_of, {});
}

std::string placing_words(const VisitsList& list, const SiteVisit& visit, const TripTask& task) {
  std::vector<std::string> parts;
  if (task.early_days > 0) parts.push_back(days(task.early_days) + " early");
  if (task.late_days > 0) parts.push_back(days(task.late_days) + " late");
  if (parts.empty()) parts.emplace_back("on its due day");
  if (task.early.hundredths > 0) parts.push_back(fmt::format("gives up {}", money_of(list, task.early)));
  if (task.late.hundredths > 0) parts.push_back(fmt::format("waiting loses {}", money_of(list, task.late)));
  const std::string placing = fmt::format("{}", fmt::join(parts, ", "));
  return task.why == service::TripReason::due_day ? placing
                                                  : fmt::format("{}: {}", placing, why_words(list, visit, task));
}

std::string why_words(const VisitsList& list, const SiteVisit& visit, const TripTask& task) {
  const Point& point = *task.point;
  switch (task.why) {
    case TripReason::included:
      return included_words(task);
    case TripReason::day_full:
      return fmt::format("{}; {}", full_words(visit, task), next_best_words(list, task));
    case TripReason::due_day:
      return "the day on which it comes due";
    case TripReason::put_off:
      return put_off_words(visit, point);
    case TripReason::laid_up:
      return back_words(list, visit, point);
    case TripReason::first_day:
      return *point.due_on <= list.plan.as_of ? "the first day on which somebody can go"
                                              : "the first day from its due day on which somebody can go";
    case TripReason::last_day:
      return fmt::format("nobody can go from its due day {}: this is the last day before", until_words(list, point));
    case TripReason::likely_day:
      return fmt::format("{}; {}", likely_words(task), next_best_words(list, task));
    case TripReason::early:
    case TripReason::late:
      return "with the rest of this trip, for " + next_best_words(list, task);
  }
  return "";
}

std::string why_words(const VisitsList& list, const NotPossible& out) {
  const Point& point = *out.point;
  const service::Site& site = *list.fleet().site(point.machine->site);
  const auto& left = leaves(list, point);
  const std::string before = left ? fmt::format(" before the machine leaves on {}", to_text(*left)) : "";
  switch (out.reason) {
    case PutOffReason::not_qualified:
      return fmt::format("no crew that works in that time has {}", need_words(out.lacking));
    case PutOffReason::no_crew:
      return fmt::format("no crew that can do it works from {} on{}", day_words(out.from), before);
    case PutOffReason::closed:
      return fmt::format("{} is open on no day of a crew that can do it{}", site_words(site), before);
    default:
      break;
  }
  if (out.days_full) return fmt::format("no day has room for it beside other work{}", before);
  if (out.limit == service::TimeLimit::opening) {
    return fmt::format("{}: {}", opening_words(out, site, before),
                       day_alone_words(nearest_day_alone(list.plan, out), site, minutes_of(point)));
  }
  return fmt::format("it fits into no crew's day, even alone{}: {}", before,
                     day_alone_words(nearest_day_alone(list.plan, out), site, minutes_of(point)));
}

std::string keep_out_words(const VisitsList& list, const TripTask& task) {
  return keep_out_of_use(task) ? keep_out_words(*list.plan.list, *task.point) : "";
}

std::string keep_out_words(const VisitsList& list, const NotPossible& out) {
  return keep_out_of_use(out) ? keep_out_words(*list.plan.list, *out.point) : "";
}

std::string laid_up_words(const VisitsList& list, const SiteVisit& visit, const service::Machine& machine) {
  const service::UseState* const state = list.plan.list->state_of(machine);
  return state == nullptr || !state->laid_up || !stands_on(*state, visit.on) ? "" : words_of(*state->laid_up);
}

std::string lay_up_over_words(const VisitsList& list, const SiteVisit& visit, const service::Machine& machine) {
  const service::UseState* const state = list.plan.list->state_of(machine);
  const service::LayUp* const over = state == nullptr ? nullptr : lay_up_over_by(*state, visit.on);
  return over == nullptr ? "" : lay_up_over_words(*over);
}

std::vector<std::string> safety_left_lines(const VisitsList& list, const SiteVisit& visit,
                                           const service::Machine& machine) {
  std::vector<service::SafetyLeft> left = visit.safety_left;
  std::erase_if(left, [&](const service::SafetyLeft& one) { return one.point.machine != &machine; });
  return safety_left_lines(left, list.plan.as_of, not_in_these_weeks);
}

std::string not_possible_words(const VisitsList& list, const NotPossible& out) {
  return fmt::format("{}; {}", job_words(*out.point, list.plan.as_of, {}), why_words(list, out));
}

std::string not_planned_words(const VisitsList& list, const service::NotPlanned& row) {
  std::string text = fmt::format("{}: {}", not_planned_what(row), reason_words(row, to_text(list.plan.to)));
  if (row.reason == service::NotPlannedReason::left) text += fmt::format(" on {}", to_text(*row.point.machine->left));
  return text;
}

std::string rounds_command(const VisitsList& list, const std::string& command) {
  const VisitsPlan& plan = list.plan;
  std::string text = fmt::format("{} rounds --from {} --within {}d", command, to_text(plan.from),
                                 service::days_between(plan.from, plan.to));
  for (const std::string& crew : plan.without) text += " --without " + shell_word(crew);
  const service::Scope& scope = list.asked->scope;
  if (!scope.site.empty()) text += " --site " + shell_word(scope.site);
  return text;
}

std::string sheets_of(const SiteVisit& visit, const std::string& command) {
  std::vector<std::string> machines;
  int ahead = 0;
  for (const TripTask& task : visit.tasks) {
    const std::string key = cleaned(task.point->machine->key);
    if (std::find(machines.begin(), machines.end(), key) == machines.end()) machines.push_back(key);
    ahead = std::max(ahead, task.early_days);
  }
  return fmt::format("{} sheet {}{}", command, fmt::join(machines, " "),
                     ahead > 0 ? fmt::format(" --within {}d", ahead) : "");
}

std::string crowded_words(const service::CrowdedDay& day) {
  return fmt::format("{} on {}: {} to {} take {} with the meal, and it has {}", crew_words(*day.crew),
                     day_words(day.on), counted(day.trips, "trip", "trips"), sites_words(day.sites),
                     span_words(day.minutes), span_words(day.has_minutes));
}

std::string again_words(const VisitsList& list) {
  if (list.again.empty()) return "";
  std::vector<std::string> names;
  for (const service::PointName& point : list.again) {
    names.push_back(fmt::format("{} {}", cleaned(point.machine->key), task_of(point)));
  }
  return fmt::format("Planned once, though by the length of the last interval it comes round again by {}: {}",
                     to_text(list.plan.to), listed(names, "and"));
}

std::vector<std::string> cautions_of(const VisitsList& list) {
  std::vector<std::string> all;
  for (const SiteVisit& visit : list.plan.visits) {
    for (const std::string& caution : visit.cautions) {
      if (std::find(all.begin(), all.end(), caution) == all.end()) all.push_back(caution);
    }
  }
  return all;
}

}  // namespace cli
