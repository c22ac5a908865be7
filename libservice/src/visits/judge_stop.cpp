// What is said of a stop, but for its times.
#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "visits/judge_parts.h"
#include "visits/judge_words.h"
#include "visits/opening.h"

namespace service::visits {
namespace {

std::string quoted_or(const std::string& key, std::string_view otherwise) {
  return key.empty() ? std::string(otherwise) : '`' + cleaned(key) + '`';
}

// Where, at what and for whom: a visit has one of each.
void judge_names(const Visit& visit, const GivenStop& given, const std::string& where, Faults& faults) {
  const auto judge = [&](std::string_view what, const std::optional<std::string>& said, const std::string& is) {
    if (!said || *said == is) return;
    faults.add(PlanRule::form, where,
               fmt::format("says {} as its {}; it is {}", quoted_or(*said, "none"), what, quoted_or(is, "none")));
  };
  judge("site", given.site, visit.site->key);
  judge("machine", given.machine, visit.machine != nullptr ? visit.machine->key : "");
  judge("call", given.call, visit.call != nullptr ? visit.call->key : "");
}

std::vector<std::string> labels_of(const std::vector<GivenTask>& tasks) {
  std::vector<std::string> labels;
  for (const GivenTask& task : tasks) labels.push_back(cleaned(point_label(task.task, task.position)));
  std::sort(labels.begin(), labels.end());
  return labels;
}

void judge_tasks(const Visit& visit, const GivenStop& given, const std::string& where, Faults& faults) {
  if (!given.tasks) return;
  std::vector<GivenTask> due;
  for (const Point* point : visit.points) due.push_back({point->name, point->position});
  const auto said = labels_of(*given.tasks);
  const auto is = labels_of(due);
  if (said == is) return;
  faults.add(PlanRule::tasks, where,
             fmt::format("lists {}; it is for {}", listed(said, "no tasks"),
                         visit.call != nullptr ? "its call alone" : listed(is, "no tasks")));
}

// Of the way to it, which depends on the stop before: where that is another one, all of it is wrong, and so is the way
// to the stop behind it.
void judge_way(const Week& week, JudgedRound& round, std::size_t number, Faults& faults) {
  const WayStop& stop = round.way.stops[number];
  const GivenStop& given = round.given->stops[number];
  const Site& site = *week.visits[*stop.visit].site;
  Faults::Cause cause = round.of_day;
  if (!cause && number > 0) cause = round.of_stops[number - 1];
  const auto fault = [&](PlanRule rule, std::string says) {
    cause = faults.add_figure(cause, rule, round.where_of(number), std::move(says));
    round.of_stops[number] = cause;
  };
  if (stop.leg) {
    const std::string way = fmt::format("from {} to {} it is", stop.from->key, site.key);
    if (given.drive_min && *given.drive_min != stop.leg->minutes) {
      fault(PlanRule::drive, fmt::format("drives {} min; {} {} min", *given.drive_min, way, stop.leg->minutes));
    }
    if (given.tenths_of_km && *given.tenths_of_km != stop.leg->tenths_of_km) {
      fault(PlanRule::drive,
            fmt::format("drives {}; {} {}", km_words(*given.tenths_of_km), way, km_words(stop.leg->tenths_of_km)));
    }
  }
  if (stop.from != nullptr && given.set_up_min && *given.set_up_min != stop.set_up_minutes) {
    const bool there_already = stop.from->key == site.key;
    fault(PlanRule::stay,
          fmt::format("sets up for {} min; {}", *given.set_up_min,
                      there_already ? fmt::format("it is at {} already", site.key)
                                    : fmt::format("at {} it is {} min", site.key, stop.set_up_minutes)));
  }
}

void judge_work(JudgedRound& round, std::size_t number, Faults& faults) {
  const WayStop& stop = round.way.stops[number];
  const GivenStop& given = round.given->stops[number];
  if (!given.work_min || *given.work_min == stop.work_minutes) return;
  const auto fault = faults.add(PlanRule::stay, round.where_of(number),
                                fmt::format("works {} min; its work takes {} min", *given.work_min, stop.work_minutes));
  if (!round.of_stops[number]) round.of_stops[number] = fault;
}

// Which depends on the day alone.
void judge_waiting(const VisitOption& option, JudgedRound& round, std::size_t number, Faults& faults) {
  const GivenStop& given = round.given->stops[number];
  if (!given.waiting || *given.waiting == option.waiting) return;
  auto& cause = round.of_stops[number];
  const auto fault = faults.add_money(round.of_day ? round.of_day : cause, round.where_of(number),
                                      fmt::format("waiting costs {}; on {} it is {}", money_words(*given.waiting),
                                                  to_text(round.given->on), money_words(option.waiting)));
  if (!cause) cause = fault;
}

// A visit that was promised is made by that crew on that day, or not at all.
void judge_promise(const Week& week, const JudgedRound& round, std::size_t visit, const GivenStop& given,
                   const std::string& where, Faults& faults) {
  const auto promise = promise_of(week, visit);
  if (!promise) return;
  if (*promise == std::pair{round.given->crew, round.given->on}) {
    if (!given.says_not_promised) return;
    faults.add(PlanRule::promised, where,
               fmt::format("says that it is not promised; the plan that is kept promised it to {} on {}",
                           cleaned(promise->first), to_text(promise->second)));
    return;
  }
  // Of a crew that there is not, the promise says no more than that.
  const Faults::Cause cause =
      round.crew == nullptr && promise->second == round.given->on ? round.of_day : Faults::Cause{};
  std::string says = fmt::format("was promised to {} on {}", cleaned(promise->first), to_text(promise->second));
  if (!can_keep(week, visit, *promise)) says += ", and that is no longer possible: not this week";
  faults.add_figure(cause, PlanRule::promised, where, std::move(says));
}

}  // namespace

std::string lacks(const Crew& crew, const Visit& visit) {
  std::vector<std::string> skills;
  for (const std::string& need : visit.needs) {
    const auto& has = crew.qualified_for;
    if (std::find(has.begin(), has.end(), need) == has.end()) skills.push_back(need);
  }
  std::string words;
  if (!skills.empty()) words = crew.key + " lacks " + listed(skills, "");
  if (crew.people < visit.people) {
    words += words.empty() ? crew.key + " is " : std::string(", and is ");
    words += fmt::format("{} where it takes {}", counted(crew.people, "person", "people"), visit.people);
  }
  return words;
}

std::optional<std::size_t> crew_day_of(const Week& week, const std::string& crew, Day on) {
  for (std::size_t d = 0; d < week.crew_days.size(); ++d) {
    if (week.crew_days[d].crew->key == crew && week.crew_days[d].on == on) return d;
  }
  return std::nullopt;
}

std::optional<std::pair<std::string, Day>> promise_of(const Week& week, std::size_t visit) {
  const auto& kept = week.visits[visit].came_from;
  if (!kept || !kept->promised) return std::nullopt;
  return std::pair{kept->crew, kept->on};
}

bool can_keep(const Week& week, std::size_t visit, const std::pair<std::string, Day>& promise) {
  const auto day = crew_day_of(week, promise.first, promise.second);
  return day && fits(week, *day, {visit});
}

std::string closed_words(const Week& week, std::size_t visit, Day on) {
  const Visit& of = week.visits[visit];
  if (of.call != nullptr && of.call->from && on < *of.call->from) {
    return fmt::format("it is not wanted before {}", to_text(*of.call->from));
  }
  if (of.call != nullptr && of.call->by && on > *of.call->by) {
    return fmt::format("it is wanted by {}", to_text(*of.call->by));
  }
  if (opening_on(*week.fleet, *of.site, on).empty()) {
    return fmt::format("{} is closed on {}", of.site->key, to_text(on));
  }
  return fmt::format("it cannot be done at any time of {}", to_text(on));
}

std::string open_words(const Week& week, std::size_t visit, std::size_t crew_day) {
  const Visit& of = week.visits[visit];
  const std::string spans = span_words(week.visits[visit].options[crew_day].spans);
  if (of.call != nullptr && !of.call->between.empty()) return "it is possible " + spans;
  return fmt::format("{} is open {}", of.site->key, spans);
}

void judge_stop(const Week& week, JudgedRound& round, std::size_t stop, Faults& faults) {
  const WayStop& of = round.way.stops[stop];
  if (!of.visit) return;
  const Visit& visit = week.visits[*of.visit];
  const GivenStop& given = round.given->stops[stop];
  const std::string where = round.where_of(stop);
  judge_names(visit, given, where, faults);
  judge_tasks(visit, given, where, faults);
  judge_way(week, round, stop, faults);
  judge_work(round, stop, faults);
  judge_promise(week, round, *of.visit, given, where, faults);
  judge_marks(week, round, stop, faults);
  if (round.crew == nullptr) return;
  if (of.from != nullptr && !of.leg) {
    faults.add_grave(PlanRule::drive, where,
                     fmt::format("nothing tells how far it is from {} to {}", of.from->key, visit.site->key));
  }
  if (std::string lack = lacks(*round.crew, visit); !lack.empty()) {
    faults.add(PlanRule::qualified, where, std::move(lack));
  }
  if (!round.crew_day) return;
  const VisitOption& option = week.visits[*of.visit].options[*round.crew_day];
  if (option.spans.empty()) faults.add(PlanRule::closed, where, closed_words(week, *of.visit, round.given->on));
  judge_waiting(option, round, stop, faults);
}

}  // namespace service::visits
