// A week of visits by crew and day, and what was judged of a plan that somebody has.
#pragma once

#include <cstdint>
#include <string>

#include "render/shared/formats.h"
#include "service/calendar.h"
#include "service/rounds_list.h"

namespace cli {

struct RoundsAnswer {
  service::RoundsList list;
  service::Calendar calendar = {};  // for a calendar alone
  std::int64_t sequence = 0;        // of the plan's calendar
};

std::string rounds_as_text(const RoundsAnswer& answer, const Look& look);  // a page a round
std::string rounds_as_json(const RoundsAnswer& answer);
std::string rounds_as_csv(const RoundsAnswer& answer);  // a row a stop; what is not this week has no crew
std::string rounds_as_markdown(const RoundsAnswer& answer, const std::string& command);
// An event a stop and one a round, each from when to when; one of the week that holds what is not done in it.
std::string rounds_as_ics(const RoundsAnswer& answer, const std::string& command);

inline constexpr Format<RoundsAnswer> rounds_formats[] = {{"text", rounds_as_text},
                                                          {"json", rounds_as_json},
                                                          {"csv", rounds_as_csv},
                                                          {"md", rounds_as_markdown},
                                                          {"ics", rounds_as_ics}};

// A plan judged by the rules by which plans are made.
struct JudgedAnswer {
  const service::Week* week = nullptr;  // by which it was judged; outlives this
  service::PlanJudgement judged;
  std::string file;        // of the plan
  std::string other_days;  // what the plan says of its day and week that was not asked about; empty: the same
  std::vector<std::string> not_judged;  // fields of the file by which no rule goes
};

std::string judged_as_text(const JudgedAnswer& answer, const Look& look);
std::string judged_as_json(const JudgedAnswer& answer);
std::string judged_as_csv(const JudgedAnswer& answer);
std::string judged_as_markdown(const JudgedAnswer& answer);

inline constexpr Format<JudgedAnswer> judged_formats[] = {
    {"text", judged_as_text}, {"json", judged_as_json}, {"csv", judged_as_csv}, {"md", judged_as_markdown}};

}  // namespace cli
