// One standing in words: rule, facts, sums, what is expected, and which limb rules.
#include "render/why/words.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/shared/fact_words.h"
#include "render/shared/words.h"

namespace cli {
namespace {

using service::Explanation;
using service::LimbKind;
using service::LimbStanding;
using service::Point;

std::string joined(const std::vector<std::string>& parts, std::string_view between) {
  return fmt::format("{}", fmt::join(parts, between));
}

std::string grace_of(const Explanation& explained) {
  const Point& point = explained.point;
  if (point.task->safety) return "a safety task: no grace";
  std::vector<std::string> parts;
  for (const LimbStanding& limb : point.limbs) {
    if (limb.grace.hundredths > 0) parts.push_back(with_unit(limb.grace, limb.unit));
    if (limb.grace_days > 0) parts.push_back(service::counted(limb.grace_days, "day", "days"));
    if (limb.grace_count > 0) parts.push_back(service::counted(limb.grace_count, "change", "changes"));
  }
  if (parts.empty()) return explained.grace_known ? "no grace" : "";
  return "grace " + joined(parts, " and ");
}

std::string counting_of(const service::Task& task) {
  switch (task.counts_from) {
    case service::CountsFrom::done:
      return "";
    case service::CountsFrom::due:
      return "; the next interval counts from the due point where it was done within grace of it";
    case service::CountsFrom::earlier:
      return "; the next interval counts from the due point or from when it was done, whichever is earlier";
  }
  return "";
}

std::string rule_of(const Explanation& explained) {
  const Point& point = explained.point;
  std::vector<std::string> every;
  std::vector<std::string> else_when;
  for (const LimbStanding& limb : point.limbs) {
    const bool recurs = limb.kind == LimbKind::usage || limb.kind == LimbKind::calendar;
    (recurs ? every : else_when).push_back(interval_of(limb, point));
  }
  std::string rule;
  if (point.follow_up != nullptr) {
    rule = fmt::format("once, within {} of {}", joined(every, " or "), service::cleaned(point.task->name));
  } else {
    if (!every.empty()) rule = "every " + joined(every, " or ");
    if (!else_when.empty()) rule += (rule.empty() ? "" : ", or ") + joined(else_when, " or ");
  }
  if (point.limbs.size() > 1) rule += ", whichever comes first";
  if (explained.running_in) rule += " (running-in interval)";
  if (const std::string grace = grace_of(explained); !grace.empty()) rule += "; " + grace;
  return rule + counting_of(*point.task);
}

// With the lifetime usage where the meter shows less of it, as after a roll-over.
std::string told(const service::ExplainedFact& told, const Explanation& explained, const service::Fleet& fleet) {
  const service::Fact& fact = told.fact;
  const auto& put_off = explained.point.put_off;
  const auto shown = put_off && put_off->fact == fact.id ? put_off->shown : std::nullopt;
  std::string text = fmt::format("{}: {}", service::to_text(fact.on), fact_words(fact, fleet, shown));
  if (told.usage) {
    const auto* meter =
        fact.meter.empty() ? explained.point.machine->first_meter() : explained.point.machine->meter(fact.meter);
    text += ", usage " + with_unit(*told.usage, meter == nullptr ? "" : meter->unit);
  }
  return text + fmt::format(" [{}]", short_text(fact.id));
}

std::vector<std::string> facts_of(const Explanation& explained, const service::Fleet& fleet) {
  const Point& point = explained.point;
  std::vector<std::string> lines;
  if (!point.fitted) {
    lines.emplace_back("no service is written down");
  } else if (!point.fitted->fact) {
    lines.push_back(service::to_text(point.fitted->on) + ": the machine went into service new (fleet file)");
  }
  for (const service::ExplainedFact& fact : explained.facts) {
    lines.push_back(told(fact, explained, fleet));
    if (explained.by_covering && point.fitted->fact == fact.fact.id) {
      lines.push_back(
          fmt::format("{} covers {}", service::cleaned(point.fitted->task), service::cleaned(point.task->name)));
    }
  }
  if (point.checks_not_asked) lines.emplace_back("its checks are not asked for: the service was told of later");
  return lines;
}

std::string fitted_words(const Point& point) {
  if (!point.fitted) return "";
  return fmt::format("fitted {}, {}", to_text(point.fitted->on), to_text(point.fitted->basis));
}

// An interval that counts from the due point of the last one, and not from when it was done.
std::string counted_words(const std::string& due_point, const std::string& off, bool early) {
  return fmt::format("counts from {}, where it was due: the last service came {} {} that", due_point, off,
                     early ? "before" : "after");
}

std::vector<std::string> calendar_sums(const Point& point, const LimbStanding& limb) {
  std::vector<std::string> sums;
  const int late = point.fitted ? service::days_between(*limb.counted_from, point.fitted->on.first) : 0;
  if (late != 0) {
    sums.push_back(
        counted_words(to_text(*limb.counted_from), service::counted(late < 0 ? -late : late, "day", "days"), late < 0));
  }
  sums.push_back(fmt::format("{}{} from {}{} is {}: {}", to_text(*limb.span),
                             limb.until_month_end ? ", to the month's end," : "", to_text(*limb.counted_from),
                             limb.chain_from ? fmt::format(" (in months from {})", to_text(*limb.chain_from)) : "",
                             to_text(*limb.due_on), words_of(limb, point, true)));
  return sums;
}

std::vector<std::string> usage_sums(const Point& point, const LimbStanding& limb) {
  std::vector<std::string> sums;
  if (!limb.used || !limb.known) {
    const char* const wanting = limb.counted_at ? "the meter was never read"
                                : point.fitted  ? "use at the last service is not known"
                                                : "no service is written down from which to count";
    sums.push_back(words_of(limb, point) + ": " + wanting);
    return sums;
  }
  const service::KnownUsage& known = *limb.known;
  std::string used = fmt::format("used {}", with_unit(*limb.used, limb.unit));
  const bool same_meter = point.fitted && point.fitted->meter == limb.name;
  used += fmt::format(" = {} (usage known on {}) - {} ({})", with_unit(known.usage, limb.unit), to_text(known.day),
                      with_unit(*limb.fitted_at, limb.unit), same_meter ? fitted_words(point) : "when fitted");
  sums.push_back(used);
  if (limb.counted_at != limb.fitted_at) {
    const service::Amount late = *limb.fitted_at - *limb.counted_at;
    sums.push_back(counted_words(with_unit(*limb.counted_at, limb.unit),
                                 with_unit(late.hundredths < 0 ? -late : late, limb.unit), late.hundredths < 0));
  }
  const bool other_shown = limb.due_shown && *limb.due_shown != *limb.due_at;
  const std::string shown =
      other_shown ? fmt::format(" (the meter then shows {})", with_unit(*limb.due_shown, limb.unit)) : "";
  sums.push_back(fmt::format("due at {} = {} + {}{}: {}", with_unit(*limb.due_at, limb.unit),
                             with_unit(*limb.counted_at, limb.unit), with_unit(*limb.every, limb.unit), shown,
                             left_words(*limb.left, limb, point)));
  if (limb.estimated_used) {
    const service::Amount left = *limb.estimated_left;
    const bool over = left.hundredths < 0;
    sums.push_back(fmt::format("today by estimate about {} used, about {} {}{}; from its use up to {}",
                               about(*limb.estimated_used, limb.unit), about(over ? -left : left, limb.unit),
                               over ? "over" : "left", estimate_from_words(limb, point), to_text(known.day)));
  }
  return sums;
}

std::vector<std::string> sums_of(const Point& point, const LimbStanding& limb) {
  if (limb.kind == LimbKind::usage) return usage_sums(point, limb);
  if (limb.kind == LimbKind::calendar && limb.counted_from && limb.due_on && limb.span) {
    return calendar_sums(point, limb);
  }
  if (limb.kind == LimbKind::season && limb.due_on) {
    return {fmt::format("{} is {}: {}", interval_of(limb, point), to_text(*limb.due_on), words_of(limb, point, true))};
  }
  if (!limb.noticed.empty()) {
    std::vector<std::string> lines;
    for (const service::NoticedSign& sign : limb.noticed) lines.push_back(noticed_words(sign));
    return lines;
  }
  return {words_of(limb, point, true)};
}

std::string ruling_words(service::Ruling ruling) {
  switch (ruling) {
    case service::Ruling::ends_first:
      return "; it ends first";
    case service::Ruling::reached_first:
      return "; it was reached first";
    case service::Ruling::furthest:
      return "; no other limb is as far";
    case service::Ruling::alone:
    case service::Ruling::nothing_reckoned:
      break;
  }
  return "";
}

std::string ruling_of(const Explanation& explained, service::Day as_of) {
  const Point& point = explained.point;
  std::string text = words_of(point.standing);
  if (!point.ruled_by) return text + ": no limb can be reckoned";
  const LimbStanding& limb = point.limbs[*point.ruled_by];
  const std::string day = when(point, as_of);
  const bool latest = !reached(point) && service::day_kind(point) == service::DayKind::at_latest;
  if (!day.empty()) text += (latest ? ", " : " ") + day;
  text += fmt::format(", ruled by {}: {}", words_of(limb.kind), words_of(limb, point, true));
  text += ruling_words(explained.ruling);
  if (point.by_estimate) text += "; by estimate only, so read the meter";
  if (!point.by_estimate && point.past_grace_by_estimate) text += "; overdue by estimate, so read the meter";
  return text;
}

}  // namespace

Explained in_words(const Explanation& explained, const service::Fleet& fleet, service::Day as_of) {
  Explained words;
  words.rule = rule_of(explained);
  words.facts = facts_of(explained, fleet);
  for (const LimbStanding& limb : explained.point.limbs) {
    for (std::string& line : sums_of(explained.point, limb)) words.sums.push_back(std::move(line));
  }
  words.ahead = expectations(explained, as_of);
  words.ruling = ruling_of(explained, as_of);
  return words;
}

}  // namespace cli
