// The rows of a season's list for people, and what their columns mean.
#pragma once

#include <string>
#include <vector>

#include "service/season.h"
#include "terminal/look.h"

namespace cli {

// A row a service, positions of a task that stand alike in one.
struct SeasonRow {
  const service::SeasonItem* item = nullptr;  // the first of them; points into what was given
  std::string mark;                           // `S`, `C`: that it never waits, and why; `D`: that it is doubtful
  std::string day;
  std::string task;
  std::string odds;
  std::string lost;
  std::string takes;
  std::string stopped;  // nobody may run its machine, and its own point does not say why; what goes before the remarks
  std::string remarks;  // that it is doubtful first
};

std::vector<SeasonRow> rows_in_words(const std::vector<service::SeasonItem>& items, const service::NotToRun& stopped);

// `Safety and statutory, by day`.
std::string_view group_words(service::SeasonGroup group);

// The same as a table of text. `day`: what the day in front is called. `grouped`: with a heading for each group.
std::string season_rows(const std::vector<service::SeasonItem>& items, const service::NotToRun& stopped,
                        const char* day, const Look& look, bool grouped = false);

// `brakes (overdue, safety), engine-oil`: what a service includes besides.
std::string included_words(const service::SeasonItem& item, const char* between);

// `battery not before 2026-06-22`: the parts that cannot be there by its day.
std::string awaited_words(const service::SeasonItem& item, const char* between);

// Marks and columns in words.
std::string season_legend(const service::SeasonPlan& plan, const std::string& command);   // command: see Look
std::string columns_legend(const service::SeasonPlan& plan, const std::string& command);  // the columns alone

}  // namespace cli
