#include "render/shared/day_alone_words.h"

#include <fmt/format.h>

#include <vector>

#include "render/shared/trip_words.h"
#include "render/shared/words.h"

namespace cli {
namespace {

constexpr int minutes_of_a_day = 24 * 60;

std::string clock_words(int minutes) { return fmt::format("{:02}:{:02}", minutes / 60, minutes % 60); }

std::string open_words(const std::vector<service::ClockSpan>& open) {
  std::vector<std::string> spans;
  for (const service::ClockSpan& span : open) {
    if (span.from <= 0 && span.to >= minutes_of_a_day) return "";
    spans.push_back(clock_words(span.from) + '-' + clock_words(span.to));
  }
  return listed(spans, "and");
}

// When the work is possible, by the gate and by what was asked for; empty: all day.
std::string gate_words(const service::DayAlone& day, const service::Site& site) {
  const std::string open = open_words(day.open);
  const std::string wanted = open_words(day.wanted);
  if (wanted.empty() && open.empty()) return "";
  const std::string when = wanted.empty() ? fmt::format("{} is open {}", site_words(site), open)
                           : open.empty()
                               ? fmt::format("it is wanted {}", wanted)
                               : fmt::format("it is wanted {}, while {} is open {}", wanted, site_words(site), open);
  return when + ", in one span of which the work has to lie";
}

}  // namespace

std::string day_alone_words(const std::optional<service::DayAlone>& day, const service::Site& site, int work_minutes) {
  if (!day) return span_words(work_minutes) + " of work";
  std::vector<std::string> parts{span_words(day->work) + " of work"};
  if (day->set_up > 0) parts.push_back(span_words(day->set_up) + " of set-up");
  if (day->drive > 0) parts.push_back(span_words(day->drive) + " of driving there and back");
  if (day->meal > 0) parts.push_back("a meal of " + span_words(day->meal));
  const std::string takes = listed(parts, "and");
  const std::string crew = crew_words(*day->crew);
  const std::string away = fmt::format("can be away for {} on {}", span_words(day->away), to_text(day->on));
  const std::string gate = gate_words(*day, site);
  // What no crew can help comes first.
  std::string text = gate.empty() ? fmt::format("{}; {} {}", takes, crew, away)
                     : day->work + day->set_up > day->longest_span
                         ? fmt::format("{}; {}, which is {} at most; nearest comes {}, who {}", takes, gate,
                                       span_words(day->longest_span), crew, away)
                         : fmt::format("{}; {} {}, and {}", takes, crew, away, gate);
  if (day->but_for_meal) {
    text += "; the meal comes before the last stop of a day: with another stop after it, it may fit";
  }
  return text;
}

}  // namespace cli
