// What is expected of a point, in words: from which readings, with which odds, and what it will take.
#include <fmt/format.h>

#include <algorithm>

#include "render/shared/grounds_words.h"
#include "render/shared/resources_words.h"
#include "render/shared/words.h"
#include "render/why/words.h"

namespace cli {
namespace {

using service::Explanation;
using service::LimbStanding;

// The year, shape and source of a meter's use.
std::string use_of(const service::ExplainedUse& use) {
  const std::string meter = service::cleaned(use.meter);
  if (!use.grounds) return fmt::format("use of {} ahead: nothing to go by", meter);
  const std::string unit = service::cleaned(use.unit);
  return fmt::format("use of {} ahead: {:.0f} {} in a mean year, {}; learnt {}", meter, use.grounds->per_year, unit,
                     words_of(use.busy), words_of(*use.grounds, unit));
}

std::string sooner_too(const service::Point& point) {
  const std::string sooner = sooner_words(point);
  return sooner.empty() ? "" : "; " + sooner;
}

// `, about 12 h over by estimate`.
std::string over_words(const service::Point& point) {
  const LimbStanding* limb = service::limb_of(point, service::LimbKind::usage);
  if (limb == nullptr || !limb->estimated_left || limb->estimated_left->hundredths > 0) return "";
  return fmt::format(", about {} over by estimate{}", about(-*limb->estimated_left, service::cleaned(limb->unit)),
                     estimate_from_words(*limb, point));
}

std::string span_of(const Explanation& explained, service::Day as_of) {
  const service::Point& point = explained.point;
  const auto& [p10, p50, p90] = point.due_span;
  if (point.by_estimate) {
    if (p90 == as_of) return "has come due already in nine cases of ten or more";
    const bool latest = explained.ends_certainly || (p50 && p50 == p90);
    const std::string late = fmt::format("{} {}", latest ? "at the latest on" : "in one case of ten after",
                                         p90 ? to_text(*p90) : "five years");
    if (p50 && *p50 <= as_of) return "has come due already at even odds or better; " + late;
    // The days know that nobody wrote a service down; its use alone does not.
    const std::string even = p50 == p90 ? ""
                             : p50      ? fmt::format("at even odds by {}, ", to_text(*p50))
                                        : std::string("at even odds not within five years, ");
    return fmt::format(
        "its use alone has brought it due{}; but no service was written down since, which makes later days likelier: "
        "{}{}",
        over_words(point), even, late);
  }
  if (!p10) return sooner_words(point);
  if (!p50) {
    return fmt::format("may come due from {} on; at even odds not within five years{}", to_text(*p10),
                       sooner_too(point));
  }
  if (service::day_kind(point) == service::DayKind::certain) {
    return fmt::format("comes due on {}, for certain", to_text(*p50));
  }
  if (service::day_kind(point) == service::DayKind::at_latest) {
    return fmt::format("comes due by {} at the latest{}{}", to_text(*p50),
                       service::unforeseen(point) ? "; by use nothing can be said" : "", sooner_too(point));
  }
  if (p10 == p90) {
    return fmt::format("comes due on {}; sooner in less than one case of ten{}", to_text(*p50), sooner_too(point));
  }
  const std::string late = explained.ends_certainly
                               ? fmt::format("at the latest on {}", to_text(*p90))
                               : fmt::format("in one of ten after {}", p90 ? to_text(*p90) : "five years");
  return fmt::format("comes due at even odds by {}; in one case of ten by {}, {}{}", to_text(*p50), to_text(*p10), late,
                     sooner_too(point));
}

// What the odds know nothing of.
std::string aside(const service::Point& point) {
  std::vector<std::string> things = point.sooner_if;
  if (service::unforeseen(point)) things.insert(things.begin(), "use");
  return things.empty() ? "" : fmt::format(", {} aside", listed(things, "and"));
}

std::string takes_of(const service::Resources& resources) {
  std::string text = "takes " + time_words(resources);
  if (const std::string parts = parts_words(resources); !parts.empty()) text += "; " + parts;
  return text;
}

// Where the meter is expected to be when a season ends, and what the last seasons took.
std::string grounds_of(const service::SeasonOdds& season) {
  std::string text;
  for (const service::SeasonUse& use : season.use) {
    const std::string unit = service::cleaned(use.unit);
    text += fmt::format("; {} is expected at {} by then ({} to {} in eight cases of ten), due at {}",
                        service::cleaned(use.meter), about(use.at_end.p50, unit), about(use.at_end.p10, unit),
                        about(use.at_end.p90, unit), with_unit(use.due_at, unit));
    std::vector<std::string> past;
    for (const service::PastSeason& each : use.past) {
      past.push_back(fmt::format("{} in {}", with_unit(each.use, unit), each.year));
    }
    if (!past.empty()) text += fmt::format("; by the readings around it, it ran {}", listed(past, "and"));
  }
  return text;
}

}  // namespace

std::vector<std::string> expectations(const Explanation& explained, service::Day as_of) {
  std::vector<std::string> lines;
  for (const service::ExplainedUse& use : explained.use) lines.push_back(use_of(use));
  if (!reached(explained.point)) {
    for (const LimbStanding& limb : explained.point.limbs) {
      if (!limb.expected || !limb.expected->p50) continue;
      const auto& [p10, p50, p90] = *limb.expected;
      lines.push_back(fmt::format("change {} of {} is expected about {} ({} to {})", limb.limit_count,
                                  service::cleaned(limb.name), to_text(*p50), to_text(p10.value_or(*p50)),
                                  p90 ? to_text(*p90) : "beyond five years"));
    }
    if (std::string span = span_of(explained, as_of); !span.empty()) lines.push_back(std::move(span));
    for (const service::SeasonOdds& season : explained.seasons) {
      lines.push_back(fmt::format("odds of coming due by the end of {}, {}: {}{}", service::cleaned(season.season->key),
                                  to_text(season.days.to), odds_words(season.odds),
                                  aside(explained.point) + grounds_of(season)));
    }
  }
  lines.push_back(takes_of(explained.resources));
  return lines;
}

}  // namespace cli
