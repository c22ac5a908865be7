// Why a visit is not made this week.
#include <fmt/format.h>

#include "render/rounds/words.h"
#include "render/shared/day_alone_words.h"
#include "render/shared/resources_words.h"
#include "render/shared/words.h"
#include "service/broken_promise.h"

namespace cli {
namespace {

using service::cleaned;
using service::NotThisWeek;
using service::PutOffReason;

std::string crew_and_day(const RoundsList& list, std::size_t crew_day) {
  const service::CrewDay& day = list.week().crew_days[crew_day];
  return fmt::format("{} on {}", crew_words(*day.crew), day_words(day.on));
}

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

}  // namespace cli
