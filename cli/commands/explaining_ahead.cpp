#include "commands/explaining_ahead.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/shared/grounds_words.h"
#include "render/shared/resources_words.h"
#include "render/shared/words.h"
#include "service/workload.h"

namespace cli {
namespace {

using service::LimbKind;
using service::LimbStanding;
using service::Point;

// The year, shape and source of a meter's use, once for each meter that the point counts.
std::vector<std::string> use_of(const service::Snapshot& snapshot, const Point& point,
                                const service::Forecaster& forecaster) {
  std::vector<std::string> lines;
  const auto histories = meter_histories(snapshot, *point.machine);
  const auto aheads = aheads_of(snapshot, *point.machine, histories, forecaster);
  std::vector<std::string> told;
  for (const LimbStanding& limb : point.limbs) {
    if (limb.kind != LimbKind::usage || reached(limb)) continue;
    if (std::find(told.begin(), told.end(), limb.name) != told.end()) continue;
    told.push_back(limb.name);
    const auto ahead = aheads.find(limb.name);
    if (ahead == aheads.end()) continue;
    const service::Grounds* grounds = ahead->second->grounds();
    if (grounds == nullptr) {
      lines.push_back(fmt::format("use of {} ahead: nothing to go by", service::cleaned(limb.name)));
      continue;
    }
    const std::string unit = service::cleaned(limb.unit);
    lines.push_back(fmt::format("use of {} ahead: {:.0f} {} in a mean year, {}; learnt {}", service::cleaned(limb.name),
                                grounds->per_year, unit, busy_months(*grounds), words_of(*grounds, unit)));
  }
  return lines;
}

// Days apart in a span, and what else shaped it.
std::string span_of(const Point& point) {
  const auto& [p10, p50, p90] = point.due_span;
  if (!p50) return p10 ? fmt::format("may come due from {} on; at even odds not within five years", to_text(*p10)) : "";
  if (p10 == p90) return fmt::format("comes due on {}, for certain", to_text(*p50));
  std::string text =
      fmt::format("comes due at even odds by {}; in one case of ten by {}, ", to_text(*p50), to_text(*p10));
  const bool at_latest =
      p90 && std::any_of(point.limbs.begin(), point.limbs.end(), [&](const LimbStanding& limb) {
        return (limb.kind == LimbKind::calendar || limb.kind == LimbKind::season) && limb.due_on == p90;
      });
  text += at_latest ? fmt::format("at the latest on {}", to_text(*p90))
                    : fmt::format("in one of ten after {}", p90 ? to_text(*p90) : "five years");
  if (point.due_on && *point.due_on != *p50) {
    text += fmt::format(" (by use alone at even odds by {}; that nobody wrote down a service since is evidence, too)",
                        to_text(*point.due_on));
  }
  return text;
}

std::string takes_of(const Point& point) {
  const auto resources = service::resources_of(*point.machine, *point.task, point.follow_up);
  std::string text = "takes " + time_words(resources);
  if (const std::string parts = parts_words(resources); !parts.empty()) text += "; " + parts;
  return text;
}

// The odds of each season's list.
std::vector<std::string> seasons_of(const service::Snapshot& snapshot, const Point& point,
                                    const service::Forecaster& forecaster) {
  std::vector<std::string> lines;
  for (const service::Season& season : snapshot.fleet().seasons) {
    const auto days = service::season_days(season, std::nullopt, snapshot.as_of());
    const auto list = due_list(snapshot, {days.to, days.to}, forecaster);
    for (const Point& same : list.points) {
      if (same.machine != point.machine || same.name != point.name || same.position != point.position) continue;
      if (!same.odds) continue;
      lines.push_back(fmt::format("odds of coming due by the end of {}, {}: {}", service::cleaned(season.key),
                                  to_text(days.to), odds_words(*same.odds)));
    }
  }
  return lines;
}

}  // namespace

std::vector<std::string> expectations(const service::Snapshot& snapshot, const Point& point,
                                      const service::Forecaster& forecaster) {
  std::vector<std::string> lines = use_of(snapshot, point, forecaster);
  if (!reached(point)) {
    for (const LimbStanding& limb : point.limbs) {
      if (!limb.expected || !limb.expected->p50) continue;
      lines.push_back(fmt::format("{} is likely to have been done often enough by {}", service::cleaned(limb.name),
                                  to_text(*limb.expected->p50)));
    }
    if (std::string span = span_of(point); !span.empty()) lines.push_back(std::move(span));
    for (std::string& line : seasons_of(snapshot, point, forecaster)) lines.push_back(std::move(line));
  }
  lines.push_back(takes_of(point));
  return lines;
}

}  // namespace cli
