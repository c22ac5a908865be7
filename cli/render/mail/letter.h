// What a mail says, before it is laid out: the same for its text and for its HTML.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/overdue_news.h"
#include "terminal/look.h"

namespace cli {

// One thing on the list: what it is, and below it what there is to know of it.
struct LetterItem {
  std::string mark;  // of its standing: `!!`
  std::string head;  // `tractor-loader: brakes (quernholt)`
  std::vector<std::string> below;
};

struct LetterPart {
  std::string title;
  service::OverdueHeading heading = service::OverdueHeading::overdue;
  std::vector<LetterItem> items;
};

struct Letter {
  std::string subject;               // counts, the fleet's name and the site; no text out of a record
  std::string title;                 // `Thrennay estate, site quernholt, 2026-06-15`
  std::string counts;                // where it is not all of the list: what is not told again, on the first screen
  std::vector<std::string> first;    // what must not wait, in short lines
  std::vector<std::string> opening;  // sentences
  std::vector<LetterPart> parts;
  std::vector<std::string> word;      // of the week: sentences
  std::vector<std::string> closing;   // sentences
  bool sends_people = false;          // to machines: with all steps
  std::vector<std::string> cautions;  // of its tasks
  std::string last;                   // the last line
};

// Said once a week, or none.
using WordOfTheWeek = std::optional<service::WeeklyWord>;

// `command`: how printed commands begin (`Look`).
Letter letter_of_news(const service::DueList& list, const service::OverdueNews& news, const WordOfTheWeek& word,
                      const std::string& command);

// Nothing is overdue and all is known, and it is the day to say so, with what is due. All is well where nothing is.
Letter letter_of_week(const service::DueList& list, const service::WeeklyWord& word, const std::string& command);

struct FailedFleet {
  std::string name;       // empty: not known
  bool was_read = false;  // so that what failed is the record
};

// A message said that there was no list; there is one, nothing is overdue and all is known.
Letter letter_of_return(const service::DueList& list);

// There is no list, and why.
Letter letter_of_failure(const service::Failure& failure, const FailedFleet& fleet, const std::string& command);

// The last message said, on that day, that there was no list. Said in the letter.
void say_list_again(Letter& letter, service::Day last);

// What was mailed before could not be read from that file: `problem`, such as `is damaged`. Said in the letter.
void say_not_known_before(Letter& letter, const std::string& file, const std::string& problem);

// The longest line of its text. Up to 78 may stand in mail; a line of 76 in plain letters is not broken on the way, so
// that a message can be read as it is.
inline constexpr std::size_t mail_columns = 76;

// The longest line of its head, which is all seen on a telephone's first screen, and not broken there in mid line.
inline constexpr std::size_t head_columns = 44;

std::string letter_as_text(const Letter& letter);
std::string letter_as_html(const Letter& letter);

}  // namespace cli
