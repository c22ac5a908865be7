#include "standing/chain.h"

#include <algorithm>
#include <optional>

namespace service {
namespace {

const LimbChoice* calendar_choice(const std::vector<LimbChoice>& choices) {
  const auto found = std::find_if(choices.begin(), choices.end(), [](const LimbChoice& choice) {
    return std::holds_alternative<CalendarLimb>(choice.candidates.front());
  });
  return found == choices.end() ? nullptr : &*found;
}

const UsageLimb* usage_limb(const std::vector<LimbChoice>& choices, const std::string& meter) {
  for (const LimbChoice& choice : choices) {
    const auto* usage = std::get_if<UsageLimb>(&choice.candidates.front());
    if (usage != nullptr && usage->meter == meter) return usage;
  }
  return nullptr;
}

std::int64_t percent_of(std::int64_t value, int percent_hundredths) { return value * percent_hundredths / 10'000; }

}  // namespace

ChainDay ChainDay::plus(const CalendarSpan& span) const {
  if (span.unit == CalendarUnit::days || span.unit == CalendarUnit::weeks) return {after(day(), span), 0};
  return {anchor, months + (span.unit == CalendarUnit::years ? 12 : 1) * span.count};
}

CalendarInterval calendar_interval(const ChainDay& start, const LimbChoice& choice, const CalendarRule& rule) {
  CalendarInterval interval;
  std::optional<Day> end;
  for (const Limb& limb : choice.candidates) {
    const CalendarSpan& span = std::get<CalendarLimb>(limb).every;
    const ChainDay next = start.plus(span);
    const Day day = next.day();
    if (end && day >= *end) continue;
    interval.span = span;
    interval.next = next;
    end = day;
  }
  const Day next = *end;
  interval.due = rule.until_month_end ? last_of_month(next) : next;
  if (rule.grace.days) {
    interval.grace_days = *rule.grace.days;
  } else if (rule.grace.percent_hundredths) {
    // Whole days, rounded down, of the days in this very interval (as written, without the month's rest).
    interval.grace_days = static_cast<int>(percent_of(days_between(start.day(), next), *rule.grace.percent_hundredths));
  }
  return interval;
}

ChainDay next_start(const CalendarInterval& ended, Day done, const LimbChoice& follows, const CalendarRule& rule,
                    CountsFrom counts_from) {
  const ChainDay restart{done, 0};
  if (counts_from == CountsFrom::done) return restart;
  if (counts_from == CountsFrom::due) {
    return std::abs(days_between(ended.due, done)) <= ended.grace_days ? ended.next : restart;
  }
  if (done < ended.due) return restart;
  return done >= calendar_interval(ended.next, follows, rule).due ? restart : ended.next;
}

Amount next_usage_start(Amount due, Amount grace, Amount done, Amount follows, CountsFrom counts_from) {
  if (counts_from == CountsFrom::done) return done;
  if (counts_from == CountsFrom::due) return std::max(done - due, due - done) <= grace ? due : done;
  return done <= due || done - due >= follows ? done : due;
}

bool running_in(const MachineView& view, const std::vector<ServiceDay>& services) {
  return services.empty() && view.machine.start.kind == StartKind::in_service;
}

const std::vector<LimbChoice>& limbs_now(const MachineView& view, const MachineTask& task,
                                         const std::vector<ServiceDay>& services) {
  return running_in(view, services) ? task.first : task.every;
}

std::optional<ChainDay> calendar_start(const MachineView& view, const MachineTask& task,
                                       const std::vector<ServiceDay>& services) {
  const bool counts_from_done = task.task->counts_from == CountsFrom::done;
  if (counts_from_done && !services.empty()) return ChainDay{services.back().day(), 0};  // whatever was before
  std::optional<ChainDay> start;
  if (view.machine.start.kind == StartKind::in_service) start = ChainDay{view.machine.start.on.first, 0};
  const LimbChoice* ends = calendar_choice(task.first);
  const LimbChoice* follows = calendar_choice(task.every);
  if (start && ends == nullptr && follows != nullptr) ends = follows;
  if (!start) ends = follows;
  const CalendarRule rule{task.task->until_month_end, task.grace};
  for (const ServiceDay& service : services) {
    const bool continues = start && ends != nullptr && follows != nullptr;
    start = continues ? next_start(calendar_interval(*start, *ends, rule), service.day(), *follows, rule,
                                   task.task->counts_from)
                      : ChainDay{service.day(), 0};
    ends = follows;
  }
  return start;
}

Amount usage_grace(const MachineView& view, const Grace& grace, const std::string& meter, Amount every) {
  if (const auto named = grace.usage.find(meter); named != grace.usage.end()) return named->second;
  const Meter* own = view.machine.meter(meter);
  if (grace.hours && own != nullptr && own->unit == "h") return *grace.hours;
  if (grace.percent_hundredths) return {percent_of(every.hundredths, *grace.percent_hundredths)};
  return {};
}

std::optional<Amount> usage_start(const MachineView& view, const MachineTask& task,
                                  const std::vector<ServiceDay>& services, const std::string& meter) {
  std::optional<Amount> start = view.usage_when_new(meter);
  const UsageLimb* ends = usage_limb(start ? task.first : task.every, meter);
  const UsageLimb* follows = usage_limb(task.every, meter);
  for (const ServiceDay& service : services) {
    const auto done = usage_then(view, service, meter).usage;
    if (start && done && ends != nullptr && follows != nullptr) {
      start = next_usage_start(*start + ends->every, usage_grace(view, task.grace, meter, ends->every), *done,
                               follows->every, task.task->counts_from);
    } else {
      start = done;
    }
    ends = follows;
  }
  return start;
}

}  // namespace service
