#include "render/shared/fact_words.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/shared/words.h"

namespace cli {

using service::Fact;
using service::FactKind;

namespace {

std::string unit_of(const Fact& fact, const service::Fleet& fleet) {
  const service::Machine* machine = fleet.machine(fact.machine);
  if (machine == nullptr) return "";
  const service::Meter* meter = fact.meter.empty() ? machine->first_meter() : machine->meter(fact.meter);
  return meter == nullptr ? "" : meter->unit;
}

// Until when something is put off: the day, and what the meter shows or its lifetime use, whichever comes first.
std::string end_of_delay(const Fact& fact, const service::Fleet& fleet, const std::optional<service::Amount>& shown) {
  std::vector<std::string> ends;
  if (fact.until) ends.push_back(to_text(*fact.until));
  if (fact.at) {
    const service::Machine* machine = fleet.machine(fact.machine);
    const service::Meter* meter = meter_of_delay(fleet, fact);
    const std::string use = with_unit(shown.value_or(*fact.at), meter == nullptr ? "" : meter->unit);
    const std::string where = meter == nullptr ? "" : " on " + meter_words(*machine, meter->name);
    ends.push_back(use + (shown ? "" : " of use") + where);
  }
  return fmt::format("until {}", fmt::join(ends, " or "));
}

// In which a part is counted: `L`; of what the fleet gives no unit, pieces.
std::string unit_of_part(const Fact& fact, const service::Fleet& fleet) {
  const auto part = std::find_if(fleet.parts.begin(), fleet.parts.end(),
                                 [&](const service::Part& listed) { return listed.key == fact.part; });
  if (part == fleet.parts.end()) return "";
  if (!is_in_pieces(*part)) return service::cleaned(part->unit);
  constexpr std::int64_t one = 1'000'000;
  return fact.value && fact.value->millionths == one ? "piece" : "pieces";
}

}  // namespace

bool is_in_pieces(const service::Part& part) {
  return part.unit.empty() || part.unit == "piece" || part.unit == "pieces";
}

std::string what_of(const Fact& fact) {
  switch (fact.kind) {
    case FactKind::reading:
    case FactKind::meter_change:
      return service::cleaned(fact.meter);
    case FactKind::service:
    case FactKind::put_off:
      return service::cleaned(fact.position.empty() ? fact.task : fact.task + '@' + fact.position);
    case FactKind::sign:
    case FactKind::looked_at:
    case FactKind::measurement:
      return service::cleaned(fact.position.empty() ? fact.name : fact.name + '@' + fact.position);
    case FactKind::count:
      return service::cleaned(fact.part);
    case FactKind::strike:
      return fact.strikes ? short_text(*fact.strikes) : "";
    case FactKind::laid_up:
    case FactKind::out_of_use:
    case FactKind::back:
      return "";
  }
  return "";
}

std::string value_of(const Fact& fact, const service::Fleet& fleet, const std::optional<service::Amount>& shown) {
  if (fact.kind == FactKind::put_off) return end_of_delay(fact, fleet, shown);
  const std::string unit = unit_of(fact, fleet);
  std::string text;
  if (fact.kind == FactKind::meter_change && fact.last && fact.first) {
    return with_unit(*fact.last, unit) + " -> " + with_unit(*fact.first, unit);
  }
  if (fact.value) {
    const std::string of = fact.kind == FactKind::count ? unit_of_part(fact, fleet) : service::cleaned(fact.unit);
    text = to_text(*fact.value) + (of.empty() ? "" : ' ' + of);
  }
  if (fact.until) text = "until " + to_text(*fact.until);
  if (fact.at) text += with_unit(*fact.at, unit);
  return text;
}

std::string fact_words(const Fact& fact, const service::Fleet& fleet, const std::optional<service::Amount>& shown) {
  const std::string what = what_of(fact);
  const std::string value = value_of(fact, fleet, shown);
  std::string text = fact.kind == FactKind::service ? "done" : std::string(to_text(fact.kind));
  if (!what.empty()) text += ' ' + what;
  if (!value.empty()) text += (fact.kind == FactKind::service ? " at " : " ") + value;
  if (fact.sure) text += ", sure";
  if (fact.history) text += ", told of later";
  if (fact.found) text += fmt::format(", found {}", to_text(*fact.found));
  if (!fact.by.empty()) text += ", by " + service::cleaned(fact.by);
  if (!fact.note.empty()) text += fmt::format(" ({})", service::cleaned(fact.note));
  return text;
}

std::string rest_of(const service::BookLine& line) {
  const Fact& fact = line.fact;
  std::vector<std::string> parts;
  if (line.struck) parts.push_back("STRUCK " + service::cleaned(line.struck_because));
  if (line.doubtful) parts.emplace_back("doubtful: hard to believe");
  if (line.usage) parts.push_back("usage " + to_text_tenths(*line.usage));
  if (fact.found) parts.push_back(fmt::format("found {}", to_text(*fact.found)));
  if (!fact.by.empty()) parts.push_back("by " + service::cleaned(fact.by));
  if (!fact.note.empty()) parts.push_back(service::cleaned(fact.note));
  return fmt::format("{}", fmt::join(parts, "; "));
}

}  // namespace cli
