#include "render/rounds/words.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/parts/words.h"
#include "render/shared/day_alone_words.h"
#include "render/shared/resources_words.h"
#include "render/shared/run_ban_words.h"
#include "render/shared/safety_left_words.h"
#include "render/shared/words.h"
#include "service/broken_promise.h"
#include "service/ring_ups.h"
#include "service/shared_machines.h"

namespace cli {
namespace {

using service::cleaned;
using service::counted;
using service::Money;
using service::NotThisWeek;
using service::Point;
using service::PutOffReason;
using service::Round;

const Visit& visit_of(const RoundsList& list, std::size_t number) { return list.week().visits[number]; }

std::string money_of(const RoundsList& list, Money money) { return money_words(money, *list.week().fleet); }

const service::Site& site_of_key(const RoundsList& list, const std::string& key) {
  return *list.week().fleet->site(key);
}

template <class Item>
bool holds(const std::vector<Item>& items, const Item& item) {
  return std::find(items.begin(), items.end(), item) != items.end();
}

std::string crew_named(const RoundsList& list, const std::string& key) {
  for (const service::Crew& crew : list.week().fleet->crews) {
    if (crew.key == key) return crew_words(crew);
  }
  return cleaned(key);
}

std::string crew_and_day(const RoundsList& list, std::size_t crew_day) {
  const service::CrewDay& day = list.week().crew_days[crew_day];
  return fmt::format("{} on {}", crew_words(*day.crew), day_words(day.on));
}

service::Day day_of(const RoundsList& list, const Round& round) { return list.week().crew_days[round.crew_day].on; }

std::string visits_words(const RoundsList& list, const std::vector<std::size_t>& visits) {
  std::vector<std::string> names;
  for (const std::size_t visit : visits) names.push_back(cleaned(visit_of(list, visit).name));
  return listed(names, "and");
}

std::string dearer_words(const RoundsList& list, const NotThisWeek& out) {
  if (!out.next_best) return "it fits into no crew's day but in place of what was promised or is for safety";
  const service::NextBest& next = *out.next_best;
  const std::string where = crew_and_day(list, next.crew_day);
  const std::string going = money_of(list, out.cost + next.dearer);
  return next.instead_of.empty()
             ? fmt::format("dearer than leaving it: the cheapest way is with {}, which costs {}", where, going)
             : fmt::format("no room: it could go with {} instead of {}, which costs {} in all", where,
                           visits_words(list, next.instead_of), going);
}

std::string promised_words(const RoundsList& list, const std::pair<std::string, service::Day>& promise) {
  return fmt::format("it was promised for {} with {}", day_words(promise.second), crew_named(list, promise.first));
}

// What stands against it there.
std::string breaking_words(const RoundsList& list, const NotThisWeek& out, const service::BrokenPromise& broken) {
  using service::WhyBroken;
  const std::string crew = crew_named(list, broken.crew);
  const std::string site = site_words(*visit_of(list, out.visit).site);
  switch (broken.why) {
    case WhyBroken::no_crew:
      return "the fleet has no such crew any more";
    case WhyBroken::not_this_week:
      return "that day is not in these days";
    case WhyBroken::off:
      return crew + " is off that day";
    case WhyBroken::no_hours:
      return crew + " has no hours that day";
    case WhyBroken::does_not_go:
      return crew + " does not go this week";
    case WhyBroken::not_qualified:
      return fmt::format("{} has not {}", crew, need_words(broken.lacking));
    case WhyBroken::not_wanted:
      return "it is not wanted that day";
    case WhyBroken::closed:
      return site + " is not open then";
    case WhyBroken::no_time:
      return fmt::format("it does not fit into that day any more: {} of work",
                         span_words(visit_of(list, out.visit).work_minutes));
    case WhyBroken::no_room:
      return "there is no room beside what else was promised";
  }
  return "";
}

// Whoever waits is told before.
std::string ring_up_words(const RoundsList& list, const NotThisWeek& out) {
  const std::string contact = cleaned(visit_of(list, out.visit).site->contact);
  return contact.empty() ? "" : fmt::format("ring up {} and ", contact);
}

// To whom and for when it was promised, by the plan that was kept, why it cannot be kept, and what would go without
// that promise.
std::string broken_words(const RoundsList& list, const NotThisWeek& out) {
  const auto broken = broken_promise(list.plan, out);
  if (!broken) return "it was promised for a day";
  std::string text = fmt::format("{}, but {}", promised_words(list, *out.promised), breaking_words(list, out, *broken));
  if (!out.lacking.empty() && broken->why != service::WhyBroken::not_qualified) {
    text += fmt::format("; no crew that works this week has {}", need_words(out.lacking));
  }
  if (const auto other = list.week().visits[out.visit].but_for_promise) {
    text += fmt::format("; without that promise it would fit, by itself, with {}", crew_and_day(list, *other));
  }
  return fmt::format("{}; to give the promise up, {}take `\"promised\": true` out of that stop in the kept plan", text,
                     ring_up_words(list, out));
}

// `from 2026-06-15 to 2026-06-20, 08:00-12:30`: when a call is wanted.
std::string wanted_words(const service::Call& call) {
  std::vector<std::string> parts;
  if (call.from) parts.push_back("from " + to_text(*call.from));
  if (call.by) parts.push_back("by " + to_text(*call.by));
  std::string text = fmt::format("{}", fmt::join(parts, ", "));
  for (const service::ClockSpan& span : call.between) {
    text += fmt::format("{}{}-{}", text.empty() ? "" : ", ", clock_words(span.from), clock_words(span.to));
  }
  return text;
}

// `from Friday 2026-06-19 on`: the days of the week on which it may be done.
std::string days_words(const RoundsList& list, const std::pair<service::Day, service::Day>& days) {
  const service::Week& week = list.week();
  if (days.first == days.second) return "on " + day_words(days.first);
  if (days.second == week.to) return fmt::format("from {} on", day_words(days.first));
  if (days.first == week.from) return fmt::format("by {}", day_words(days.second));
  return fmt::format("from {} to {}", day_words(days.first), day_words(days.second));
}

std::string no_crew_words(const RoundsList& list, const Visit& visit) {
  return fmt::format("no crew that can do it works when it may be done, {}", days_words(list, *visit.days));
}

std::string closed_words(const RoundsList& list, const Visit& visit) {
  const std::string site = site_words(*visit.site);
  if (visit.call == nullptr && !visit.days) {
    return fmt::format("the machine leaves on {}, before it may be done", to_text(*visit.machine->left));
  }
  if (visit.call == nullptr) return fmt::format("on no day of a crew that can do it is {} open", site);
  if (visit.call->by && *visit.call->by < list.week().from) {
    const std::string day = to_text(*visit.call->by);
    return *visit.call->by < list.week().as_of
               ? fmt::format("it was wanted by {}, and that day is over: agree on another one and change its `by`", day)
               : fmt::format("it is wanted by {}, before these days begin: plan it in a week that begins earlier", day);
  }
  const std::string wanted = wanted_words(*visit.call);
  return fmt::format("on no day of a crew that can do it is {} open when it is wanted{}", site,
                     wanted.empty() ? "" : fmt::format(" ({})", wanted));
}

std::string where_words(const RoundsList& list, const std::optional<std::pair<std::string, service::Day>>& at) {
  return at ? fmt::format("{}, {}", crew_named(list, at->first), day_words(at->second)) : "not this week";
}

}  // namespace

std::string clock_words(int minutes) { return fmt::format("{:02}:{:02}", minutes / 60, minutes % 60); }

std::string crew_of(const RoundsList& list, const Round& round) {
  return crew_words(*list.week().crew_days[round.crew_day].crew);
}

std::string whose_rounds(const RoundsList& list) {
  const service::Fleet& fleet = *list.week().fleet;
  return whose_list(fleet, list.site == nullptr ? service::Scope{} : service::scope_of_site(fleet, list.site->key));
}

const service::Site& start_of(const RoundsList& list, const Round& round) {
  return site_of_key(list, list.week().crew_days[round.crew_day].crew->start);
}

const service::Site& end_of(const RoundsList& list, const Round& round) {
  return site_of_key(list, list.week().crew_days[round.crew_day].crew->end);
}

std::string what_words(const Visit& visit) {
  std::string machine = visit.machine == nullptr ? "" : machine_words(*visit.machine);
  if (visit.call == nullptr) return machine;
  const std::string call = "call " + cleaned(visit.call->key);
  return machine.empty() ? call : fmt::format("{}: {}", call, machine);
}

std::vector<std::string> job_lines(const RoundsList& list, const Visit& visit) {
  std::vector<std::string> lines;
  if (visit.call != nullptr) lines.push_back(cleaned(visit.call->doing));
  for (const Point* point : visit.points) {
    std::vector<std::string> more;
    if (holds(visit.included, point)) more.emplace_back("done with the others");
    if (holds(visit.joined, point)) more.emplace_back("along with it, before it is due");
    lines.push_back(job_words(*point, list.week().as_of, more));
  }
  return lines;
}

std::string marks_of(const Visit& visit) {
  std::vector<std::string> marks;
  if (visit.call != nullptr && visit.safety) marks.emplace_back("for safety");
  if (visit.people > 1) marks.push_back(fmt::format("{} people: not for one alone", visit.people));
  if (!visit.needs.empty()) marks.push_back("needs " + need_words(visit.needs));
  return fmt::format("{}", fmt::join(marks, "; "));
}

std::string also_there_words(const RoundsList& list, const Round& round, const Visit& visit) {
  for (const service::SharedMachine& one : shared_machines(list.plan, round)) {
    if (one.machine == visit.machine) return shared_words(one.others);
  }
  return "";
}

std::string takes_words(const Visit& visit) {
  service::VisitLoad load = load_of(visit);
  service::Resources takes;
  takes.parts = std::move(load.parts);
  takes.fluids = std::move(load.fluids);
  const std::string parts = parts_words(takes);
  return parts.empty() ? span_words(visit.work_minutes) : fmt::format("{}, {}", span_words(visit.work_minutes), parts);
}

std::vector<std::string> load_lines(const RoundsList& list, const Round& round) {
  return load_lines(*list.week().fleet, round.parts, round.fluids, lacks_of(list, round), list.week().as_of);
}

std::string two_goes_words(const Round& round) {
  std::vector<std::string> names;
  for (const service::Machine* machine : round.in_two_goes) names.push_back(machine_words(*machine));
  return names.empty()
             ? ""
             : fmt::format("Comes back to {}, with other stops between: leave it safe each time", listed(names, "and"));
}

namespace {

// `the first work`, `stop 3`.
std::string before_words(const Round& round, std::size_t visit) {
  std::size_t number = 1;
  for (const service::RoundStop& stop : round.stops) {
    if (stop.visit == visit) break;
    ++number;
  }
  return number == 1 ? "the first work" : fmt::format("stop {}", number);
}

std::string meal_words(const RoundsList& list, const Round& round) {
  const auto minutes = static_cast<int>(list.week().crew_days[round.crew_day].crew->meal.count());
  if (minutes == 0) return "";
  std::string text = span_words(minutes) + " for the meal";
  if (round.meal.size() < 2) return text + (round.meal_before_work ? ", before the first work" : "");
  std::vector<std::string> pieces;
  for (const service::MealPiece& piece : round.meal) {
    pieces.push_back(fmt::format("{} before {}", span_words(piece.minutes), before_words(round, piece.before)));
  }
  return fmt::format("{} in {} pieces ({})", text, pieces.size(), listed(pieces, "and"));
}

}  // namespace

std::string sums_of(const RoundsList& list, const Round& round) {
  std::vector<std::string> parts{
      fmt::format("{} of driving, {}", span_words(round.drive_minutes), km_words(round.tenths_of_km))};
  if (round.set_up_minutes > 0) parts.push_back(span_words(round.set_up_minutes) + " of set-up");
  parts.push_back(span_words(round.work_minutes) + " of work");
  if (const std::string words = meal_words(list, round); !words.empty()) parts.push_back(words);
  return fmt::format("{}: {}", counted(static_cast<std::int64_t>(round.stops.size()), "stop", "stops"),
                     fmt::join(parts, ", "));
}

std::string times_words(const service::RoundStop& stop, const service::Site* from) {
  const std::string way = from == nullptr ? ""
                                          : fmt::format(" ({}, {} from {})", span_words(stop.leg.minutes),
                                                        km_words(stop.leg.tenths_of_km), site_words(*from));
  const std::string free =
      stop.starts > stop.arrives ? fmt::format("; {} free", span_words(stop.starts - stop.arrives)) : "";
  const std::string set_up =
      stop.set_up_minutes > 0 ? fmt::format(", {} of it set-up", span_words(stop.set_up_minutes)) : "";
  return fmt::format("Arrive {}{}{}; begin {}{}; done by {}.", clock_words(stop.arrives), way, free,
                     clock_words(stop.starts), set_up, clock_words(stop.ends));
}

std::vector<std::string> cautions_of(const RoundsList& list, const Round& round) {
  std::vector<std::string> cautions;
  for (const std::string& caution : round.cautions) {
    const bool told = std::any_of(round.stops.begin(), round.stops.end(), [&](const service::RoundStop& stop) {
      const auto of_stop = service::cautions_of(*list.week().list, visit_of(list, stop.visit));
      return std::find(of_stop.begin(), of_stop.end(), caution) != of_stop.end();
    });
    if (told) cautions.push_back(caution);
  }
  return cautions;
}

std::vector<std::string> machines_of(const RoundsList& list, const Round& round) {
  std::vector<std::string> machines;
  for (const service::RoundStop& stop : round.stops) {
    const Visit& visit = visit_of(list, stop.visit);
    if (visit.machine == nullptr) continue;
    const std::string key = cleaned(visit.machine->key);
    if (std::find(machines.begin(), machines.end(), key) == machines.end()) machines.push_back(key);
  }
  return machines;
}

namespace {

std::string reason_of(const RoundsList& list, const NotThisWeek& out) {
  const Visit& visit = visit_of(list, out.visit);
  switch (out.reason) {
    case PutOffReason::not_qualified:
      return fmt::format("no crew that works this week has {}", need_words(out.lacking));
    case PutOffReason::no_crew:
      return no_crew_words(list, visit);
    case PutOffReason::closed:
      return closed_words(list, visit);
    case PutOffReason::unreachable:
      return "it fits into no crew's day, even alone: " +
             day_alone_words(nearest_day_alone(list.week(), out.visit), *visit.site, visit.work_minutes);
    case PutOffReason::promise_broken:
      return broken_words(list, out);
    case PutOffReason::dearer:
      return dearer_words(list, out);
  }
  return "";
}

}  // namespace

std::string why_words(const RoundsList& list, const NotThisWeek& out) {
  std::string reason = reason_of(list, out);
  if (!out.promised || out.reason == PutOffReason::promise_broken) return reason;
  return fmt::format("{}, and {}", promised_words(list, *out.promised), reason);
}

std::string left_out_words(const RoundsList& list, const NotThisWeek& out) {
  const service::Call* const call = visit_of(list, out.visit).call;
  const std::string late = call != nullptr && call->by && *call->by < out.until && *call->by >= list.week().from
                               ? fmt::format(", after {} by which it is wanted,", to_text(*call->by))
                               : "";
  return fmt::format("leaving it until {}{} costs {}", to_text(out.until), late, money_of(list, out.cost));
}

std::string keep_out_words(const RoundsList& list, const Visit& visit) {
  if (!keep_out_of_use(visit)) return "";
  const bool unmended = std::any_of(visit.points.begin(), visit.points.end(), [&](const Point* point) {
    return is_safety(*point) && leaves_unmended(*list.week().list, *point);
  });
  return fmt::format("safety: not this week, keep {} out of use until {}",
                     visit.machine == nullptr ? "what it is about" : "it", unmended ? "mended" : "done");
}

std::vector<std::string> keep_out_lines(const RoundsList& list, const Round& round, const service::RoundStop& stop) {
  std::vector<std::pair<std::string, std::vector<std::string>>> said;  // and of which tasks
  for (const Point* point : keep_out_of_use(visit_of(list, stop.visit), day_of(list, round))) {
    const std::string words = keep_out_words(*list.week().list, *point);
    auto same = std::find_if(said.begin(), said.end(), [&](const auto& one) { return one.first == words; });
    if (same == said.end()) same = said.insert(said.end(), {words, {}});
    same->second.push_back(task_of(*point));
  }
  std::vector<std::string> lines;
  if (const Visit& visit = visit_of(list, stop.visit); keep_out_until_made(visit)) {
    lines.push_back(fmt::format("safety: keep {} out of use until done",
                                visit.machine == nullptr ? "what it is about" : "the machine"));
  }
  for (const auto& [words, tasks] : said) lines.push_back(fmt::format("{}: {}", listed(tasks, "and"), words));
  for (std::string& each : safety_left_lines(safety_left(list.plan, round, stop), list.week().as_of, not_this_week)) {
    lines.push_back(std::move(each));
  }
  return lines;
}

std::string kept_out_words(const RoundsList& list) {
  std::vector<std::string> items;
  for (const Round& round : list.plan.rounds) {
    const service::Day on = day_of(list, round);
    for (const service::RoundStop& stop : round.stops) {
      const Visit& visit = visit_of(list, stop.visit);
      if (keep_out_until_made(visit)) items.push_back(fmt::format("{} ({})", called(visit), day_words(on)));
      std::vector<std::string> tasks;
      std::optional<service::Day> from;
      for (const Point* point : keep_out_of_use(visit, on)) {
        tasks.push_back(task_of(*point));
        from = std::min(*point->due_on, from.value_or(*point->due_on));
      }
      if (tasks.empty()) continue;
      items.push_back(fmt::format("{} ({}{}, {})", called(visit),
                                  *from > list.week().as_of ? fmt::format("from {} on, ", to_text(*from)) : "",
                                  listed(tasks, "and"), day_words(on)));
    }
  }
  for (const NotThisWeek& out : list.plan.not_this_week) {
    const Visit& visit = visit_of(list, out.visit);
    if (keep_out_of_use(visit)) items.push_back(fmt::format("{} (not this week)", called(visit)));
  }
  for (const service::NotInBook& one : list.week().not_in_book) {
    if (!keep_out_of_use(one, list.week().to)) continue;
    items.push_back(fmt::format(
        "{} ({}{}, taken as done, not in the book)", cleaned(one.point->machine->key),
        *one.point->due_on > list.week().as_of ? fmt::format("from {} on, ", to_text(*one.point->due_on)) : "",
        task_of(*one.point)));
  }
  return items.empty() ? ""
                       : fmt::format("Keep out of use until done or mended, for safety: {}.", fmt::join(items, "; "));
}

namespace {

// `1 starter-battery and 3 L coolant`: of what is taken as done; empty where nothing was short.
std::string short_then_words(const RoundsList& list, const service::NotInBook& one) {
  std::vector<std::string> parts;
  for (const service::PartLack& lack : short_then(list, one)) {
    parts.push_back(fmt::format("{} {}", quantity(lack.short_by, lack.unit), cleaned(lack.key)));
  }
  return parts.empty() ? "" : listed(parts, "and");
}

// Of all that is taken as done.
std::string perhaps_not_whole_words(const RoundsList& list) {
  std::vector<std::string> items;
  for (const service::NotInBook& one : list.week().not_in_book) {
    const std::string parts = short_then_words(list, one);
    if (parts.empty()) continue;
    items.push_back(fmt::format("{} {} ({})", cleaned(one.point->machine->key), task_of(*one.point), parts));
  }
  return items.empty() ? ""
                       : fmt::format(
                             " Perhaps not done whole, for so much was not in stock for it: {}: ask whoever "
                             "was there, and write down what was done.",
                             listed(items, "and"));
}

}  // namespace

std::string not_in_book_words(const RoundsList& list, const service::NotInBook& one, bool keep_out) {
  const std::string parts = short_then_words(list, one);
  return fmt::format("{}: taken as done on {}, and not in the book{}{}", task_of(*one.point), day_words(one.on),
                     parts.empty()
                         ? ""
                         : fmt::format("; perhaps not whole, for {} {} not in stock for it: write down what was done",
                                       parts, short_then(list, one).size() == 1 ? "was" : "were"),
                     keep_out ? ": keep the machine out of use until it is written down or done" : "");
}

std::string not_in_book_words(const RoundsList& list) {
  std::vector<std::string> items;
  bool keep_out = false;
  for (const service::NotInBook& one : list.week().not_in_book) {
    items.push_back(fmt::format("{} {}{}", cleaned(one.point->machine->key), task_of(*one.point),
                                is_safety(*one.point) ? " (safety)" : ""));
    keep_out = keep_out || keep_out_of_use(one, list.week().to);
  }
  if (items.empty()) return "";
  return fmt::format("Taken as done by the kept plan, and not in the book: {}: {}.", listed(items, "and"),
                     keep_out ? "what is for safety keeps its machine out of use until it is written down or done"
                              : "write down what is done") +
         perhaps_not_whole_words(list);
}

std::string not_to_run_words(const RoundsList& list, const Visit& visit) {
  return visit.machine == nullptr ? "" : stop_words(*list.week().list, *visit.machine);
}

std::string not_in_use_words(const RoundsList& list, const Round& round, const Visit& visit) {
  const service::MachineUse* const use = use_at(*list.week().list, visit, day_of(list, round));
  return use == nullptr ? "" : words_of(use->state);
}

std::string lay_up_over_words(const RoundsList& list, const Round& round, const Visit& visit) {
  const service::MachineUse* const use = lay_up_over_at(*list.week().list, visit, day_of(list, round));
  return use == nullptr ? "" : lay_up_over_words(*use->state.laid_up);
}

std::string sheets_later_words(const RoundsList& list, const Round& round) {
  std::vector<std::string> names;
  std::optional<service::Day> from;
  for (const service::RoundStop& stop : round.stops) {
    const service::MachineUse* const use =
        lay_up_over_at(*list.week().list, visit_of(list, stop.visit), day_of(list, round));
    if (use == nullptr || holds(names, cleaned(use->machine->key))) continue;
    names.push_back(cleaned(use->machine->key));
    from = std::max(*use->state.until, from.value_or(*use->state.until));
  }
  return names.empty() ? ""
                       : fmt::format("Print that of {} on {} or later: before that it is of a machine laid up.",
                                     listed(names, "and"), to_text(*from));
}

std::string called(const Visit& visit) {
  return visit.call != nullptr && visit.machine != nullptr ? what_words(visit) : cleaned(visit.name);
}

std::string not_planned_words(const service::NotPlanned& row) {
  return fmt::format("{}: {}", not_planned_what(row), reason_words(row, "this week"));
}

namespace {

// Of a visit that was made in part before this week: what is left of it.
std::string rest_words(const RoundsList& list, const service::PlanChange& change) {
  const service::Week& week = list.week();
  if (std::find(week.done.begin(), week.done.end(), change.visit) == week.done.end()) return "";
  std::vector<std::string> tasks;
  for (const Visit& visit : week.visits) {
    if (visit.name != change.visit) continue;
    for (const Point* point : visit.points) tasks.push_back(task_of(*point));
  }
  std::vector<std::string> not_in_book;
  for (const service::NotInBook& one : week.not_in_book) {
    if (one.visit == change.visit) not_in_book.push_back(task_of(*one.point));
  }
  std::string text = tasks.empty() ? "" : fmt::format(", for the rest: {}", listed(tasks, "and"));
  if (!not_in_book.empty()) {
    text += fmt::format(", without what is taken as done and not in the book: {}", listed(not_in_book, "and"));
  }
  return text;
}

}  // namespace

namespace {

std::string gone_words(const RoundsList& list, const service::PlanChange& change) {
  if (change.not_planned) return fmt::format("not planned: {}", short_reason_words(*change.not_planned));
  if (!change.not_due) return "no longer wanted";
  return fmt::format("not due by {}, the last day on which somebody works", day_words(list.week().crew_days.back().on));
}

std::string moved_words(const RoundsList& list, const service::PlanChange& change) {
  const char* const promised = change.promised ? ", promised" : "";
  if (change.moves_within_day()) {
    return fmt::format("was {} at {}{}; now at {}", where_words(list, change.was), clock_words(*change.was_starts),
                       promised, clock_words(*change.is_starts));
  }
  const std::string is =
      (change.wanted ? where_words(list, change.is) : gone_words(list, change)) + rest_words(list, change);
  return change.unheard_of ? "new, " + is
                           : fmt::format("was {}{}; now {}", where_words(list, change.was), promised, is);
}

std::string whom_words(const std::vector<const service::Site*>& sites, const std::string& contact) {
  if (sites.empty()) return "nothing says whom to ring up";
  std::vector<std::string> names;
  for (const service::Site* site : sites) names.push_back(site_words(*site));
  return contact.empty() ? listed(names, "and") + " has no contact to ring up"
                         : fmt::format("ring up {}: {}", listed(names, "and"), cleaned(contact));
}

}  // namespace

std::string change_words(const RoundsList& list, const service::PlanChange& change) {
  const bool known = change.site != nullptr;
  return fmt::format("{}; {}", moved_words(list, change),
                     known ? whom_words({change.site}, change.site->contact) : whom_words({}, ""));
}

std::vector<ChangedFor> changes_by_whom(const RoundsList& list) {
  std::vector<ChangedFor> all;
  for (const service::RingUp& call : ring_ups(list.plan)) {
    ChangedFor& one = all.emplace_back(ChangedFor{whom_words(call.sites, call.contact), {}});
    for (const std::size_t number : call.changes) {
      const service::PlanChange& change = list.plan.changes[number];
      const std::string at = call.sites.size() > 1 ? fmt::format(" ({})", cleaned(change.site->key)) : "";
      one.changes.emplace_back(cleaned(change.visit) + at, moved_words(list, change));
    }
  }
  return all;
}

std::string counts_of(const RoundsList& list) {
  const service::RoundsPlan& plan = list.plan;
  std::size_t stops = 0;
  for (const Round& round : plan.rounds) stops += round.stops.size();
  std::vector<std::string> parts{counted(static_cast<std::int64_t>(plan.rounds.size()), "round", "rounds"),
                                 counted(static_cast<std::int64_t>(stops), "visit", "visits")};
  const auto add = [&](std::size_t count, std::string_view what) {
    if (count > 0) parts.push_back(fmt::format("{} {}", count, what));
  };
  const std::size_t broken = broken_promises(plan).size();
  add(broken, broken == 1 ? "promise broken" : "promises broken");
  add(plan.not_this_week.size(), "not this week");
  add(list.week().not_planned.size(), "not planned");
  add(list.week().no_record.size(), "without record");
  add(list.week().unknown.size(), "not wholly known");
  add(list.week().not_in_book.size(), "taken as done and not in the book");
  return fmt::format("{}.", fmt::join(parts, ", "));
}

std::string cost_words(const RoundsList& list) {
  if (list.site != nullptr) return "";  // of the whole week, which is no concern of one customer
  const service::RoundsPlan& plan = list.plan;
  return fmt::format("It costs {}: {} on the way, {} for waiting, {} for what is not this week.",
                     money_of(list, plan.value.total), plain(plan.travel), plain(plan.waiting), plain(plan.put_off));
}

std::string bound_words(const RoundsList& list) {
  if (list.site != nullptr) return "";  // likewise
  const service::RoundsPlan& plan = list.plan;
  const int left = plan.value.safety_put_off;
  const std::string no_plan =
      plan.promises_kept + plan.promises_broken == 0
          ? "No plan"
          : fmt::format("No plan that keeps {} promises", plan.promises_broken == 0 ? "the" : "as many");
  const std::string safety = left == 0 ? ""
                                       : fmt::format("{} for safety {} not this week. ",
                                                     counted(left, "visit", "visits"), left == 1 ? "is" : "are");
  const char* const promised = plan.promises_kept + plan.promises_broken == 0 ? "" : " with what was promised";
  std::string text;
  if (plan.proven) {
    text = left == 0 ? fmt::format("{} can cost less than {}: this one is proven to be the best{}.", no_plan,
                                   plain(plan.bound.total), promised)
                     : fmt::format(
                           "{}{} leaves out fewer of these, and none that leaves out as many costs less than {}: this "
                           "one is proven to be the best{}.",
                           safety, no_plan, plain(plan.bound.total), promised);
  } else if (plan.gap_known) {
    text = fmt::format("{}{} can cost less than {}: a better one can save {} at most ({:.1f} %).", safety, no_plan,
                       plain(plan.bound.total), plain(plan.value.total - plan.bound.total),
                       static_cast<double>(plan.gap_millionths) / 10'000);
  } else {
    text = fmt::format(
        "{}That it cannot be fewer is not proven: all that is certain is that no plan leaves out fewer "
        "than {}.",
        safety, plan.bound.safety_put_off);
  }
  if (plan.stopped == service::StoppedBy::time) text += " The time was up: with more of it there may be a better one.";
  if (plan.stopped == service::StoppedBy::effort) {
    text +=
        " The effort set for it is used up: with more, such as --time 2min, there may be a better one, or more proven.";
  }
  if (plan.stopped == service::StoppedBy::interrupt) text += " It was interrupted: this is the best so far.";
  return text;
}

std::vector<std::string> remark_lines(const RoundsList& list) {
  std::vector<std::string> lines;
  const service::Week& week = list.week();
  if (!week.done.empty()) {
    std::vector<std::string> names;
    for (const std::string& name : week.done) names.push_back(cleaned(name));
    lines.push_back(
        fmt::format("Taken as done before {}, whatever the book says: {}", to_text(week.from), listed(names, "and")));
  }
  if (const service::VisitLoad taken = taken_before(list); !taken.parts.empty() || !taken.fluids.empty()) {
    std::vector<std::string> words = piece_words(taken.parts);
    for (const auto& [key, poured] : taken.fluids) {
      words.push_back(fmt::format("{} {}", quantity(poured.amount, poured.unit), cleaned(key)));
    }
    lines.push_back(
        fmt::format("What is to load is held against stock less what these took and stock does not show: {}",
                    listed(words, "and")));
  }
  if (list.carried) lines.emplace_back(carried_words);
  for (std::string& line : without_figures(week.no_time, week.no_price)) lines.push_back(std::move(line));
  return lines;
}

std::string value_words(const service::Week& week, const service::PlanValue& value) {
  const std::string cost = fmt::format("It costs {}", money_words(value.total, *week.fleet));
  if (value.safety_put_off == 0) return cost + ", and no work for safety is left out.";
  return fmt::format("{}, and leaves out {} for safety.", cost, counted(value.safety_put_off, "visit", "visits"));
}

std::string not_judged_words(const std::vector<std::string>& fields) {
  if (fields.empty()) return "";
  constexpr std::size_t most = 4;
  std::vector<std::string> names;
  for (const std::string& field : fields) names.push_back(cleaned(field));
  const auto count = static_cast<std::int64_t>(names.size());
  if (names.size() > most) {
    names.resize(most - 1);
    names.push_back(fmt::format("{} more, which --format json names", fields.size() - names.size()));
  }
  return fmt::format("Not judged {} that no rule goes by: {}.",
                     count == 1 ? "is 1 field" : fmt::format("are {} fields", count), listed(names, "and"));
}

std::string safety_left_out_words(const service::PlanJudgement& judged) {
  if (judged.safety_left_out.empty()) return "";
  std::vector<std::string> names;
  for (const std::string& name : judged.safety_left_out) names.push_back(cleaned(name));
  return fmt::format("For safety, left out, and possible this week: {}.", listed(names, "and"));
}

std::string fault_words(const service::PlanFault& fault) {
  std::string text = std::string(to_text(fault.rule)) + ": ";
  if (!fault.where.empty()) text += cleaned(fault.where) + ": ";
  text += cleaned(fault.says);
  const auto behind = static_cast<std::int64_t>(fault.follow_on.size());
  if (behind == 0) return text;
  return text + fmt::format(" ({} from this)", behind == 1 ? "1 more follows" : fmt::format("{} more follow", behind));
}

std::string follow_on_words(const service::PlanJudgement& judged) {
  const bool any = std::any_of(judged.faults.begin(), judged.faults.end(),
                               [](const service::PlanFault& fault) { return !fault.follow_on.empty(); });
  return any ? "What is wrong only because of such a fault is counted with it; --format json names it." : "";
}

}  // namespace cli
