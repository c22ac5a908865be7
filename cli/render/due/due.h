// The due list: on a terminal with paired bars, in a pipe as aligned columns; as JSON, CSV, Markdown and a calendar.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

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
std::string due_as_markdown(const DueAnswer& due, const std::string& command);
std::string due_as_ics(const DueAnswer& due, const std::string& command);

inline constexpr Format<DueAnswer> due_formats[] = {
    {"text", due_as_text}, {"json", due_as_json}, {"csv", due_as_csv}, {"md", due_as_markdown}, {"ics", due_as_ics}};

}  // namespace cli
