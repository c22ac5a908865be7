// What is mailed of the overdue list: all of it, or what is new or worse since it was last handed over; and the word
// that comes once a week, though all is well, because a dead machine is silent too.
//
//   Handed before = ...;  // parse_handed of the file that was kept
//   OverdueNews news = overdue_news(list, &before);
//   if (!news.blocks.empty()) ...hand it over, and only then keep to_text(news.then)
//
// News points into its list, and lives as long as that. Nothing here fails, or reads a clock or a file.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "service/due_list.h"
#include "service/not_to_run.h"

#pragma GCC visibility push(default)

namespace service {

// What stands under one heading of the overdue list, kind by kind.
struct BlockParts {
  std::vector<const MachineUse*> machines;
  std::vector<const SeenSign*> seen;
  std::vector<const Gap*> gaps;  // but for those that a line of `no_record` tells
  std::vector<const Point*> points;
  std::vector<NoRecord> no_record;

  // How many things people read of: a machine without record is one, and so are the examples of a schedule.
  std::size_t lines() const;
};

BlockParts parts_of(const OverdueBlock& block, const DueList& list);

struct HeadingCount {
  OverdueHeading heading = OverdueHeading::overdue;
  std::size_t lines = 0;
  friend bool operator==(const HeadingCount&, const HeadingCount&) = default;
};

// How much there is on the list, or in a message. Of machines that nobody may run there is one count, whatever forbids
// it and wherever that stands: of one that is laid up too. So nothing is counted under `out_of_use` and `do_not_run`.
struct OverdueCounts {
  std::size_t not_to_run = 0;                       // machines
  std::vector<HeadingCount> others;                 // under each of the other headings, in their order; none of them 0
  std::size_t under(OverdueHeading heading) const;  // of these
  friend bool operator==(const OverdueCounts&, const OverdueCounts&) = default;
};

OverdueCounts overdue_counts(const DueList& list);

// --- What was said before ----------------------------------------------------------------------------------

// How far past its due point something was said to be.
struct SaidOver {
  std::int64_t far = 0;      // in hundredths of the meter's unit, in days or in changes, as the limb counts
  bool by_estimate = false;  // nobody read it
  friend bool operator==(const SaidOver&, const SaidOver&) = default;
};

// One entry of the list as it stood when a message that held it was handed over. A machine that was laid up then is
// kept as well, though no line of the list is about it alone: what is open on it is news when it is back.
struct SaidEntry {
  std::string name;   // what it is about
  std::string since;  // what it stands on (a fitting, a sign, a reading): on something else it is another entry
  OverdueHeading heading = OverdueHeading::overdue;
  std::map<std::string, SaidOver> over;  // by limb
  friend bool operator==(const SaidEntry&, const SaidEntry&) = default;
};

struct Handed {
  std::string fleet;  // its name
  Day on;             // the day of the message
  std::vector<SaidEntry> entries;
  // The day of the last weekly word that was handed over; before the first one the day from which it is owed.
  std::optional<Day> word;
  // How many messages that there is no list (`NoLists`) had been handed over before it.
  int no_lists = 0;
  friend bool operator==(const Handed&, const Handed&) = default;
};

// How it is kept: plain lines with a checksum.
std::string to_text(const Handed& handed);

// What was kept for this fleet. Whatever is damaged, of another fleet or of a later day than `today` is a problem, and
// nothing: then all is told again.
Parsed<Handed> parse_handed(std::string_view text, std::string_view fleet, Day today);

// The name of the file in the fleet's folder; of messages about one site `.mailed-SITE`, for what one of them told the
// other did not.
inline constexpr std::string_view handed_file = ".mailed";
std::string handed_file_of(const Scope& scope);

// Messages that were handed over in place of a list, for none could be made: whoever got one knows nothing until he is
// told that there is a list again, with all that is open. What keeps lists from being made is the whole fleet's, so
// there is one count for messages of all sites.
struct NoLists {
  int count = 0;
  Day last;  // means nothing where there was none
  friend bool operator==(const NoLists&, const NoLists&) = default;
};

std::string to_text(const NoLists& sent);
Parsed<NoLists> parse_no_lists(std::string_view text);

// Such a message was handed over since `before`: the next list is told whole, and one that is empty is told as well.
bool owes_whole_list(const Handed* before, const NoLists& sent);

// The name of the file in the fleet's folder that holds them.
inline constexpr std::string_view no_lists_file = ".no-list";

// And of the one that holds the day of the last backup.
inline constexpr std::string_view backed_up_file = ".backed-up";

// --- News --------------------------------------------------------------------------------------------------

// How far past its due point something was when it was last told, and is now: in hundredths of the meter's unit, in
// days or in changes, as the limb counts. Where something is worse by one limb, this tells the others as well that were
// past it then.
struct Further {
  const LimbStanding* limb = nullptr;  // null: of a gap, in days
  std::optional<SaidOver> was;         // none: not past it then
  SaidOver is;
};

// Its machine was out of use or laid up when that was last said, and is in use again.
struct BackInUse {
  OverdueHeading was = OverdueHeading::out_of_use;  // or laid up
  std::optional<Day> since;                         // none: nobody asked the record
};

// An entry of the message that was told before, and has become worse, was seen again or stands under another heading;
// or one of a machine that is back in use, told before or not.
struct ToldBefore {
  OverdueEntry entry;
  std::optional<OverdueHeading> was_under = {};  // another one
  std::vector<Further> further = {};             // of the same heading, where a limb is worse
  std::optional<BackInUse> back = {};
  const Sighting* seen_again = nullptr;  // of what somebody saw: the last time, where the message told of earlier ones
  bool looked_since = false;             // likewise: somebody looked since then, and did not find it good
  std::vector<UseReason> reasons_since = {};  // of a machine out of use: what was said of it since then
};

// All that must not wait of a machine, in one line.
struct UrgentLine {
  const Machine* machine = nullptr;
  std::vector<OverdueEntry> entries;  // what forbids to run it first, else in the order of the list
  std::size_t causes = 0;             // so many of them, the first ones, forbid it
  const RunBan* ban = nullptr;        // all that forbids it, told before or not; null: it may be run. Of `not_to_run`
};

struct OverdueNews {
  std::vector<OverdueBlock> blocks;  // what the message holds, in the order of the overdue list
  OverdueCounts counts;              // of them; machines of which they hold what forbids to run them
  // Of them: what must not wait. What nobody may run; what somebody saw and nobody has found good; of what never waits,
  // what is past its due point and what nobody knows; and of a machine that is back in use, all that is past it. A line
  // a machine, those of machines that nobody may run first.
  std::vector<UrgentLine> first;
  NotToRun not_to_run;                  // of the whole list, told before or not
  std::vector<ToldBefore> told_before;  // of the blocks; all others are new
  bool everything = true;               // else only what is new or worse, and
  OverdueCounts said_before;            // what stands in the list and not in the blocks
  Handed then;                          // what has been said once this is handed over

  const ToldBefore* told(const Point& point) const;  // null: new
  const ToldBefore* told(const Gap& gap) const;
  const ToldBefore* told(const SeenSign& seen) const;
  const ToldBefore* told(const MachineUse& use) const;
};

// What of `first` stands at the head of a message that has room for so many machines.
struct UrgentHead {
  std::vector<const UrgentLine*> lines;
  std::size_t machines_left_off = 0;
  std::vector<HeadingCount> left_off;  // what is told of those, by heading: all that nobody knows of a machine is one
};

// A machine that nobody may run always has its line; none is left off alone, for it takes the line that would say so.
// Points into the news.
UrgentHead urgent_head(const OverdueNews& news, std::size_t room);

// The machine of an entry; null: of none, or of one that the fleet does not list.
const Machine* machine_of(const OverdueEntry& entry, const Fleet& fleet);

// Null: all of the list. Else what is not in `before`, what stands under another heading now, what was seen or measured
// again, what is over by twice what was last said, and every point and sign of a machine that was out of use or laid up
// then and is back: what put it out of use may be among them. `snapshot`: what the list was made from; it tells since
// when a machine is back.
OverdueNews overdue_news(const DueList& list, const Handed* before = nullptr, const Snapshot* snapshot = nullptr);

// Machines that are kept on that day and have no site, where others have one: no list of a site, and so no message
// about one, holds them. Points into the fleet.
std::vector<const Machine*> machines_without_site(const Fleet& fleet, Day day);

// --- The weekly word ---------------------------------------------------------------------------------------

// Where only news is mailed (`always`) it holds the whole list, and nobody turns it off.
bool has_weekly_word(const Fleet& fleet, bool always);

// Whether it comes on that day: it is owed until it is handed over. So it comes on its weekday, or on the first day
// after it, where it was handed over on no day since (`Handed::word`). Where nothing tells that, on its weekday alone.
bool weekly_word_is_on(const Fleet& fleet, Day day, bool always, std::optional<Day> last = {});

// Its days since the last one that was handed over and before this day: on none of them it was. None where nothing
// tells of a last one.
std::vector<Day> weekly_words_missed(const Fleet& fleet, Day day, std::optional<Day> last);

struct WeeklyWord {
  int machines = 0;                // that are kept
  const Point* next = nullptr;     // the earliest that is not due yet and comes due; null: nothing can be expected
  bool by_meter = false;           // something comes due by a meter
  std::optional<Day> newest;       // reading, of any meter by which something comes due
  const Point* longest = nullptr;  // a point of the meter that went unread longest, of machines in use; null: none
  std::optional<Day> longest_since;
  std::optional<Day> backup;  // the last one; none: not known of any
  // By facts or by estimate, and neither overdue nor what forbids to run its machine; in the order of the list.
  std::vector<const Point*> due;
  std::vector<Day> missed;  // weekly_words_missed
};

// Of a list whose days were reckoned (`Detail::everything`), and points into it.
WeeklyWord weekly_word(const DueList& list, std::optional<Day> backup, std::vector<Day> missed = {});

}  // namespace service

#pragma GCC visibility pop
