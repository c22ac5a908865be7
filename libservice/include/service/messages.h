// Messages from the field: text that people send from a machine and somebody pastes in, a line each in the few words of
// a command.
//
//   loader 1511.4                              what a meter shows; also `reading loader 1511,4 yesterday`
//   done loader engine-oil 1511.4 by M.T.      a service; names may have blanks for hyphens
//   saw loader leak                            a sign; saw loader restriction=6.2 kPa: a measurement
//   looked loader leak by M.T. found good      and no more; found worn: a hose has split
//   out-of-use loader brakes pull to one side
//
// What is certain is taken, and nothing is guessed: a line that can be read in no way or in two is refused whole, and
// says what it would need to hear. What clears something (a service, a look that finds good, a measurement back within
// its limit, a reading that takes something off the overdue list) is taken only where the whole text speaks with one
// voice. It is refused
//   - where a line of its sender or of nobody is not taken, or one of anybody that may speak of it: that names its
//     machine or its work, denies something, or stands right beside it and is about nothing else; of what never waits,
//     any later one but plain talk;
//   - where it is a check that puts nothing in, done at a value at its limit, or at a sign of what never waits;
//   - where a line says of its machine something in its own words, or of another one in words that name it or its work,
//     or a listed sign later, or nobody knows when;
//   - where its day is not certain, or a sign of the record may be newer;
//   - where no plain name stands where the sender does.
// What says beside a sign that its machine must not run is taken as both where it is certain (`told_signs.h`); else the
// sign is taken, and that is asked for.
// Two values of one meter that cannot both be right are both refused, where nothing tells which of them is wrong.
// One text is one command.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/entry.h"

#pragma GCC visibility push(default)

namespace service {

struct MessagesAsk {
  std::string text;    // in lines; UTF-8, or UTF-16 with a byte order mark
  std::string origin;  // `import FILE`
  Day today;
  bool day_is_given = false;
  std::optional<Day> on;  // of lines that name no day, and of which no stamp says any; else today
  std::string by = {};    // who did it, where a line of a service or a look does not say
  bool dry_run = false;
};

enum class LineFate {
  taken,          // its facts are stored, those that were not there yet
  already_there,  // the book holds all that it says
  said_before,    // an earlier line of the same text says the same
  heading,        // says only when, or by whom, the lines below it were sent
  refused,        // nothing of it is stored
};

std::string_view to_text(LineFate fate);  // `already-there`

// One line. Blank ones are left out.
struct MessageLine {
  int number = 0;    // in the text, from 1
  std::string text;  // as it was written, without its line end
  LineFate fate = LineFate::refused;
  std::string sender = {};  // as the messenger put it before the line; never taken for who did the work
  // Of what it says; where that is not understood and no day stands in it, when it was sent.
  std::optional<DaySpan> on = {};
  std::vector<Fact> facts = {};        // that were added, or would be; in the order of the book
  std::vector<Diagnostic> wrong = {};  // of a line that is refused: what it would need to hear
  int as_line = 0;                     // of one that was said before: where
  // Of one that is taken: what else it may say, that has to be sent for certain. Where that is that the machine must
  // not run, none is left once it is out of use.
  std::vector<Diagnostic> asks = {};
  // A sign of it is kept in its own words, and this is near it.
  std::optional<NearName> near = {};
  std::size_t near_fact = 0;  // which of its facts that is
  // Of one that is understood and refused for what else is said or may be meant: what it says, to be entered by a
  // command. Empty where that would answer a sign that may be newer.
  std::vector<Fact> instead = {};
  bool who_is_missing = false;  // that command has to say who did it
  // Signs that what it says answers, from then on.
  std::vector<Fact> clears = {};
  // It was in the book already, and was answered since by something that this text does not tell of: it is taken as
  // seen anew, for what a worker saw must not vanish.
  bool anew = false;
};

struct Messages {
  std::vector<MessageLine> lines;
  bool utf16 = false;  // how the text was written
  Entered entered;     // by all lines together
};

// Lines are taken in the order in which they were sent, as far as their stamps say; they are told in that of the text.
// Reads, judges and stores, in one transaction. A line that says what the book holds already (the n-th equal one of a
// day, as rows of a file) adds nothing. Fails with bad_data where the text is none of messages: too long, broken
// UTF-16; else as `enter` does, but for what is wrong with a line.
Messages enter_messages(const std::shared_ptr<const Fleet>& fleet, Record& record, const MessagesAsk& ask,
                        const Writer& writer);

// What is to be minded of one line: the same answer, about its facts alone. Its due lists stay those of the whole.
Entered part_of(const Messages& messages, const MessageLine& line);

// And what is to be minded that none of the lines alone brought about, such as a doubt that was there before.
Entered rest_of(const Messages& messages);

bool is_refused(const MessageLine& line);

// Nothing has to be sent anew: it is not refused, and asks for nothing beside what is taken.
bool is_settled(const MessageLine& line);

}  // namespace service

#pragma GCC visibility pop
