// The due list: on a terminal with paired bars, in a pipe as aligned columns; as JSON, CSV, Markdown and a calendar.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "render/due/point_texts.h"
#include "render/shared/formats.h"
#include "service/calendar.h"
#include "service/due_list.h"

namespace cli {

struct DueAnswer {
  service::DueList list;
  bool all = false;                  // for people: later points too
  std::optional<std::size_t> first;  // only so many points
  std::optional<service::Day> newest_fact;
  std::optional<service::Calendar> calendar = {};  // of this list, where one is asked for

  service::DueRows rows() const { return rows_of(list, {all, all, first}); }     // for people
  service::DueRows every() const { return rows_of(list, {true, true, first}); }  // for programs
  service::DueRows in_calendar() const { return rows_of(list, {true, all, first}); }
};

// That nothing comes due within the horizon, of how many machines, known until when.
std::string nothing_due(const DueAnswer& due);

// How many of each standing there are: `3 overdue, 12 later.`
std::string counts_words(const service::DueRows& rows);

// The same, and what is left out: `3 overdue, 12 later. --all shows the later ones too.`
std::string totals(const service::DueRows& rows);

std::string due_as_text(const DueAnswer& due, const Look& look);
std::string due_as_json(const DueAnswer& due);
// Points, gaps and machines out of use or laid up, told apart by the first column.
std::string due_as_csv(const DueAnswer& due);

// A format for programs holds every point, and so an answer of any length: its points are written as they are made, by
// `write`, and the rest of its list is put around them.
struct LongFormat {
  std::string_view name;
  PointTexts::Write write;
  void (*put)(const DueAnswer& rest, PointTexts& points, const service::Put& put);
};
std::string point_for_json(const service::Point& point, const service::Fleet& fleet, const service::NotToRun& stopped);
void put_json(const DueAnswer& rest, PointTexts& points, const service::Put& put);
std::string point_for_csv(const service::Point& point, const service::Fleet& fleet, const service::NotToRun& stopped);
void put_csv(const DueAnswer& rest, PointTexts& points, const service::Put& put);

inline constexpr LongFormat long_due_formats[] = {{"json", point_for_json, put_json}, {"csv", point_for_csv, put_csv}};

// Null: not of that name.
const LongFormat* long_due_format(std::string_view name);

std::string due_as_markdown(const DueAnswer& due, const std::string& command);
std::string due_as_ics(const DueAnswer& due, const std::string& command);

inline constexpr Format<DueAnswer> due_formats[] = {
    {"text", due_as_text}, {"json", due_as_json}, {"csv", due_as_csv}, {"md", due_as_markdown}, {"ics", due_as_ics}};

}  // namespace cli
