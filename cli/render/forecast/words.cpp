#include "render/forecast/words.h"

#include <fmt/format.h>

#include "render/shared/grounds_words.h"
#include "render/shared/words.h"

namespace cli {

using service::Amount;
using service::MeterAhead;
using service::UsageSpan;

std::string name_of(const MeterAhead& meter) {
  const std::string machine = service::cleaned(meter.machine->key);
  return meter.machine->meters.size() > 1 ? machine + ' ' + service::cleaned(meter.meter->name) : machine;
}

double units(Amount amount) { return static_cast<double>(amount.hundredths) / 100; }

std::string whole_units(Amount amount) { return fmt::format("{:.0f}", units(amount)); }

std::string span_words(const UsageSpan& span, const std::string& unit) {
  if (span.p10 == span.p90) return about(span.shown.p50, unit);
  return fmt::format("{} ({} to {})", about(span.shown.p50, unit), whole_units(span.shown.p10),
                     whole_units(span.shown.p90));
}

namespace {

// What a machine uses that stands; of one in use nothing.
std::string until_back_words(const service::UseState& state) {
  if (state.kind == service::UseKind::in_use) return "";
  const char* const how = state.kind == service::UseKind::out_of_use ? "out of use" : "laid up";
  return state.until ? fmt::format("{}: no use until it is back on {}; then ", how, to_text(*state.until))
                     : fmt::format("{}: no use until it is back; then ", how);
}

}  // namespace

bool shows_less(const MeterAhead& meter) { return meter.last && meter.last_shown != meter.last->usage; }

std::vector<std::pair<std::string, std::string>> meter_lines(const service::MeterForecast& forecast,
                                                             const std::string& command) {
  const MeterAhead& meter = forecast.ahead;
  const std::string unit = service::cleaned(meter.meter->unit);
  std::vector<std::pair<std::string, std::string>> lines;
  if (meter.last) {
    const std::string lifetime =
        shows_less(meter) ? fmt::format(" (lifetime {})", with_unit(meter.last->usage, unit)) : "";
    lines.emplace_back("last known", fmt::format("{} on {}{}", with_unit(*meter.last_shown, unit),
                                                 to_text(meter.last->day), lifetime));
  }
  if (!meter.now) {
    lines.emplace_back(
        "", meter.last ? "One value alone, and neither its owner nor its kind says how it is used: nothing is said of "
                         "its use."
                       : fmt::format("Nobody ever read it, so nothing is said of its use. Read the meter: {} reading "
                                     "{} VALUE",
                                     command, service::cleaned(meter.machine->key)));
    return lines;
  }
  const std::string lifetime = shows_less(meter) ? fmt::format(", lifetime {}", about(meter.now->p50, unit)) : "";
  const bool known = meter.now->p10 == meter.now->p90;
  lines.emplace_back("today", span_words(*meter.now, unit) + (known ? "" : " by estimate") + lifetime);
  if (!meter.grounds) return lines;
  const std::string a_year =
      fmt::format("{:.0f} {} in a mean year, {}", meter.grounds->per_year, unit, words_of(*forecast.busy));
  lines.emplace_back("from now", until_back_words(forecast.state) + a_year);
  lines.emplace_back("learnt", words_of(*meter.grounds, unit));
  if (const std::string odd = words_of(forecast.lately, *meter.grounds, unit); !odd.empty()) {
    lines.emplace_back("look again", odd);
  }
  return lines;
}

}  // namespace cli
