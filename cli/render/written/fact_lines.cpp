#include "render/written/fact_lines.h"

#include <fmt/format.h>

#include "render/shared/fact_words.h"
#include "render/shared/words.h"
#include "service/book.h"

namespace cli {
namespace {

using service::Fact;
using service::FactKind;

// What the meter showed last before this fact, and the use in between.
std::string words_of(const service::MeterStep& step) {
  const std::string who = fmt::format("{} {}", service::cleaned(step.machine), service::cleaned(step.meter));
  if (!step.from) return fmt::format("{}: {}, the first value known", who, with_unit(step.to, step.unit));
  std::string text = fmt::format("{}: {} -> {}", who, with_unit(*step.from, step.unit), with_unit(step.to, step.unit));
  if (step.used) {
    text += fmt::format(", {} {}", with_unit(*step.used, step.unit),
                        step.days == 0 ? "on the same day" : "in " + service::counted(step.days, "day", "days"));
  }
  return text;
}

// `1511.4 h on 2026-03-01`.
std::string words_of(const std::optional<service::ShownOn>& newest, const std::string& unit) {
  if (!newest) return "none";
  return fmt::format("{} on {}", with_unit(newest->shown, unit), to_text(newest->day));
}

std::string struck_words(const Fact& strike, const service::Entered& entered) {
  const Fact* struck = target_of(entered, strike);
  if (struck == nullptr) return "struck " + short_text(*strike.strikes);
  if (struck->kind == FactKind::strike && struck->strikes) {
    return fmt::format("struck: the strike {}, so {} counts again", short_text(struck->id),
                       short_text(*struck->strikes));
  }
  return fmt::format("struck: {}{} of {}, {}", struck->machine.empty() ? "" : service::cleaned(struck->machine) + ": ",
                     fact_words(*struck, entered.was->fleet(), shown_at_end(*entered.was, *struck)),
                     to_text(struck->on), short_text(struck->id));
}

}  // namespace

std::vector<std::string> newest_reading_lines(const service::Entered& entered) {
  std::vector<std::string> lines;
  for (const service::NewestReading& newest : newest_readings(entered)) {
    const std::string was = words_of(newest.before, newest.unit);
    const std::string is = words_of(newest.after, newest.unit);
    lines.push_back(fmt::format("newest reading of {} {}: {}", service::cleaned(newest.machine),
                                service::cleaned(newest.meter),
                                was == is ? fmt::format("{}, as before", was) : fmt::format("{} -> {}", was, is)));
  }
  return lines;
}

std::string line_of(const Fact& fact, const service::Entered& entered) {
  if (fact.kind == FactKind::strike && fact.strikes) return struck_words(fact, entered);
  // Several services of one command share their meter value; the step is told once.
  const bool tells_step = fact.kind == FactKind::reading || fact.id.number == 1;
  const auto step = tells_step ? meter_step(entered, fact) : std::nullopt;
  if (fact.kind == FactKind::reading && step) return words_of(*step);
  std::string text = fact.machine.empty() ? "" : service::cleaned(fact.machine) + ": ";
  text += fact_words(fact, entered.was->fleet(), shown_at_end(*entered.is, fact)) + ", " + to_text(fact.on);
  if (step) text += fmt::format(" ({})", words_of(*step));
  return text;
}

}  // namespace cli
