// What could be done about something that is wrong, as data.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#pragma GCC visibility push(default)

namespace service {

// What could be done about something that is wrong. Whoever shows it words it: as a command line, on a form, aloud.
// The values that a kind carries stand beside it; those in brackets may be missing.
enum class CureKind {
  mend_value,        // the value is wrong: [slip] `point`: a decimal point may be missing; `day`: or its day is wrong
  other_meter,       // it is what another meter of the machine shows: machine, meter, [tasks]: only these of the
                     // services told count by it
  mend_earlier_row,  // an earlier row of the same file is wrong
  mend_start,        // the value that the fleet file gives for the machine's start is wrong: machine
  change_meter,      // the meter was replaced: machine, meter, last, first, on
  roll_over,         // the meter went past its highest value: machine, meter, on
  strike_fact,       // a fact is wrong: fact, [which] `earlier`, `later`, `in-the-way`, `either`, `second`: how it
                // stands to the others; `doubtful`: it is hard to believe. Of a value: [shown], with its unit, [on]
  confirm_value,  // a value that is hard to believe is right all the same: machine, [meter], on, and at, or last and
                  // first
  show_facts,     // look up the ids of facts: [machine]
  look_before_again,  // see what is stored before entering it again
  ask_due_list,       // ask what is due
  save_legible,       // write out what can be read of a damaged record
  make_fleet,         // begin a fleet in that folder
  tell_decimal_mark,  // say whether the file has decimal points or commas; [decimal]: that it has these
  tell_date_order,    // say whether the file has the day or the month first
  next_season,        // name no year, and ask about the next one
  // say that it was found failed, or without the words that say so: machine, did (`looked`, `done`), what, by, note
  tell_found,
  take_out_of_use,  // let nobody run it until it is done: machine
  tell_columns,     // say which column of a spreadsheet holds what: [heading, column]: this one, if it is so
  leave_out,        // go on without what is wrong
  tell_who,         // name whoever it was: did, what he did: `did it`, `looked`
  ask_season        // what was named is a season: season
};

std::string_view to_text(CureKind kind);  // `strike-fact`

struct Cure {
  CureKind kind = CureKind::mend_value;
  // By name, each in the form that the strict readers take.
  std::vector<std::pair<std::string, std::string>> values = {};

  std::string_view value(std::string_view name) const;  // empty where there is none
};

}  // namespace service

#pragma GCC visibility pop
