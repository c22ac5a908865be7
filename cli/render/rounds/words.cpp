#include "render/rounds/words.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/parts/words.h"
#include "render/shared/resources_words.h"
#include "render/shared/run_ban_words.h"
#include "render/shared/words.h"
#include "service/shared_machines.h"

namespace cli {
namespace {

using service::cleaned;
using service::counted;
using service::Money;
using service::Point;
using service::Round;

const service::Site& site_of_key(const RoundsList& list, const std::string& key) {
  return *list.week().fleet->site(key);
}

template <class Item>
bool holds(const std::vector<Item>& items, const Item& item) {
  return std::find(items.begin(), items.end(), item) != items.end();
}

}  // namespace

const Visit& visit_of(const RoundsList& list, std::size_t number) { return list.week().visits[number]; }

std::string money_of(const RoundsList& list, Money money) { return money_words(money, *list.week().fleet); }

std::string crew_named(const RoundsList& list, const std::string& key) {
  for (const service::Crew& crew : list.week().fleet->crews) {
    if (crew.key == key) return crew_words(crew);
  }
  return cleaned(key);
}

service::Day day_of(const RoundsList& list, const Round& round) { return list.week().crew_days[round.crew_day].on; }

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

}  // namespace cli
