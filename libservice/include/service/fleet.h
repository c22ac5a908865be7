// The fleet as its owner wrote it: machines, their schedules, sites, seasons, parts and crews.
//
//   Fleet
//   ├── schedules: Schedule ── tasks: Task ── every, first, in: Limb...   what a kind of machine needs
//   ├── machines:  Machine  (schedule, site, meters, conditions, change)
//   ├── sites, seasons, parts, crews, calls
//   └── defaults: grace, stale-after, time-zone
//
// Read with `load_fleet_files` (the only place that touches the disk) and `read_fleet` (pure), or filled in by a
// program and `checked`. Such a Fleet is consistent: every name that it mentions exists in it. Order is the order in
// which things were written.
#pragma once

#include <chrono>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "service/base.h"

#pragma GCC visibility push(default)

namespace service {

// --- Meters and limbs --------------------------------------------------------------------------------------

struct Meter {
  std::string name;
  std::string unit;                     // `h` is an hour meter; anything else is counted in its own unit
  std::optional<Amount> rolls_over_at;  // the value after which it shows 0 again
};

enum class CalendarUnit { days, weeks, months, years };

struct CalendarSpan {
  CalendarUnit unit = CalendarUnit::months;
  int count = 0;
  friend bool operator==(const CalendarSpan&, const CalendarSpan&) = default;
};

std::string to_text(const CalendarSpan& span);  // 12 months, 1 year

Day after(Day from, const CalendarSpan& span);

// Due when usage since fitted reaches the interval. `hours: 250` names no meter: it is the machine's first meter in h.
struct UsageLimb {
  std::optional<std::string> meter;
  Amount every;
};

// Due when the interval has passed since fitted.
struct CalendarLimb {
  CalendarSpan every;
};

// Due when another task was done so many times since.
struct ChangesLimb {
  std::string task;
  int count = 0;
};

// Due when the latest measurement reached the limit, from below (`above:`) or from above (`below:`).
struct MeasuredLimb {
  std::string name;
  bool above = true;
  Measure limit;
  std::string unit;
};

// Due when one of these signs was seen since fitted.
struct SignLimb {
  std::vector<std::string> signs;
};

// Due so many days before the season's start, each year.
struct SeasonLimb {
  std::string season;
  int lead_days = 0;
};

using Limb = std::variant<UsageLimb, CalendarLimb, ChangesLimb, MeasuredLimb, SignLimb, SeasonLimb>;

enum class LimbKind { usage, calendar, changes, measured, sign, season };  // in the order of the variant

LimbKind kind_of(const Limb& limb);
std::string_view to_text(LimbKind kind);

// How far past a due point is still "due". A limb whose unit is not named keeps the fleet's default.
struct Grace {
  std::optional<int> percent_hundredths;  // 10% is 1000; of each limb's own interval
  std::optional<Amount> hours;            // for every meter in h
  std::map<std::string, Amount> usage;    // by meter
  std::optional<int> days;                // for calendar, sign and season limbs
  std::optional<int> changes;
};

// --- Schedules ---------------------------------------------------------------------------------------------

// Where the next interval of each limb starts.
enum class CountsFrom {
  done,     // from when it was done
  due,      // from the due point if it was done within grace of it, on either side; else from when it was done
  earlier,  // from the due point or when it was done, whichever is earlier
};

struct Quantity {
  PartAmount amount;
  std::string unit;  // L, kg
};

// A check owed once after each time its task is done. In facts and commands its name is `task/check`.
struct FollowUp {
  std::string name;
  std::string doing;
  std::vector<Limb> within;                   // usage and calendar limbs only
  std::optional<std::chrono::minutes> takes;  // one person
  std::vector<std::string> tools;             // none named: those of its task may be needed
};

struct Task {
  std::string name;
  std::string doing;                                          // `do:`
  std::vector<Limb> every;                                    // as written; never empty
  std::vector<Limb> first;                                    // for the running-in interval
  std::vector<std::pair<std::string, std::vector<Limb>>> in;  // by condition
  std::optional<Grace> grace;
  bool safety = false;
  CountsFrom counts_from = CountsFrom::done;
  bool until_month_end = false;
  std::vector<std::string> covers;
  std::vector<FollowUp> follow_ups;
  std::vector<std::string> positions;         // empty: the task has no positions
  std::optional<std::chrono::minutes> takes;  // each of its people
  std::optional<Money> late;                  // what skipping it once would cost on average
  std::vector<std::string> needs;             // skills that whoever does it has
  int people = 1;
  bool competent_person = false;                          // `by-whom: competent-person`
  std::vector<std::pair<std::string, PartAmount>> parts;  // number of pieces by part
  std::vector<std::pair<std::string, Quantity>> fluids;
  std::vector<std::string> tools;
  std::vector<std::string> cautions;  // as written: names of the catalogue, or sentences; see service/cautions.h
  // Its own and those of all that it covers, for whoever does it also does that: each once, in the order of the
  // catalogue. A check that follows it carries the same. Filled in by the reader.
  std::vector<std::string> all_cautions;
  std::vector<std::string> steps;
  std::string notes;
  Place place;
};

// Of these it is never said that they can wait: work for safety, a check that follows it (`check`, else null), and what
// a competent person does.
inline bool never_waits(const Task& task, const FollowUp* check) {
  return task.safety || (task.competent_person && check == nullptr);
}

struct Schedule {
  std::string name;
  std::vector<Meter> meters;
  std::vector<Task> tasks;
  bool example = false;                           // its values are nobody's yet
  const Task* task(std::string_view name) const;  // null where there is none
};

// --- Machines ----------------------------------------------------------------------------------------------

enum class StartKind { unknown, in_service, bought };

// `in-service:` a machine put to work new on that day; `bought:` a used one, whose earlier services are not known.
struct Start {
  StartKind kind = StartKind::unknown;
  DaySpan on;
  std::optional<Amount> at;  // of its first meter
};

// `change:` what this machine does differently from its schedule. What is not named stays.
struct TaskChange {
  std::string task;
  std::vector<Limb> every;
  std::vector<Limb> first;
  std::optional<Grace> grace;
  std::optional<std::vector<std::string>> positions;
  std::optional<std::chrono::minutes> takes;
  std::optional<std::vector<std::pair<std::string, PartAmount>>> parts;
  std::optional<std::vector<std::pair<std::string, Quantity>>> fluids;
  std::optional<std::string> notes;
};

// Usage that the owner expects. The seasons are inside the year, not beside it.
struct Expect {
  std::optional<Amount> per_year;
  std::vector<std::pair<std::string, Amount>> by_season;
};

struct Machine {
  std::string key;
  std::string name;
  std::string schedule;
  std::string site;  // empty: no site
  Start start;
  std::optional<Day> left;    // sold or scrapped: from that day on it has no service points
  std::vector<Meter> meters;  // its own, else its schedule's; filled in by the reader
  Expect expect;
  std::vector<std::string> conditions;
  std::vector<TaskChange> change;
  std::string serial;
  std::string notes;
  Place place;

  const Meter* meter(std::string_view name) const;  // null where there is none
  const Meter* first_meter() const;                 // null for a machine without meters
  const Meter* first_hour_meter() const;
  const TaskChange* change_to(std::string_view task) const;  // null where it does nothing differently
};

// --- Everything around them --------------------------------------------------------------------------------

enum class Weekday { monday, tuesday, wednesday, thursday, friday, saturday, sunday };

struct ClockSpan {  // minutes since midnight
  int from = 0;
  int to = 0;
};

using WeekHours = std::map<Weekday, std::vector<ClockSpan>>;

struct Coordinates {  // millionths of a degree
  std::int64_t latitude = 0;
  std::int64_t longitude = 0;
};

struct Site {
  std::string key;
  std::string name;
  std::optional<Coordinates> at;
  std::chrono::minutes set_up{0};  // from the gate to the first spanner, at each visit
  std::optional<WeekHours> open;   // none: always open
  std::vector<Day> closed_on;
  std::vector<std::string> closed_in;  // seasons
  std::string contact;
  std::string access;
  std::string customer;
};

struct Season {
  std::string key;
  MonthDay from;
  MonthDay to;  // earlier in the year than `from`: it runs over New Year
};

struct SeasonDays {
  Day from;
  Day to;  // inclusive
};

// Of the season that begins in that year.
SeasonDays days_of(const Season& season, int year);

struct Part {
  std::string key;
  std::string number;
  std::string what;
  std::string unit;
  std::optional<PartAmount> pack;
  std::optional<Money> price;    // of one unit
  std::optional<int> lead_days;  // from order to delivery
  std::optional<PartAmount> stock;
  std::string supplier;
};

struct Crew {
  std::string key;
  std::string name;
  std::string start;
  std::string end;
  WeekHours hours;
  std::optional<std::chrono::minutes> duty;
  std::chrono::minutes meal{0};
  std::vector<std::string> qualified_for;
  std::vector<std::pair<std::string, PartAmount>> carries;  // pieces of parts that are always on board
  std::vector<Day> off;
  int people = 1;
  std::optional<Speed> speed;
  std::optional<Money> per_hour;
  std::optional<Money> per_km;
};

// The way from one site to another, in that direction alone, as somebody knows it.
struct TravelRow {
  std::string from;
  std::string to;
  int minutes = 0;
  int tenths_of_km = 0;
};

struct Travel {
  Factor road_factor{130};
  Speed speed{5000};
  std::string table;            // file name, empty where there is none
  std::vector<TravelRow> rows;  // of that file, put in the order of `from`, then `to`
};

struct Costs {
  std::optional<Money> hour;
  std::optional<Money> km;
  std::optional<int> late_percent;
  std::optional<int> later_trip_percent;
};

struct Call {
  std::string key;
  std::string site;
  std::string machine;
  std::string doing;
  std::chrono::minutes takes{0};
  std::optional<Money> wait;  // a day
  std::optional<Day> from;
  std::optional<Day> by;
  std::vector<ClockSpan> between;
  bool safety = false;
  std::vector<std::string> needs;
};

struct Mail {
  std::vector<std::string> to;  // plain addresses of ASCII, as they may stand in the head of a message
  std::string from;             // likewise; empty: none is given
  std::optional<Weekday> weekly_word = Weekday::monday;  // none: turned off
};

struct FleetIndex;  // positions by name

struct Fleet {
  std::string name;
  std::string time_zone;  // IANA name; empty where the file gives none (days are then UTC days)
  Grace grace;
  int stale_after_days = 60;
  Mail mail;
  std::vector<Site> sites;
  std::vector<Season> seasons;
  std::vector<Machine> machines;
  std::vector<Schedule> schedules;
  std::string currency;
  std::vector<Part> parts;
  std::vector<Crew> crews;
  std::optional<Travel> travel;
  Costs costs;
  std::vector<Call> calls;
  std::vector<Diagnostic> remarks;          // no errors, but worth a look: said by `check`
  std::shared_ptr<const FleetIndex> index;  // made by the reader for the look-ups below; they work without it, slower
  // Of every byte of the files that it was read from; none where a program put it together. Whoever changes a fleet
  // that was read takes it away: what was worked out of the one is not taken for the other.
  std::optional<std::uint64_t> files_checksum;

  const Machine* machine(std::string_view key) const;  // null where there is none; so the next three
  const Schedule* schedule(std::string_view name) const;
  const Season* season(std::string_view key) const;
  const Site* site(std::string_view key) const;
  const Schedule& schedule_of(const Machine& machine) const;  // of a machine of this fleet
};

// What somebody means by what he wrote: the thing with that key, else the only one whose key or name it is but for case
// and blanks (`folded_name`; in a key hyphens may be blanks).
template <class Thing>
struct Named {
  const Thing* one = nullptr;          // null: nothing, or it is not clear which; points into the fleet
  std::vector<const Thing*> several;   // that it may be, where it is more than one
  std::vector<std::string> near = {};  // the keys of things that are written nearly so, where nothing is
};

Named<Machine> machine_named(const Fleet& fleet, std::string_view written);
Named<Site> site_named(const Fleet& fleet, std::string_view written);
Named<Season> season_named(const Fleet& fleet,
                           std::string_view written);  // seasons have no other names than their keys

// Intervals that may well be slips: a running-in interval that is not shorter than the normal one, a condition under
// which something comes due later than without it, a machine's own interval that is the schedule's. As remarks.
std::vector<Diagnostic> odd_intervals(const Fleet& fleet);

// --- Reading -----------------------------------------------------------------------------------------------

// The texts of a fleet folder by their names within it: `fleet.yaml`, `schedules/pump.yaml`, `register.csv`, and the
// travel table by the name that fleet.yaml gives it.
struct FleetFiles {
  std::filesystem::path folder;  // how to name the files in messages; may be empty
  std::map<std::string, std::string> texts;

  // What `keep_compiled` left in the folder, else empty: the fleet as it was read. It only ever saves time. Where one
  // of the files does not equal byte for byte the one that was read, or the compiled text is damaged or made by other
  // text of this program, all is read again.
  std::string compiled = {};
};

// Reads the folder's files into memory.
// Fails with not_found where there is no such folder or no fleet.yaml in it, io where a file cannot be read.
FleetFiles load_fleet_files(const std::filesystem::path& folder);

// Fails with bad_fleet, carrying every error of all files in the order of files and lines.
Fleet read_fleet(const FleetFiles& files);

// What fleet.yaml says of mail where these files cannot be read as a fleet, so that somebody hears of it: as far as
// that part stands. Nothing where nobody to write to can be made out.
std::optional<Mail> mail_of(const FleetFiles& files);

// And what the fleet is called, as far as that can be made out; else empty.
std::string name_of(const FleetFiles& files);

// A fleet that was filled in by a program, checked by the rules by which files are: names that are mentioned exist and
// are given once, limbs find their meters on every machine and have sizes that can be written, no tasks cover each
// other in a ring, no machine left before it began. A machine without meters gets its schedule's, names that are left
// out are the keys, and the look-ups become fast; `remarks` and `index` are made anew, and places of things are kept.
// Fails with bad_fleet, carrying every error. They have no place in a file; their messages say of what they are:
// "the machine `pump-3`: there is no site `yrad`".
Fleet checked(Fleet fleet);

// The fleet as it was read from these files, as the text of `FleetFiles::compiled`. Empty for one of other files.
std::string compile_fleet(const FleetFiles& files, const Fleet& fleet);

// Whether `files.compiled` serves for these files.
bool is_compiled(const FleetFiles& files);

// Leaves the compiled text of these files in their folder, as `.compiled-fleet`, for later readings; in whole or not at
// all. Where that cannot be, nothing is said, for nothing but time is lost. The file may be deleted at any time.
// `fleet`: as it was read from them.
void keep_compiled(const std::filesystem::path& folder, const FleetFiles& files, const Fleet& fleet) noexcept;

}  // namespace service

#pragma GCC visibility pop
