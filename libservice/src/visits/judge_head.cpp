#include "visits/judge_head.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace service::visits {
namespace {

constexpr const char* of_plan = "plan";

// What is wanted, and what is said of that.
bool is_of_work(const PlanFault& fault) {
  switch (fault.rule) {
    case PlanRule::unknown_visit:
    case PlanRule::left_out:
    case PlanRule::tasks:
    case PlanRule::reason:
    case PlanRule::safety:
    case PlanRule::figure:
    case PlanRule::bound:
      return true;
    default:
      return false;
  }
}

bool is_outside(const Week& week, const GivenRound& round) { return round.on < week.from || round.on > week.to; }

std::string where_of(const GivenRound& round) { return fmt::format("{} {}", cleaned(round.crew), to_text(round.on)); }

bool has_crew(const Week& week, const std::string& key) {
  return std::any_of(week.fleet->crews.begin(), week.fleet->crews.end(),
                     [&](const Crew& crew) { return crew.key == key; });
}

std::string week_words(const Week& week, std::string_view and_what) {
  return fmt::format("the week is {} to {}, and {}", to_text(week.from), to_text(week.to), and_what);
}

// How many of its rounds are on days that are not in the week, in words; empty where none is.
std::string outside_words(const Week& week, const GivenPlan& given) {
  const auto rounds = std::count_if(given.rounds.begin(), given.rounds.end(),
                                    [&](const GivenRound& round) { return is_outside(week, round); });
  if (rounds == 0) return "";
  if (static_cast<std::size_t>(rounds) == given.rounds.size()) return "none of its rounds is in it";
  return fmt::format("{} of its {} rounds {} not in it", rounds, given.rounds.size(), rounds == 1 ? "is" : "are");
}

// Why the week cannot be that of its rounds, in words; empty where it can. One round of many on another day is wrong
// itself, as far as the others are of this week.
std::string why_other_week(const Week& week, const GivenPlan& given) {
  std::set<Day> outside;
  std::size_t rounds = 0;
  for (const GivenRound& round : given.rounds) {
    if (!is_outside(week, round)) continue;
    outside.insert(round.on);
    ++rounds;
  }
  const bool all = rounds == given.rounds.size() && (given.from || given.to);
  if (outside.size() > 1 || (rounds > 0 && all)) return outside_words(week, given);
  std::set<Day> until;
  for (const GivenPutOff& out : given.put_off) {
    if (out.until) until.insert(*out.until);
  }
  const bool of_other = given.put_off.size() > 1 && until.size() == 1 && *until.begin() != week.later;
  return of_other ? fmt::format("all that it does not make waits until {}, which in this week is {}",
                                to_text(*until.begin()), to_text(week.later))
                  : "";
}

std::string named(const std::string& text) { return text.empty() ? "none" : '`' + cleaned(text) + '`'; }

}  // namespace

JudgedHead::JudgedHead(const Week& week, const GivenPlan& given, Faults& faults)
    : week_(week), given_(given), faults_(faults) {
  const Fleet& fleet = *week.fleet;
  if (std::string other = of_other_fleet(fleet, given); !other.empty()) {
    of_fleet_ = faults.add(PlanRule::form, of_plan, std::move(other));
  }
  if (given.as_of && *given.as_of != week.as_of) {
    of_money_ =
        faults.add(PlanRule::form, of_plan,
                   fmt::format("is as of {}; the week is as of {}", to_text(*given.as_of), to_text(week.as_of)));
  }
  judge_week();
  if (given.currency && *given.currency != fleet.currency) {
    const auto fault = faults.add(
        PlanRule::figure, of_plan,
        fmt::format("its money is in {}; that of the fleet is in {}", named(*given.currency), named(fleet.currency)));
    if (!of_money_) of_money_ = fault;
  }
}

void JudgedHead::judge_week() {
  if ((given_.from && *given_.from != week_.from) || (given_.to && *given_.to != week_.to)) {
    of_week_ =
        faults_.add(PlanRule::form, of_plan,
                    fmt::format("is of the week {} to {}; asked is {} to {}", to_text(given_.from.value_or(week_.from)),
                                to_text(given_.to.value_or(week_.to)), to_text(week_.from), to_text(week_.to)));
  } else if (const std::string why = why_other_week(week_, given_); !why.empty()) {
    of_week_ = faults_.add(PlanRule::form, of_plan, week_words(week_, why));
  }
}

bool JudgedHead::is_outside(const PlanFault& fault) const {
  return std::any_of(given_.rounds.begin(), given_.rounds.end(), [&](const GivenRound& round) {
    return visits::is_outside(week_, round) && has_crew(week_, round.crew) && fault.where.starts_with(where_of(round));
  });
}

bool JudgedHead::is_of_other_week(const PlanFault& fault) const {
  const bool by_day = fault.rule == PlanRule::off_day || fault.rule == PlanRule::stay;
  return is_of_work(fault) || (by_day && is_outside(fault));
}

// What is wanted in rounds of the week itself, and is another week's.
bool JudgedHead::wants_other_work() const {
  const auto& all = faults_.all();
  return std::any_of(all.begin(), all.end(), [&](const PlanFault& fault) {
    const bool of_wanted = fault.rule == PlanRule::tasks || fault.rule == PlanRule::unknown_visit;
    return of_wanted && !is_outside(fault);
  });
}

// What it does is the rest of what the plan that was kept did, so only beside that can it be judged.
void JudgedHead::judge_replanned() {
  const auto& all = faults_.all();
  if (!given_.replanned || week_.kept || std::none_of(all.begin(), all.end(), is_of_work)) return;
  of_kept_ = faults_.add_to_head(PlanRule::form, of_plan, "was made of a plan that was kept: give that plan too");
}

void JudgedHead::put_work_behind(Faults::Number cause, const std::function<bool(const PlanFault&)>& is_of_it) {
  std::set<std::string> other_tasks;  // so that they take another time, too
  for (const PlanFault& fault : faults_.all()) {
    if (fault.rule == PlanRule::tasks) other_tasks.insert(fault.where);
  }
  faults_.put_behind(cause, [&](const PlanFault& fault, bool) {
    return is_of_it(fault) || (fault.rule == PlanRule::stay && other_tasks.contains(fault.where));
  });
}

void JudgedHead::put_behind() {
  judge_replanned();
  const std::string outside = outside_words(week_, given_);
  if (!of_week_ && !outside.empty() && wants_other_work()) {
    of_week_ = faults_.add_to_head(PlanRule::form, of_plan, week_words(week_, outside));
  }
  const auto& all = faults_.all();
  const bool other_fleet =
      std::any_of(all.begin(), all.end(), [](const PlanFault& fault) { return fault.rule == PlanRule::unknown_visit; });
  if (of_fleet_ && other_fleet) {
    faults_.put_behind(
        *of_fleet_, [](const PlanFault& fault, bool) { return fault.rule == PlanRule::off_day || is_of_work(fault); });
  }
  if (of_kept_) put_work_behind(*of_kept_, is_of_work);
  if (of_week_) {
    put_work_behind(*of_week_, [&](const PlanFault& fault) { return is_of_other_week(fault); });
  }
  if (of_money_) {
    faults_.put_behind(*of_money_,
                       [](const PlanFault& fault, bool money) { return money || fault.rule == PlanRule::bound; });
  }
}

}  // namespace service::visits

namespace service {

std::string of_other_fleet(const Fleet& fleet, const GivenPlan& given) {
  if (!given.fleet || *given.fleet == fleet.name) return "";
  return fmt::format("is of the fleet {}; this one is {}", visits::named(*given.fleet), visits::named(fleet.name));
}

}  // namespace service
