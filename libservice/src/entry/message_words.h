// What one line of a message says: its words as facts, or what it would need to hear.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/fleet.h"
#include "service/record.h"
#include "service/snapshot.h"

namespace service::entry {

// What the words of a line are read beside.
struct Told {
  const Fleet& fleet;
  Day today;                      // from which `yesterday` counts: the day on which it was sent
  std::optional<Day> on;          // of lines that name no day; none: nobody can tell
  std::string no_day;             // why there is none
  bool counts_from_today = true;  // else nobody can tell which day `yesterday` is
  std::string by;                 // who did it, where the line does not say
  // The names by which somebody can say that he has looked, beside the listed signs.
  std::function<std::vector<std::string>(const Machine& machine)> seen;
  // Somebody whom the book knows, as it has his name.
  std::function<std::optional<std::string>(std::string_view written)> somebody;
};

// What a line says: at least one fact, all about one machine.
struct Said {
  std::vector<Fact> facts;
  bool names_day = true;              // else they are of `Told::on`
  bool day_counts = false;            // by a word that counts from when it was sent: told a day later it is another day
  bool own_words = false;             // beside a listed sign something is said in somebody's own words
  std::vector<Diagnostic> asks = {};  // what may be said beside these facts, and has to be sent for certain
};

// Whether these words can begin what somebody says: a command, or a machine.
bool begins_a_message(const Fleet& fleet, std::string_view text);

// The same, or their first ones are near to it: `lodaer 1511.4`.
bool may_begin_a_message(const Fleet& fleet, std::string_view text);

// What stands before the name of a machine; nothing where it begins with a command, also one that is not taken. None:
// it names no machine.
std::optional<std::string> before_machine_told(const Fleet& fleet, std::string_view text);

// The machine that a line is about, or the two that it may be about; none where it names none.
std::vector<std::string> machines_in(const Fleet& fleet, std::string_view line);

// With the book's own names in it. Fails with usage.
Said said_in(std::string_view line, const Told& told);

}  // namespace service::entry
