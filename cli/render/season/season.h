// The season to prepare for: what to do beforehand and what to have ready, with odds, work and orders; the rest named.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "render/shared/formats.h"
#include "service/season.h"

namespace cli {

std::string season_as_text(const service::SeasonPlan& plan, const Look& look);
std::string season_as_json(const service::SeasonPlan& plan, const std::string& command);
std::string season_as_csv(const service::SeasonPlan& plan);  // one row a point, gap or machine

// `Do before 2026-08-01: 33 points, 41.5 h of work, 30 parts. Have ready: ... Order today: 1 drum-bar-set; ...`
// `command`: how printed commands begin.
std::vector<std::string> season_in_sentences(const service::SeasonPlan& plan, const std::string& command);  // no orders

// What is to be ordered by which day: `today`, `2026-07-10`.
std::vector<std::pair<std::string, std::string>> season_orders(const service::SeasonPlan& plan);

// All of it.
std::string season_in_a_line(const service::SeasonPlan& plan, const std::string& command);

inline constexpr Format<service::SeasonPlan> season_formats[] = {
    {"text", season_as_text}, {"json", season_as_json}, {"csv", season_as_csv}};

}  // namespace cli
