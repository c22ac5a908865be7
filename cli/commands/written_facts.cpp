#include "commands/written_facts.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "render/fact_words.h"
#include "render/words.h"
#include "service/usage.h"

namespace cli {
namespace {

using service::Amount;
using service::Fact;
using service::FactKind;

// What the meter showed last before this fact, and the use in between.
std::string step(const Fact& fact, const service::Snapshot& before, const service::Snapshot& after) {
  const service::Machine* machine = after.fleet().machine(fact.machine);
  const service::Meter* meter = machine == nullptr ? nullptr : machine->meter(fact.meter);
  if (meter == nullptr || !fact.at || !fact.on.whole_day()) return "";
  const Amount shown = *fact.at;
  const std::string who = fmt::format("{} {}", service::cleaned(machine->key), service::cleaned(meter->name));
  const auto known = before.facts_of(machine->key);
  const auto events = meter_events(*machine, *meter, known);
  const service::MeterEvent* last = nullptr;
  for (const auto& event : events) {
    if (event.day <= fact.on.first) last = &event;
  }
  if (last == nullptr) return fmt::format("{}: {}, the first value known", who, with_unit(shown, meter->unit));
  const service::MeterHistory was(*machine, *meter, known);
  const service::MeterHistory is(*machine, *meter, after.facts_of(machine->key));
  const auto from = was.on(last->day);
  const auto to = is.usage_of(fact.id);
  std::string text = fmt::format("{}: {} -> {}", who, with_unit(last->fresh.value_or(last->shown), meter->unit),
                                 with_unit(shown, meter->unit));
  if (from && to) {
    const int days = service::days_between(last->day, fact.on.first);
    text += fmt::format(", {} {}", with_unit(*to - *from, meter->unit),
                        days == 0 ? "on the same day" : "in " + service::counted(days, "day", "days"));
  }
  return text;
}

// `1511.4 h on 2026-03-01`, of the newest value that the meter itself showed.
std::string newest_of(const service::Machine& machine, const service::Meter& meter, std::span<const Fact> facts) {
  const service::MeterHistory history(machine, meter, facts);
  if (history.empty()) return "none";
  const service::Knot& knot = history.knots().back();
  return fmt::format("{} on {}", with_unit(history.shown_at(knot.usage), meter.unit), to_text(knot.day));
}

}  // namespace

std::vector<std::string> newest_readings(const std::vector<Fact>& added, const service::Snapshot& before,
                                         const service::Snapshot& after) {
  std::set<std::pair<std::string, std::string>> meters;
  for (const Fact& fact : added) {
    if (fact.at && fact.kind != FactKind::put_off) meters.emplace(fact.machine, fact.meter);
  }
  std::vector<std::string> lines;
  for (const auto& [key, name] : meters) {
    const service::Machine* machine = after.fleet().machine(key);
    const service::Meter* meter = machine == nullptr ? nullptr : machine->meter(name);
    if (meter == nullptr) continue;
    const std::string was = newest_of(*machine, *meter, before.facts_of(key));
    const std::string is = newest_of(*machine, *meter, after.facts_of(key));
    lines.push_back(fmt::format("newest reading of {} {}: {}", service::cleaned(key), service::cleaned(name),
                                was == is ? was + ", as before" : was + " -> " + is));
  }
  return lines;
}

std::string line_of(const Fact& fact, const service::Snapshot& before, const service::Snapshot& after,
                    const std::vector<Fact>& known) {
  if (fact.kind == FactKind::strike && fact.strikes) {
    const auto struck = std::find_if(known.begin(), known.end(), [&](const Fact& k) { return k.id == *fact.strikes; });
    if (struck == known.end()) return "struck " + short_text(*fact.strikes);
    if (struck->kind == FactKind::strike && struck->strikes) {
      return fmt::format("struck: the strike {}, so {} counts again", short_text(struck->id),
                         short_text(*struck->strikes));
    }
    return fmt::format("struck: {}{} of {}, {}",
                       struck->machine.empty() ? "" : service::cleaned(struck->machine) + ": ",
                       fact_words(*struck, before.fleet()), to_text(struck->on), short_text(struck->id));
  }
  if (fact.kind == FactKind::reading) {
    if (std::string text = step(fact, before, after); !text.empty()) return text;
  }
  std::string text = fact.machine.empty() ? "" : service::cleaned(fact.machine) + ": ";
  text += fact_words(fact, before.fleet()) + ", " + to_text(fact.on);
  if (fact.kind == FactKind::service) {
    // Several services of one command share their meter value; the step is told once.
    const std::string use = fact.id.number == 1 ? step(fact, before, after) : "";
    if (!use.empty()) text += fmt::format(" ({})", use);
  }
  return text;
}

}  // namespace cli
