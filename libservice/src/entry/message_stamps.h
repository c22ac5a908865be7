// Days and times as messengers write them before what was sent.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/days.h"

namespace service::entry {

// When a line was sent, as far as its stamp says.
struct Stamped {
  std::string text;                // of the stamp
  bool counts = false;             // its day is a word that counts from when the text is read: `Today`
  bool names_day = false;          // else only a time: the day is that of the stamp above it
  std::optional<Day> day_first;    // the day that it is where the day is written first, or where that is certain
  std::optional<Day> month_first;  // the same, with the month first
  bool year_unknown = false;       // of three numbers of two digits: which of them is the year
  bool settles_order = false;      // it can be read in one order alone, and others may follow it
  std::optional<int> second;       // of its day
};

// A day, a time, or both, and nothing else: `[27.11.2026, 08:15]` without its brackets, `6/14/26, 7:40:12 PM`, `15 Jun
// 2026, 07:40`. Years may have two digits. Of a day that is none both readings are missing.
std::optional<Stamped> stamped_in(std::string_view text, Day today);

// The words at the beginning that are a day and a time, and how many letters of the text they take.
struct StampBefore {
  Stamped stamp;
  std::size_t letters = 0;
};
std::optional<StampBefore> stamp_before(std::string_view text, Day today);

// It looks like the beginning of a stamp, or like a day alone, whether anybody understands it or not.
bool begins_like_a_stamp(std::string_view text);

// A divider, or words with a part of a day or a time among them, or a colon behind them: it may say when the lines
// below it were sent.
bool looks_like_a_header(std::string_view text);

// A day, a part of one, a year or a time stands among its words.
bool has_part_of_a_stamp(std::string_view text);

// Whether the day comes first in the stamps of a paste. Nothing: none of them says, or they contradict each other.
std::optional<bool> day_comes_first(const std::vector<Stamped>& stamps);

// The day, or why it is not known.
Parsed<Day> day_of(const Stamped& stamp, std::optional<bool> day_comes_first);

}  // namespace service::entry
