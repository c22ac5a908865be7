// What stands behind a machine, a task or a sign: a value, a day, how it was found, by whom.
#pragma once

#include "entry/message_line.h"
#include "entry/message_words.h"

namespace service::entry::message {

struct Tail {
  std::optional<Amount> at;
  bool at_is_named = false;  // or has a unit behind it
  std::string at_text;
  std::string unit;  // behind the value
  std::optional<DaySpan> on;
  bool day_counts = false;  // it is a word that counts from when the line was sent: `yesterday`
  std::string meter;
  std::optional<Found> found;
  std::string by;
  std::string note;  // of a service: what else is said of it
  bool sure = false;
  bool checked = false;  // likewise, in one word of which nobody knows what it means
};

// Fails where these words are not wholly what may stand behind: `not-understood` where a word is none of it.
Tail tail_in(const Told& told, const Machine& machine, Verb verb, Words words);

// A value of the meter that is told, or of the first: in its unit, where one is written.
void insist_on_unit(const Machine& machine, const Tail& tail);

// `2012` alone may be a year, and `15.06` the fifteenth of June.
void insist_on_plain_value(const Tail& tail);

// `its meter counts h`.
std::string units_counted(const Machine& machine);

// Two or three numbers between equal marks, or a word for a day; no number.
bool is_like_a_day(const std::string& text);

}  // namespace service::entry::message
