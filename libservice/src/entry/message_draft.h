// A line of a pasted text on its way: what it is to say, and what becomes of it.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "entry/message_stamps.h"
#include "service/messages.h"

namespace service::entry {

// A line and what it is to say, before anybody knows what the book holds of it.
struct Draft {
  MessageLine line;
  std::string said;              // without what the messenger put before it
  std::optional<Stamped> stamp;  // its own, or that of the line above it
  std::size_t block = 0;         // of lines that one stamp holds for
  std::optional<Day> sent_on;
  bool sent_counts = false;   // that is a word such as `Today`, which is another day when the text is read again
  std::string no_day;         // why that is not known, where a stamp stands above
  bool above_stamps = false;  // no stamp stands above it, and one below
  bool names_day = true;      // a day that is the same whenever the text is read
  bool own_day = false;       // it says its day itself
  bool day_counts = false;    // it says `today` or the like
  bool own_words = false;     // beside a listed sign it says something in somebody's own words
  bool asked_back_for_others = false;  // for what other lines say, and for nothing in itself
  std::vector<Fact> facts;
  std::vector<bool> is_new;  // of these facts: not in the book, and not said before
};

inline void refuse(Draft& draft, Diagnostic why) {
  draft.line.fate = LineFate::refused;
  draft.line.wrong = {std::move(why)};
}

// By their stamps, or by their lines in one message. False where nobody can tell.
bool sent_before(const Draft& a, const Draft& b);

// The drafts in the order in which their lines were sent: blocks that have a day and a time by those, the others where
// they stand.
void put_in_order(std::vector<Draft>& drafts);

}  // namespace service::entry
