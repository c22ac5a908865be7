#include "render/season/lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "render/shared/grounds_words.h"
#include "render/shared/resources_words.h"
#include "render/shared/words.h"

namespace cli {
namespace {

using service::Point;
using service::SeasonPlan;

bool alike(const service::SeasonRest& a, const service::SeasonRest& b) {
  return a.odds.has_value() == b.odds.has_value() && (!a.odds || odds_words(*a.odds) == odds_words(*b.odds));
}

// Tasks by name, by machine. All positions of a task that stand alike are one.
SaidLines by_machine(const std::vector<const service::SeasonRest*>& all) {
  SaidLines lines;
  for (std::size_t i = 0; i < all.size();) {
    const Point& point = all[i]->point;
    std::size_t next = i + 1;
    const auto same = [&](const Point& other) { return other.machine == point.machine && other.name == point.name; };
    while (next < all.size() && same(all[next]->point) && alike(*all[next], *all[i])) ++next;
    std::string task = next - i > 1 ? service::cleaned(fmt::format("{} ({})", point.name, next - i)) : task_of(point);
    if (all[i]->odds && all[i]->odds->value >= 0.01) task += ' ' + odds_words(*all[i]->odds);
    const auto line =
        std::find_if(lines.begin(), lines.end(), [&](const auto& each) { return each.first == point.machine->key; });
    if (line == lines.end()) {
      lines.emplace_back(point.machine->key, std::move(task));
    } else {
      line->second += ", " + task;
    }
    i = next;
  }
  return lines;
}

// What was nearly used up when somebody measured it, by machine.
std::string measure_again(const SeasonPlan& plan) {
  std::vector<std::string> all;
  for (const auto& rest : plan.not_before_end) {
    if (rest.point.measure_again.empty()) continue;
    all.push_back(fmt::format("{} of {} {}", listed(rest.point.measure_again, "and"),
                              service::cleaned(rest.point.machine->key), task_of(rest.point)));
  }
  return fmt::format("{}", fmt::join(all, ", "));
}

}  // namespace

std::vector<RestLines> rest_lines(const SeasonPlan& plan) {
  std::vector<const service::SeasonRest*> likely;
  std::vector<const service::SeasonRest*> hardly;
  std::vector<const service::SeasonRest*> by_eye;
  for (const auto& rest : plan.not_before_end) {
    (!rest.odds ? by_eye : rest.odds->value < 0.01 ? hardly : likely).push_back(&rest);
  }
  std::vector<RestLines> blocks;
  const auto say = [&](const std::vector<const service::SeasonRest*>& rests, const char* head) {
    if (!rests.empty()) blocks.push_back({head, by_machine(rests)});
  };
  say(likely, "");
  say(hardly, "Under 1 %");
  say(by_eye, "When somebody sees or measures it");
  return blocks;
}

std::vector<std::string> rest_remarks(const SeasonPlan& plan) {
  std::vector<std::string> lines;
  if (const std::string again = measure_again(plan); !again.empty()) {
    lines.push_back(fmt::format("Measure again, they are near their limits: {}.", again));
  }
  std::set<std::string> names;
  for (const auto& rest : plan.not_before_end) names.insert(rest.point.sooner_if.begin(), rest.point.sooner_if.end());
  if (!names.empty()) {
    const std::vector<std::string> all(names.begin(), names.end());
    lines.push_back(fmt::format("The odds leave aside what somebody may see or measure: {}.", listed(all, "and")));
  }
  return lines;
}

SaidLines look_again_lines(const SeasonPlan& plan) {
  SaidLines lines;
  for (const service::OddUse& odd : plan.look_again) lines.emplace_back(odd.machine->key, words_of(odd));
  return lines;
}

SaidLines find_out_lines(const SeasonPlan& plan, const Look& look) {
  std::map<const service::Machine*, std::vector<const Point*>> by_machine;
  std::vector<const service::Machine*> order;
  for (const Point& point : plan.find_out) {
    auto& own = by_machine[point.machine];
    if (own.empty()) order.push_back(point.machine);
    own.push_back(&point);
  }
  SaidLines lines;
  for (const service::GapLine& line : gap_lines(plan.gaps)) {
    const auto own = by_machine.find(plan.fleet->machine(line.gap->machine));
    if (line.gap->kind != service::GapKind::nothing_recorded || own == by_machine.end()) {
      lines.push_back(line_of(line, look));
    } else {  // with the number of its points, and what is for safety by name
      lines.emplace_back(line.gap->machine, no_record_words({own->first, own->second, true}, look.command));
    }
  }
  for (const service::Machine* machine : order) {
    const bool told = std::any_of(plan.gaps.begin(), plan.gaps.end(), [&](const service::Gap& gap) {
      return gap.kind == service::GapKind::nothing_recorded && gap.machine == machine->key;
    });
    if (told) continue;  // nothing is recorded of the whole machine
    const auto& points = by_machine[machine];
    std::vector<std::string> safety;
    bool competent = false;
    for (const Point* point : points) {
      if (!never_waits(*point)) continue;
      safety.push_back(task_of(*point));
      competent = competent || by_competent_person(*point);
    }
    std::string text = points.size() == 1
                           ? fmt::format("{}: too little to go by", task_of(*points.front()))
                           : fmt::format("{} with too little to go by",
                                         service::counted(static_cast<std::int64_t>(points.size()), "task", "tasks"));
    if (points.size() > 1 && !safety.empty()) {
      text += fmt::format(", {} among them: {}", never_wait_words(competent), fmt::join(safety, ", "));
    }
    lines.emplace_back(machine->key, fmt::format("{}; {} find-out {}", text, look.command, machine->key));
  }
  return lines;
}

std::string other_words(const service::OtherMachine& other) {
  std::vector<std::string> counts;
  const auto say = [&](int count, const char* what) {
    if (count > 0) counts.push_back(fmt::format("{} {}", count, what));
  };
  say(other.overdue, "overdue");
  say(other.due, "due");
  say(other.no_record, "without record");
  say(other.unknown, "not known in part");
  say(other.seen, "seen and not looked at");
  const std::string machine = service::cleaned(other.machine->key);
  return counts.empty() ? machine : fmt::format("{} {}", machine, fmt::join(counts, " and "));
}

SaidLines laid_up_lines(const SeasonPlan& plan) {
  SaidLines lines;
  for (const service::MachineUse& use : plan.not_in_use) {
    if (use.state.kind == service::UseKind::out_of_use) continue;
    service::UseState state = use.state;
    state.reasons.clear();
    std::string text = words_of(state);
    if (const int missed = days_missed(plan, state); missed > 0) {
      const int days = 1 + service::days_between(std::max(plan.from, plan.as_of), plan.to);
      const std::string season = service::cleaned(plan.season->key);
      text += missed >= days
                  ? fmt::format("; not there in {}", season)
                  : fmt::format("; not there on the first {} of {}{}", service::counted(missed, "day", "days"), season,
                                plan.under_way() ? " that are left" : "");
    }
    lines.emplace_back(use.machine->key, std::move(text));
  }
  return lines;
}

}  // namespace cli
