#include "commands/explaining.h"

#include <fmt/format.h>

#include <algorithm>

#include "commands/explaining_ahead.h"
#include "render/fact_words.h"
#include "render/shared/words.h"
#include "service/usage.h"

namespace cli {
namespace {

using service::Fact;
using service::FactKind;
using service::LimbKind;
using service::LimbStanding;
using service::Point;

std::string joined(const std::vector<std::string>& parts, std::string_view between) {
  return fmt::format("{}", fmt::join(parts, between));
}

std::string grace_of(const Point& point) {
  if (point.task->safety) return "a safety task: no grace";
  std::vector<std::string> parts;
  bool reckoned = true;  // percent of an interval that cannot be reckoned is no figure
  for (const LimbStanding& limb : point.limbs) {
    reckoned = reckoned && limb.state != service::LimbState::unknown;
    if (limb.grace.hundredths > 0) parts.push_back(with_unit(limb.grace, limb.unit));
    if (limb.grace_days > 0) parts.push_back(service::counted(limb.grace_days, "day", "days"));
    if (limb.grace_count > 0) parts.push_back(service::counted(limb.grace_count, "change", "changes"));
  }
  if (parts.empty()) return reckoned ? "no grace" : "";
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

std::string rule_of(const Point& point) {
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
  const bool running_in =
      !point.task->first.empty() && point.follow_up == nullptr && point.fitted && !point.fitted->fact;
  if (running_in) rule += " (running-in interval)";
  if (const std::string grace = grace_of(point); !grace.empty()) rule += "; " + grace;
  return rule + counting_of(*point.task);
}

const Fact* fact_of(const service::Snapshot& snapshot, const Point& point, const service::FactId& id) {
  const auto facts = snapshot.facts_of(point.machine->key);
  const auto found = std::find_if(facts.begin(), facts.end(), [&](const Fact& fact) { return fact.id == id; });
  return found == facts.end() ? nullptr : &*found;
}

// With the lifetime usage where the meter shows less of it, as after a roll-over.
std::string told(const Fact& fact, const service::Snapshot& snapshot, const Point& point) {
  std::string text = fmt::format("{}: {}", to_text(fact.on), fact_words(fact, snapshot.fleet()));
  const bool shows = fact.kind == FactKind::reading || fact.kind == FactKind::service;
  const auto* meter = fact.meter.empty() ? point.machine->first_meter() : point.machine->meter(fact.meter);
  if (shows && fact.at && meter != nullptr) {
    const service::MeterHistory history(*point.machine, *meter, snapshot.facts_of(point.machine->key));
    const auto usage = history.usage_of(fact.id);
    if (usage && *usage != *fact.at) text += ", usage " + with_unit(*usage, meter->unit);
  }
  return text + fmt::format(" [{}]", short_text(fact.id));
}

// The reading (or service with a value) that the last known usage of a meter comes from.
const Fact* last_value(const service::Snapshot& snapshot, const Point& point, const std::string& meter) {
  const service::Meter* known = point.machine->meter(meter);
  if (known == nullptr) return nullptr;
  const auto events = meter_events(*point.machine, *known, snapshot.facts_of(point.machine->key));
  return events.empty() ? nullptr : events.back().fact;
}

std::vector<std::string> facts_of(const service::Snapshot& snapshot, const Point& point) {
  std::vector<std::string> lines;
  const auto add = [&](const Fact* fact) {
    if (fact == nullptr) return;
    const std::string line = told(*fact, snapshot, point);
    if (std::find(lines.begin(), lines.end(), line) == lines.end()) lines.push_back(line);
  };
  if (point.fitted && point.fitted->fact) {
    add(fact_of(snapshot, point, *point.fitted->fact));
    const std::string own = point.follow_up == nullptr ? point.task->name : point.name;
    if (!point.fitted->task.empty() && point.fitted->task != own && point.follow_up == nullptr) {
      lines.push_back(fmt::format("{} covers {}", service::cleaned(point.fitted->task), service::cleaned(own)));
    }
  } else if (point.fitted) {
    lines.push_back(to_text(point.fitted->on) + ": the machine went into service new (fleet file)");
  } else {
    lines.emplace_back("no service is written down");
  }
  for (const LimbStanding& limb : point.limbs) {
    if (limb.kind == LimbKind::usage) add(last_value(snapshot, point, limb.name));
    if (limb.fact) add(fact_of(snapshot, point, *limb.fact));
  }
  if (point.put_off) add(fact_of(snapshot, point, point.put_off->fact));
  return lines;
}

std::string fitted_words(const Point& point) {
  if (!point.fitted) return "";
  return fmt::format("fitted {}, {}", to_text(point.fitted->on), to_text(point.fitted->basis));
}

std::vector<std::string> usage_sums(const service::Snapshot& snapshot, const Point& point, const LimbStanding& limb) {
  std::vector<std::string> sums;
  const auto histories = meter_histories(snapshot, *point.machine);
  const auto history = histories.find(limb.name);
  const bool known = history != histories.end() && !history->second.empty();
  if (!limb.used || !known) {
    sums.push_back(words_of(limb, point) +
                   (known ? ": use at the last service is not known" : ": the meter was never read"));
    return sums;
  }
  const auto& last = history->second.knots().back();
  std::string used = fmt::format("used {}", with_unit(*limb.used, limb.unit));
  const bool same_meter = point.fitted && point.fitted->at && point.fitted->meter == limb.name;
  const auto start = same_meter ? point.fitted->at : std::nullopt;
  if (start) {
    used += fmt::format(" = {} (usage known on {}) - {} ({})", with_unit(last.usage, limb.unit), to_text(last.day),
                        with_unit(*start, limb.unit), fitted_words(point));
  } else {
    used += fmt::format(" by {} (usage known on {})", with_unit(last.usage, limb.unit), to_text(last.day));
  }
  sums.push_back(used);
  if (limb.due_at && limb.left) {
    sums.push_back(fmt::format("due at {}: {}", due_point(limb), words_of(limb, point)));
  }
  if (limb.estimated_used) {
    sums.push_back(fmt::format("today by estimate {} used, from the use up to {}",
                               about(*limb.estimated_used, limb.unit), to_text(last.day)));
  }
  return sums;
}

std::vector<std::string> sums_of(const service::Snapshot& snapshot, const Point& point, const LimbStanding& limb) {
  if (limb.kind == LimbKind::usage) return usage_sums(snapshot, point, limb);
  if (limb.kind == LimbKind::calendar && limb.counted_from && limb.due_on && limb.span) {
    return {fmt::format("{}{} from {} is {}: {}", to_text(*limb.span),
                        limb.until_month_end ? ", to the month's end," : "", to_text(*limb.counted_from),
                        to_text(*limb.due_on), words_of(limb, point, true))};
  }
  if (limb.kind == LimbKind::season && limb.due_on) {
    return {fmt::format("{} is {}: {}", interval_of(limb, point), to_text(*limb.due_on), words_of(limb, point, true))};
  }
  return {words_of(limb, point, true)};
}

std::string ruling_of(const Point& point, service::Day as_of) {
  std::string text = words_of(point.standing);
  if (!point.ruled_by) return text + ": no limb can be reckoned";
  const LimbStanding& limb = point.limbs[*point.ruled_by];
  const std::string day = when(point, as_of);
  if (!day.empty()) text += ' ' + day;
  text += fmt::format(", ruled by {}: {}", words_of(limb.kind), words_of(limb, point, true));
  if (point.limbs.size() > 1) {
    const bool is_reached = reached(limb);
    const auto alike = std::count_if(point.limbs.begin(), point.limbs.end(),
                                     [&](const LimbStanding& other) { return other.state == limb.state; });
    text += !is_reached ? "; it ends first" : alike > 1 ? "; it was reached first" : "; no other limb is as far";
  }
  if (point.by_estimate) text += "; by estimate only, so read the meter";
  return text;
}

}  // namespace

Explained explain(const service::Snapshot& snapshot, const service::DueList& list, const Point& point,
                  const service::Forecaster& forecaster) {
  Explained explained;
  explained.point = &point;
  explained.rule = rule_of(point);
  explained.facts = facts_of(snapshot, point);
  for (const LimbStanding& limb : point.limbs) {
    for (std::string& line : sums_of(snapshot, point, limb)) explained.sums.push_back(std::move(line));
  }
  explained.ahead = expectations(snapshot, point, forecaster);
  explained.ruling = ruling_of(point, list.as_of);
  return explained;
}

}  // namespace cli
